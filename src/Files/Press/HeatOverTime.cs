using System.Text;
using Coldpeel.Craft.Press.Heat;
using static Coldpeel.Files.Press.HeatChart;

namespace Coldpeel.Files.Press;

/// <summary>Temperature over time under every layer, stage beside stage.</summary>
internal static class HeatOverTime
{
    private const int PointsInStage = 240;

    /// <summary>Draws the upper chart.</summary>
    public static void Draw(StringBuilder svg, HeatProblem problem, HeatAnswer answer)
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

        var ends = new List<(double X, double Y, string Name, bool Glue)>();
        foreach (var (line, n) in lines.Select((l, n) => (l, n)).OrderBy(l => l.l.Glue))
        {
            var last = Curve(svg, axis, scale, line.Trace, line.Glue, Dashes[n % Dashes.Length]);
            if (last is { } end)
            {
                ends.Add(
                    (
                        end.X,
                        end.Y,
                        line.Glue ? $"glue line (under {line.Name})"
                        : line.Name.Length == 0 ? "top face"
                        : $"under {line.Name}",
                        line.Glue
                    )
                );
            }
        }

        // A layer that is taken out has its name where its line ends, over the lines that go on.
        foreach (var at in ends.GroupBy(e => Math.Round(e.X)).OrderBy(g => g.Key))
        {
            Ends(svg, [.. at.Select(e => (e.Y, e.Name, e.Glue))], TopOver, Math.Min(at.Max(e => e.X), Right));
        }
    }

    // A curve from stage to stage; broken where the layer is not there. Where it ends, for its name.
    private static (double X, double Y)? Curve(
        StringBuilder svg,
        StageAxis axis,
        Vertical scale,
        HeatTrace trace,
        bool glue,
        string dash
    )
    {
        var (path, pen, lastY, lastX) = (new StringBuilder(), false, 0.0, double.NaN);
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
        return double.IsFinite(lastX) ? (lastX >= Right - 1 ? Right : lastX, lastY) : null;
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
