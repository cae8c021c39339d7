using System.Globalization;
using System.Security;
using System.Text;

namespace Coldpeel.Files.Press;

/// <summary>A day plan as a time chart: a lane a press, a lane a pair of hands, and how full the rack is; one file, no script.</summary>
public static class DayChartSvg
{
    private const int Label = 110;
    private const int Lane = 34;
    private const int Top = 46;
    private const int Gap = 8;
    private const int PixelsAMinute = 24;
    private const int Widest = 16_000;

    /// <summary>The SVG text; the same plan gives the same text.</summary>
    public static string Write(DayPlanPaper paper)
    {
        ArgumentNullException.ThrowIfNull(paper);
        var words = new DayWords(paper);
        var begin = words.Steps.IsEmpty ? 0 : Math.Min(words.Steps.Min(s => s.Start), paper.Problem.Now);
        var end = words.Steps.IsEmpty ? 60 : words.Steps.Max(s => s.End);
        var scale = Math.Min(PixelsAMinute / 60.0, (Widest - Label) / (double)Math.Max(60, end - begin));
        var hands = Math.Max(1, words.Steps.Max(s => s.Hand) ?? 1);
        var lanes = paper.Problem.Presses.Length + hands + 1;
        var (width, height) = (Label + ((end - begin) * scale) + 48, Top + (lanes * (Lane + Gap)) + 50);
        var svg = new StringBuilder();
        svg.Append(
            CultureInfo.InvariantCulture,
            $"<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:0}\" height=\"{height}\" viewBox=\"0 0 {width:0} {height}\" font-family=\"sans-serif\" font-size=\"12\" role=\"img\">\n"
        );
        svg.Append(CultureInfo.InvariantCulture, $"<title>{Text(words[$"Day plan {paper.Job}"])}</title>\n");
        svg.Append(CultureInfo.InvariantCulture, $"<rect width=\"{width:0}\" height=\"{height}\" fill=\"#ffffff\"/>\n");
        Axis(svg, words, begin, end, scale, height);
        var y = Top;
        foreach (var press in paper.Problem.Presses)
        {
            Name(svg, words[$"Press {press.Id}"], y);
            foreach (var change in words.Changes.Where(c => c.Press == press.Id))
            {
                Box(
                    svg,
                    X(change.Start),
                    y + 8,
                    (change.End - change.Start) * scale,
                    Lane - 16,
                    "#e8e8e8",
                    $"{change.FromC} → {change.ToC} °C",
                    words[$"{change.FromC} °C to {change.ToC} °C"]
                );
            }

            foreach (var step in words.Steps.Where(s => s.Press == press.Id))
            {
                var closed = step.Op.EndsWith("press", StringComparison.Ordinal);
                Box(
                    svg,
                    X(step.Start),
                    y,
                    (step.End - step.Start) * scale,
                    Lane,
                    closed ? Warm(words.Celsius(step.Ref) ?? 0) : "#ffffff",
                    closed ? words.Tag(step.Ref) : "",
                    $"{words.Clock(step.Start)} {words[DayWords.Verb(step.Op)]} {words.Name(step.Ref)}, {words.Celsius(step.Ref)} °C"
                );
            }

            y += Lane + Gap;
        }

        for (var hand = 1; hand <= hands; hand++)
        {
            Name(svg, words[$"Hands {hand}"], y);
            foreach (var step in words.Steps.Where(s => s.Hand == hand))
            {
                Box(
                    svg,
                    X(step.Start),
                    y,
                    (step.End - step.Start) * scale,
                    Lane,
                    step.Press is null ? "#cfe3f1" : "#f3d9b1",
                    DayKey.Letter(step.Op),
                    $"{words.Clock(step.Start)} {words[DayWords.Verb(step.Op)]} {words.Name(step.Ref)}"
                );
            }

            foreach (var pause in paper.Plan.Breaks.Where(b => b.Hand == hand))
            {
                Box(
                    svg,
                    X(pause.From),
                    y,
                    (pause.To - pause.From) * scale,
                    Lane,
                    "#dddddd",
                    words[$"break"],
                    words[$"break"]
                );
            }

            y += Lane + Gap;
        }

        Name(svg, words[$"Rack of {paper.Problem.RackPlaces}"], y);
        var levels = words.Rack();
        for (var i = 0; i + 1 < levels.Count; i++)
        {
            var (from, held) = levels[i];
            var tall = Math.Min(1.0, (double)held / Math.Max(1, paper.Problem.RackPlaces)) * Lane;
            if (held > 0)
            {
                Box(
                    svg,
                    X(from),
                    y + Lane - tall,
                    (levels[i + 1].Second - from) * scale,
                    tall,
                    "#d8d8d8",
                    "",
                    words[$"{held} cooling or waiting"]
                );
            }
        }

        svg.Append(
            CultureInfo.InvariantCulture,
            $"<text x=\"6\" y=\"{height - 10}\">{Text(words[$"{DayKey.InWords}"])}</text>\n"
        );
        svg.Append("</svg>\n");
        return svg.ToString();

        double X(int second) => Label + ((second - begin) * scale);
    }

    private static void Axis(StringBuilder svg, DayWords words, int begin, int end, double scale, int height)
    {
        int[] ticks = [60, 300, 900, 1800, 3600];
        var tick = ticks.FirstOrDefault(t => t * scale >= 60, 3600);
        for (var second = begin - (begin % tick); second <= end; second += tick)
        {
            if (second < begin)
            {
                continue;
            }

            var x = Label + ((second - begin) * scale);
            svg.Append(
                CultureInfo.InvariantCulture,
                $"<line x1=\"{x:0.0}\" y1=\"28\" x2=\"{x:0.0}\" y2=\"{height - 30}\" stroke=\"#bbbbbb\"/><text x=\"{x + 3:0.0}\" y=\"24\">{words.Clock(second)[..5]}</text>\n"
            );
        }
    }

    private static void Name(StringBuilder svg, string name, int y) =>
        svg.Append(
            CultureInfo.InvariantCulture,
            $"<text x=\"6\" y=\"{y + (Lane / 2) + 5}\" font-size=\"15\" font-weight=\"bold\">{Text(name)}</text>\n"
        );

    private static void Box(
        StringBuilder svg,
        double x,
        double y,
        double w,
        double h,
        string fill,
        string say,
        string told
    )
    {
        svg.Append(
            CultureInfo.InvariantCulture,
            $"<rect x=\"{x:0.0}\" y=\"{y:0.0}\" width=\"{Math.Max(0.5, w):0.0}\" height=\"{h:0.0}\" fill=\"{fill}\" stroke=\"#222222\" stroke-width=\"0.6\"><title>{Text(told)}</title></rect>"
        );
        if (say.Length > 0 && say.Length * 7.5 <= w)
        {
            svg.Append(
                CultureInfo.InvariantCulture,
                $"<text x=\"{x + (w / 2):0.0}\" y=\"{y + (h / 2) + 4:0.0}\" text-anchor=\"middle\">{Text(say)}</text>"
            );
        }

        svg.Append('\n');
    }

    // From pale to warm with the set-point; the °C stand in every title, so nothing is told by colour alone.
    private static string Warm(int celsius)
    {
        var part = Math.Clamp((celsius - 100) / 100.0, 0, 1);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"#ff{(int)(235 - (110 * part)):x2}{(int)(205 - (150 * part)):x2}"
        );
    }

    private static string Text(string text) => SecurityElement.Escape(text) ?? "";
}
