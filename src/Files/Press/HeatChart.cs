using System.Globalization;
using System.Security;
using System.Text;

namespace Coldpeel.Files.Press;

/// <summary>What both drawings of a stack share: page, colours, scales, lines and the names at their ends.</summary>
internal static class HeatChart
{
    public const string Ground = "#14181d";
    public const string Raised = "#1e242b";
    public const string Line = "#3d4752";
    public const string Ink = "#ffffff";
    public const string Quiet = "#b9c3cd";
    public const string Accent = "#ffb454";
    public const double Width = 1000;
    public const double Left = 64;
    public const double Right = 790;
    public const double PanelHeight = 330;
    public const double TopOver = 74;
    public const double TopThrough = TopOver + PanelHeight + 140;
    public const double Height = TopThrough + PanelHeight + 40;
    private static readonly double[] RoundSteps = [1, 2, 5, 10];

    // A pattern of its own for ten lines.
    public static readonly string[] Dashes =
    [
        "",
        "9 4",
        "3 3",
        "12 3 3 3",
        "1 4",
        "16 4",
        "8 3 2 3 2 3",
        "5 8",
        "18 3 3 3 3 3",
        "2 2 8 2",
    ];

    public static void Stroke(StringBuilder svg, string path, bool glue, string dash)
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
    public static void Ends(StringBuilder svg, List<(double Y, string Name, bool Glue)> ends, double top, double x)
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

    public static void Title(StringBuilder svg, double y, string title, string beside)
    {
        svg.Append(
            I(
                $"<text x=\"{Left}\" y=\"{y:0.#}\" font-size=\"18\" font-weight=\"600\" fill=\"{Ink}\">{title} <tspan font-size=\"13\" font-weight=\"400\" fill=\"{Quiet}\">— {beside}</tspan></text>\n"
            )
        );
    }

    public static void Grid(StringBuilder svg, Vertical scale, double top)
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

    public static Vertical Scale(IEnumerable<double> celsius, double top)
    {
        var (low, high) = (celsius.Min(), celsius.Max());
        var step = high - low > 60 ? 20 : 10;
        var bottom = Math.Floor(low / step) * step;
        return new(bottom, Math.Max(bottom + step, Math.Ceiling((high + 0.5) / step) * step), top);
    }

    public static IEnumerable<double> Ticks(double low, double high, double most)
    {
        var raw = (high - low) / most;
        var ten = Math.Pow(10, Math.Floor(Math.Log10(Math.Max(raw, 1e-9))));
        var step = RoundSteps.Select(f => f * ten).First(s => s >= raw - 1e-12);
        for (var t = Math.Ceiling((low / step) - 1e-9) * step; t <= high + (1e-9 * step); t += step)
        {
            yield return t;
        }
    }

    public static void Text(
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
    public static string Fit(string text, double room)
    {
        var letters = (int)(room / 6.8);
        return text.Length <= letters ? text
            : letters < 3 ? ""
            : string.Concat(text.AsSpan(0, letters - 1), "…");
    }

    public static string I(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    public sealed record Vertical(double Low, double High, double Top)
    {
        public double Y(double celsius) => Top + (PanelHeight * (High - celsius) / (High - Low));
    }
}
