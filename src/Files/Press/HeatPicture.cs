using System.Globalization;
using System.Security;
using System.Text;
using Coldpeel.Craft.Press.Heat;
using Coldpeel.Files.Artwork;
using Coldpeel.Files.Artwork.Fonts;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Press;

/// <summary>
/// Two drawings of a stack: temperature over time under every layer, and through the stack at chosen times. White on the ground of a dark garment; the glue
/// line is thick and in the accent, and every line has its name at its end, so that colour alone tells nothing.
/// </summary>
public static class HeatPicture
{
    private const string Ground = "#14181d";
    private const string Raised = "#1e242b";
    private const string Line = "#3d4752";
    private const string Ink = "#ffffff";
    private const string Quiet = "#b9c3cd";
    private const string Accent = "#ffb454";
    private const double Width = 1000;
    private const double Left = 64;
    private const double Right = 790;
    private const double PanelHeight = 330;
    private const double TopOver = 74;
    private const double TopThrough = TopOver + PanelHeight + 140;
    private const double Height = TopThrough + PanelHeight + 40;
    private const int PointsInStage = 240;
    private static readonly double[] RoundSteps = [1, 2, 5, 10];
    private static readonly string[] Dashes = ["", "9 4", "3 3", "12 3 3 3", "1 4", "6 2"];

    /// <summary>The picture as SVG.</summary>
    /// <param name="problem">The stack.</param>
    /// <param name="answer">What it felt, with the whole stack at the chosen times.</param>
    public static string Svg(HeatProblem problem, HeatAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(answer);
        var svg = new StringBuilder();
        svg.Append(
            I(
                $"<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{Width}\" height=\"{Height}\" viewBox=\"0 0 {Width} {Height}\" font-family=\"{InterFonts.Family}, sans-serif\" font-size=\"14\" fill=\"{Ink}\" role=\"img\" aria-label=\"Temperature in the stack over time and through its depth\">\n<rect width=\"{Width}\" height=\"{Height}\" fill=\"{Ground}\"/>\n"
            )
        );
        OverTime(svg, problem, answer);
        Through(svg, problem, answer);
        return svg.Append("</svg>\n").ToString();
    }

    /// <summary>The picture as PNG, twice as fine as the SVG's own points.</summary>
    public static byte[] Png(HeatProblem problem, HeatAnswer answer)
    {
        Outcome<SourceArtwork> read = SvgArtwork.Read(Encoding.UTF8.GetBytes(Svg(problem, answer)), "heat picture");
        var drawing = read.Ok ? read.Value : throw new InvalidOperationException(read.Fault.ToString());
        var picture = drawing.Draw(drawing.OwnWidthMm, drawing.OwnHeightMm, 2 * Width / drawing.OwnWidthMm);
        return PngFile.Write(
            picture.Width,
            picture.Height,
            8,
            PngFile.Colour.Rgb,
            [],
            picture.PixelsPerMm,
            (y, row) =>
            {
                for (var x = 0; x < picture.Width; x++)
                {
                    picture.Rgba.AsSpan(((y * picture.Width) + x) * 4, 3).CopyTo(row.AsSpan(3 * x, 3));
                }
            }
        );
    }

    private static void OverTime(StringBuilder svg, HeatProblem problem, HeatAnswer answer)
    {
        var axis = new StageAxis(answer.Stages, Left, Right);
        var lines = problem
            .EveryLayer.Select(l => (l.Name, Trace: answer.Faces[l.Name].Lower, Glue: l.Name == problem.GlueLineBelow))
            .Prepend((Name: "", Trace: answer.Faces[problem.Layers[0].Name].Upper, Glue: false))
            .Where(l => Enumerable.Range(0, l.Trace.Points).Any(i => double.IsFinite(l.Trace.Celsius(i))))
            .ToList();
        var values = lines
            .SelectMany(l => Enumerable.Range(0, l.Trace.Points).Select(l.Trace.Celsius))
            .Where(double.IsFinite);
        var scale = Scale(values.Append(problem.Reach?.InCelsius ?? values.First()), TopOver);
        Title(svg, TopOver - 44, "Over time, under each layer", "each stage has its own width");
        Grid(svg, scale, TopOver);
        foreach (var (name, start, end, from, to) in axis.Stages)
        {
            svg.Append(
                I(
                    $"<line x1=\"{from:0.#}\" x2=\"{from:0.#}\" y1=\"{TopOver}\" y2=\"{TopOver + PanelHeight}\" stroke=\"{Line}\" stroke-width=\"2\"/>"
                )
            );
            Text(svg, from + 5, TopOver - 8, Fit(name, to - from), Quiet, 13);
            foreach (var t in Ticks(0, end - start, Math.Max(1, (to - from) / 70)).Where(t => t > 0))
            {
                Text(svg, axis.X(start + t), TopOver + PanelHeight + 20, I($"{t:0.##}"), Quiet, 13, "middle");
            }
        }

        Text(svg, (Left + Right) / 2, TopOver + PanelHeight + 42, "seconds in the stage", Quiet, 13, "middle");
        if (problem.Reach is { } reach)
        {
            var y = scale.Y(reach.InCelsius);
            svg.Append(
                I(
                    $"<line x1=\"{Left}\" x2=\"{Right}\" y1=\"{y:0.#}\" y2=\"{y:0.#}\" stroke=\"{Accent}\" stroke-dasharray=\"2 5\"/>"
                )
            );
            Text(svg, Right - 6, y + 17, I($"{reach.InCelsius:0.#} °C asked"), Accent, 13, "end");
        }

        var ends = new List<(double Y, string Name, bool Glue)>();
        foreach (var (line, n) in lines.Select((l, n) => (l, n)).OrderBy(l => l.l.Glue))
        {
            var last = Curve(svg, axis, scale, line.Trace, line.Glue, Dashes[n % Dashes.Length]);
            if (last is { } y)
            {
                ends.Add(
                    (
                        y,
                        line.Glue ? $"glue line (under {line.Name})"
                        : line.Name.Length == 0 ? "top face"
                        : $"under {line.Name}",
                        line.Glue
                    )
                );
            }
        }

        Ends(svg, ends, TopOver, Right);
    }

    // A curve from stage to stage; broken where the layer is not there. The height of its end, for its name.
    private static double? Curve(
        StringBuilder svg,
        StageAxis axis,
        Vertical scale,
        HeatTrace trace,
        bool glue,
        string dash
    )
    {
        var (path, pen, lastY, lastX) = (new StringBuilder(), false, (double?)null, 0.0);
        foreach (var (_, start, end, _, _) in axis.Stages)
        {
            pen = false;
            for (var i = 0; i <= PointsInStage; i++)
            {
                // Square spacing shows the first seconds, when most happens.
                var share = (double)i / PointsInStage;
                var t = start + Math.Max(1e-7, (end - start) * share * share);
                var celsius = trace.At(Math.Min(t, end));
                if (!double.IsFinite(celsius))
                {
                    pen = false;
                    continue;
                }

                (lastX, lastY) = (axis.X(t), scale.Y(celsius));
                path.Append(pen ? 'L' : 'M').Append(I($"{lastX:0.##} {lastY:0.##}"));
                pen = true;
            }
        }

        Stroke(svg, path.ToString(), glue, dash);
        return lastX >= Right - 1 ? lastY : null;
    }

    private static void Through(StringBuilder svg, HeatProblem problem, HeatAnswer answer)
    {
        var profiles = answer.Profiles;
        if (profiles.Length == 0)
        {
            return;
        }

        var names = problem.EveryLayer.Select(l => l.Name).ToList();
        var layers = profiles.SelectMany(p => p.Layers).Distinct().OrderBy(names.IndexOf).ToList();
        var band = (Right - Left) / layers.Count;
        var scale = Scale(profiles.SelectMany(p => p.Points.Select(q => q.Celsius)), TopThrough);
        Title(
            svg,
            TopThrough - 60,
            "Through the stack, from the upper plate down",
            "every layer is drawn equally wide"
        );
        for (var i = 0; i < layers.Count; i++)
        {
            var x = Left + (i * band);
            if (i % 2 == 1)
            {
                svg.Append(
                    I(
                        $"<rect x=\"{x:0.#}\" y=\"{TopThrough}\" width=\"{band:0.#}\" height=\"{PanelHeight}\" fill=\"{Raised}\"/>"
                    )
                );
            }

            var layer = problem.EveryLayer.First(l => l.Name == layers[i]);
            Text(svg, x + (band / 2), TopThrough - 24, Fit(layers[i], band), Ink, 13, "middle");
            Text(svg, x + (band / 2), TopThrough - 8, I($"{layer.ThicknessMm:0.###} mm"), Quiet, 12, "middle");
            if (layers[i] == problem.GlueLineBelow)
            {
                svg.Append(
                    I(
                        $"<line x1=\"{x + band:0.#}\" x2=\"{x + band:0.#}\" y1=\"{TopThrough}\" y2=\"{TopThrough + PanelHeight}\" stroke=\"{Accent}\" stroke-width=\"2\"/>"
                    )
                );
                Text(svg, x + band, TopThrough + PanelHeight + 20, "glue line", Accent, 13, "middle");
            }
        }

        Grid(svg, scale, TopThrough);
        var ends = new List<(double Y, string Name, bool Glue)>();
        for (var n = 0; n < profiles.Length; n++)
        {
            var last = Profile(svg, profiles[n], problem, layers, band, scale, n);
            ends.Add((last, I($"{profiles[n].TimeS:0.##} s"), false));
        }

        // Their names stand at the glue line, for that is where they are compared.
        var glue = layers.IndexOf(problem.GlueLineBelow);
        Ends(svg, ends, TopThrough, glue < 0 ? Right : Left + ((glue + 1) * band));
        Text(svg, Right + 14, TopThrough + 16, "names: seconds", Quiet, 13);
        Text(svg, Right + 14, TopThrough + 34, "since the start", Quiet, 13);
    }

    private static double Profile(
        StringBuilder svg,
        HeatProfile profile,
        HeatProblem problem,
        List<string> layers,
        double band,
        Vertical scale,
        int n
    )
    {
        var (path, depth, lastY, glueY, at) = (new StringBuilder(), 0.0, 0.0, (double?)null, 0);
        foreach (var name in profile.Layers)
        {
            var mm = problem.EveryLayer.First(l => l.Name == name).ThicknessMm;
            var x = Left + (layers.IndexOf(name) * band);
            // Points of this layer: the first at its upper face, then its cells, the last at its lower face.
            var first = true;
            for (; at < profile.Points.Length; at++)
            {
                var (d, celsius) = profile.Points[at];
                var share = Math.Clamp((d - depth) / mm, 0, 1);
                lastY = scale.Y(celsius);
                path.Append(path.Length == 0 ? 'M' : 'L').Append(I($"{x + (share * band):0.##} {lastY:0.##}"));
                if (!first && share >= 1)
                {
                    at++;
                    break;
                }

                first = false;
            }

            depth += mm;
            glueY = name == problem.GlueLineBelow ? lastY : glueY;
        }

        Stroke(svg, path.ToString(), false, Dashes[n % Dashes.Length]);
        return glueY ?? lastY;
    }

    private static void Stroke(StringBuilder svg, string path, bool glue, string dash)
    {
        if (glue)
        {
            svg.Append(I($"<path d=\"{path}\" fill=\"none\" stroke=\"{Ground}\" stroke-width=\"7\"/>"));
        }

        var dashed = dash.Length > 0 && !glue ? $" stroke-dasharray=\"{dash}\"" : "";
        svg.Append(
            I(
                $"<path d=\"{path}\" fill=\"none\" stroke=\"{(glue ? Accent : Ink)}\" stroke-width=\"{(glue ? 3.5 : 1.4)}\" stroke-linejoin=\"round\"{dashed}/>\n"
            )
        );
    }

    // Names at the ends of lines, moved apart where they would lie on one another, with a thread to the line's end.
    private static void Ends(StringBuilder svg, List<(double Y, string Name, bool Glue)> ends, double top, double x)
    {
        const double Apart = 17;
        var sorted = ends.OrderBy(e => e.Y).ToList();
        var places = sorted.Select(e => e.Y).ToArray();
        for (var i = 1; i < places.Length; i++)
        {
            places[i] = Math.Max(places[i], places[i - 1] + Apart);
        }

        var over = places.Length > 0 ? Math.Max(0, places[^1] - (top + PanelHeight)) : 0;
        for (var i = places.Length - 1; i >= 0 && over > 0; i--)
        {
            places[i] -= i == places.Length - 1 ? over : Math.Max(0, places[i] + Apart - places[i + 1]);
        }

        for (var i = 0; i < sorted.Count; i++)
        {
            svg.Append(
                I(
                    $"<path d=\"M{x + 1:0.#} {sorted[i].Y:0.#}L{x + 11:0.#} {places[i]:0.#}\" stroke=\"{Quiet}\" fill=\"none\"/>"
                )
            );
            if (x < Right)
            {
                // Other lines pass here.
                svg.Append(
                    I(
                        $"<rect x=\"{x + 12:0.#}\" y=\"{places[i] - 7.5:0.#}\" width=\"{5 + (7.2 * sorted[i].Name.Length):0.#}\" height=\"15\" fill=\"{Ground}\" fill-opacity=\"0.85\"/>"
                    )
                );
            }

            Text(svg, x + 14, places[i] + 4.5, Fit(sorted[i].Name, Width - x - 18), sorted[i].Glue ? Accent : Ink, 13);
        }
    }

    private static void Title(StringBuilder svg, double y, string title, string beside)
    {
        svg.Append(
            I(
                $"<text x=\"{Left}\" y=\"{y:0.#}\" font-size=\"18\" font-weight=\"600\" fill=\"{Ink}\">{title} <tspan font-size=\"13\" font-weight=\"400\" fill=\"{Quiet}\">— {beside}</tspan></text>\n"
            )
        );
    }

    private static void Grid(StringBuilder svg, Vertical scale, double top)
    {
        foreach (var c in Ticks(scale.Low, scale.High, 7))
        {
            var y = scale.Y(c);
            svg.Append(
                I(
                    $"<line x1=\"{Left}\" x2=\"{Right}\" y1=\"{y:0.#}\" y2=\"{y:0.#}\" stroke=\"{Line}\" stroke-width=\"1\"/>"
                )
            );
            Text(svg, Left - 8, y + 4.5, I($"{c:0}"), Quiet, 13, "end");
        }

        Text(svg, Left - 8, top - 8, "°C", Quiet, 13, "end");
    }

    private static Vertical Scale(IEnumerable<double> celsius, double top)
    {
        var (low, high) = (celsius.Min(), celsius.Max());
        var step = high - low > 60 ? 20 : 10;
        var bottom = Math.Floor(low / step) * step;
        return new(bottom, Math.Max(bottom + step, Math.Ceiling((high + 0.5) / step) * step), top);
    }

    private static IEnumerable<double> Ticks(double low, double high, double most)
    {
        var raw = (high - low) / most;
        var ten = Math.Pow(10, Math.Floor(Math.Log10(Math.Max(raw, 1e-9))));
        var step = RoundSteps.Select(f => f * ten).First(s => s >= raw - 1e-12);
        for (var t = Math.Ceiling((low / step) - 1e-9) * step; t <= high + (1e-9 * step); t += step)
        {
            yield return t;
        }
    }

    private static void Text(
        StringBuilder svg,
        double x,
        double y,
        string text,
        string colour,
        double size,
        string anchor = "start"
    ) =>
        svg.Append(
            I(
                $"<text x=\"{x:0.#}\" y=\"{y:0.#}\" font-size=\"{size}\" fill=\"{colour}\" text-anchor=\"{anchor}\">{SecurityElement.Escape(text)}</text>\n"
            )
        );

    // Letters of 13 points are about 6.8 wide.
    private static string Fit(string text, double room)
    {
        var letters = (int)(room / 6.8);
        return text.Length <= letters ? text
            : letters < 3 ? ""
            : string.Concat(text.AsSpan(0, letters - 1), "…");
    }

    private static string I(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private sealed record Vertical(double Low, double High, double Top)
    {
        public double Y(double celsius) => Top + (PanelHeight * (High - celsius) / (High - Low));
    }

    /// <summary>Stages side by side, wide by the root of their length, so that a press of 15 s is seen beside a cooling of ten minutes.</summary>
    private sealed class StageAxis
    {
        public StageAxis(IEnumerable<HeatStageRun> runs, double left, double right)
        {
            var all = runs.Where(r => r.EndS > r.StartS).ToList();
            var whole = all.Sum(r => Math.Sqrt(r.EndS - r.StartS));
            var x = left;
            foreach (var run in all)
            {
                var width = (right - left) * Math.Sqrt(run.EndS - run.StartS) / whole;
                Stages.Add((run.Name, run.StartS, run.EndS, x, x + width));
                x += width;
            }
        }

        public List<(string Name, double StartS, double EndS, double From, double To)> Stages { get; } = [];

        public double X(double seconds)
        {
            var (_, start, end, from, to) = Stages.FirstOrDefault(s => seconds <= s.EndS + 1e-9, Stages[^1]);
            return from + ((to - from) * Math.Clamp((seconds - start) / (end - start), 0, 1));
        }
    }
}
