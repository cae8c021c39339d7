using System.Collections.Frozen;
using System.Globalization;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Files.Paper;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Press;

/// <summary>A day plan with the words that people use.</summary>
/// <param name="Job">The job.</param>
/// <param name="Workshop">Whose presses.</param>
/// <param name="Day">The day, where it is known.</param>
/// <param name="DayStart">The clock time of second 0 of the day.</param>
/// <param name="Problem">Presses, sheets, placements.</param>
/// <param name="Plan">The plan.</param>
/// <param name="Names">Words for sheets and placements by their id; an id without words stands as it is.</param>
public sealed record DayPlanPaper(
    string Job,
    string Workshop,
    DateOnly? Day,
    TimeOnly DayStart,
    DayProblem Problem,
    DayPlan Plan,
    IReadOnlyDictionary<string, string> Names
)
{
    /// <summary>The labels printed beside the pieces, by placement; a piece without one is told by its name.</summary>
    public IReadOnlyDictionary<string, string> Labels { get; init; } = FrozenDictionary<string, string>.Empty;
}

/// <summary>The day plan that hangs at the press: a timeline to scale and a list for each pair of hands.</summary>
public static class DayPlanPdf
{
    private const int MostLate = 8;
    private const double ListsMm = 50;

    /// <summary>The PDF, A4 landscape; the same plan gives the same bytes.</summary>
    public static byte[] Write(DayPlanPaper paper)
    {
        ArgumentNullException.ThrowIfNull(paper);
        var words = new DayWords(paper);
        var book = new Book($"Day plan {paper.Job}", 297, 210);
        var foot = $"Day plan · {paper.Job} · {paper.Workshop}";
        var flow = new Flow(book, 0, foot, f => Continued(f, paper));
        Head(flow, paper, words);
        LeftOut(flow, words);
        if (words.Steps.Length > 0)
        {
            DayTimeline.Draw(flow, words);
            flow.Gap(2);
            flow.Keep(ListsMm);
            DayLists.Draw(flow, words);
        }
        else
        {
            flow.Text("There is nothing to do at the presses.", TextStyle.Body.At(14));
        }

        return book.Write();
    }

    private static void Head(Flow flow, DayPlanPaper paper, DayWords words)
    {
        flow.Page.Fill(flow.Left, flow.Y, flow.Width, 1.6, Inks.Amber);
        flow.Gap(3.5);
        var day = paper.Day is { } d ? Days.Say(d) : $"start {words.Clock(0)[..5]}";
        var style = TextStyle.Title.At(18);
        flow.Page.Text(flow.Left + flow.Width, flow.Y + 4.6 + style.BaselineMm, day, style, Align.Right);
        var room = flow.Width - TextLines.WidthMm(day, style) - 8;
        flow.Text($"DAY PLAN · {paper.Workshop}", TextStyle.Label.At(9));
        flow.Y += Math.Max(
            style.LineMm,
            flow.Page.Block(flow.Left, flow.Y, paper.Job, TextStyle.Title.At(20).FitLines(paper.Job, room, 3), room)
        );
        flow.Gap(1);
        var (plan, now) = (paper.Plan, paper.Problem.Now);
        if (words.Steps.Length > 0)
        {
            flow.Text(
                $"{words.Clock(now)} to {words.Clock(now + plan.MakespanS)} – {Days.Span(plan.MakespanS)}, "
                    + $"{Count(paper.Problem.Presses.Length, "press", "presses")}, "
                    + $"{Count(paper.Problem.Hands, "pair of hands", "pairs of hands")}, "
                    + $"{Count(paper.Problem.RackPlaces, "rack place", "rack places")}.",
                TextStyle.Strong.At(12)
            );
            flow.Text(
                plan.Proved
                    ? $"No plan can be shorter than {Days.Span(plan.BoundS)}: this one is proved the shortest."
                    : $"No plan can be shorter than {Days.Span(plan.BoundS)}; whether a shorter one than this exists is not proved.",
                TextStyle.Body.At(9)
            );
        }

        if (words.Late is { Length: > 0 } late)
        {
            flow.Text(
                "Done after it was due: "
                    + string.Join(
                        "; ",
                        late.Take(MostLate)
                            .Select(o =>
                                $"{o.Order} by {Days.Span(o.LateS)}"
                                + (o.Due >= 0 ? $" (due {words.Clock(o.Due)[..5]})" : "")
                            )
                    )
                    + (late.Length > MostLate ? $"; and {late.Length - MostLate} more" : "")
                    + ".",
                TextStyle.Strong.At(9)
            );
        }

        if (paper.Day is null)
        {
            flow.Text(
                $"The plan names no day: its clock starts at {words.Clock(0)[..5]}; if you start later, add the difference to every time.",
                TextStyle.Body.At(9)
            );
        }

        flow.Text($"{string.Join(' ', Tickets.Always)} {TicketsPdf.MakersFirst}", TextStyle.Body.At(9));
        flow.Gap(3);
    }

    private static void LeftOut(Flow flow, DayWords words)
    {
        if (words.LeftOut.Length == 0)
        {
            return;
        }

        var top = TextStyle.Title.At(12);
        flow.Keep(20);
        Marks.Caution(flow.Page, flow.Left, flow.Y, 6.5);
        flow.Page.Text(
            flow.Left + 9,
            flow.Y + 0.8 + top.BaselineMm,
            $"NOT IN THIS PLAN: {words.LeftOut.Length.ToString(CultureInfo.InvariantCulture)}",
            top
        );
        flow.Gap(8.5);
        Column[] columns = [new("what", 90), new("why", 177)];
        new Table(columns).Draw(
            flow,
            [
                .. words.LeftOut.Select(
                    IReadOnlyList<Cell> (l) =>
                        [Cell.Of(words.Name(l.Ref), TextStyle.Strong), Cell.Of(l.Why, TextStyle.Body)]
                ),
            ]
        );
        flow.Gap(4);
    }

    private static void Continued(Flow flow, DayPlanPaper paper)
    {
        var style = TextStyle.Strong.At(10.5);
        var day = paper.Day is { } d ? Days.Say(d) : "";
        flow.Page.Fill(flow.Left, flow.Y, flow.Width, 1.2, Inks.Amber);
        flow.Gap(2);
        flow.Page.Text(flow.Left + flow.Width, flow.Y + style.BaselineMm, day, style, Align.Right);
        var title = "Day plan · " + paper.Job;
        var room = flow.Width - 50;
        flow.Y += flow.Page.Block(flow.Left, flow.Y, title, style.FitLines(title, room, 2), room);
        flow.Gap(2.5);
    }

    private static string Count(int count, string one, string many) =>
        count.ToString(CultureInfo.InvariantCulture) + " " + (count == 1 ? one : many);
}
