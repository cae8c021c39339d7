using System.Collections.Frozen;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Files.Paper;
using Coldpeel.Workshop.Findings;
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
    /// <summary>How it is worded.</summary>
    public Wording Words { get; init; } = Wording.English;

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
        var book = new Book(words[$"Day plan {paper.Job}"], 297, 210, paper.Words);
        var foot = words[$"Day plan · {paper.Job} · {paper.Workshop}"];
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
            flow.Text(words[$"There is nothing to do at the presses."], TextStyle.Body.At(14));
        }

        return book.Write();
    }

    private static void Head(Flow flow, DayPlanPaper paper, DayWords words)
    {
        flow.Page.Fill(flow.Left, flow.Y, flow.Width, 1.6, Inks.Amber);
        flow.Gap(3.5);
        var day = paper.Day is { } d ? flow.Words.Day(d) : words[$"start {words.Clock(0)[..5]}"];
        var style = TextStyle.Title.At(18);
        flow.Page.Text(flow.Left + flow.Width, flow.Y + 4.6 + style.BaselineMm, day, style, Align.Right);
        var room = flow.Width - TextLines.WidthMm(day, style) - 8;
        flow.Text(words[$"DAY PLAN · {paper.Workshop}"], TextStyle.Label.At(9));
        flow.Y += Math.Max(
            style.LineMm,
            flow.Page.Block(flow.Left, flow.Y, paper.Job, TextStyle.Title.At(20).FitLines(paper.Job, room, 3), room)
        );
        flow.Gap(1);
        var (plan, now) = (paper.Plan, paper.Problem.Now);
        if (words.Steps.Length > 0)
        {
            flow.Text(
                words[
                    $"{words.Clock(now)} to {words.Clock(now + plan.MakespanS)} – {Days.Span(plan.MakespanS)}, {Presses(paper.Problem.Presses.Length)}, {Hands(paper.Problem.Hands)}, {Places(paper.Problem.RackPlaces)}."
                ],
                TextStyle.Strong.At(12)
            );
            flow.Text(
                words[
                    plan.Proved
                        ? (Sentence)
                            $"No plan can be shorter than {Days.Span(plan.BoundS)}: this one is proved the shortest."
                        : $"No plan can be shorter than {Days.Span(plan.BoundS)}; whether a shorter one than this exists is not proved."
                ],
                TextStyle.Body.At(9)
            );
        }

        if (words.Late is { Length: > 0 } late)
        {
            flow.Text(
                words[
                    $"Done after it was due: {new Part.Row([.. late.Take(MostLate).Select(o => LateBy(o, words))], "; ")}{(late.Length > MostLate ? $"; and {late.Length - MostLate} more" : Sentence.Nothing)}."
                ],
                TextStyle.Strong.At(9)
            );
        }

        if (paper.Day is null)
        {
            flow.Text(
                words[
                    $"The plan names no day: its clock starts at {words.Clock(0)[..5]}; if you start later, add the difference to every time."
                ],
                TextStyle.Body.At(9)
            );
        }

        flow.Text(
            words[$"{new Part.Row(Tickets.Always, " ")} {(Sentence)TicketsPdf.MakersFirst}"],
            TextStyle.Body.At(9)
        );
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
            words[$"NOT IN THIS PLAN: {words.LeftOut.Length}"],
            top
        );
        flow.Gap(8.5);
        Column[] columns = [new(words[$"what"], 90), new(words[$"why"], 177)];
        new Table(columns).Draw(
            flow,
            [
                .. words.LeftOut.Select(
                    IReadOnlyList<Cell> (l) =>
                        [
                            Cell.Of(words.Name(l.Ref), TextStyle.Strong),
                            Cell.Of(flow.Words[PastLine.Read(l.Why)], TextStyle.Body),
                        ]
                ),
            ]
        );
        flow.Gap(4);
    }

    private static void Continued(Flow flow, DayPlanPaper paper)
    {
        var style = TextStyle.Strong.At(10.5);
        var day = paper.Day is { } d ? flow.Words.Day(d) : "";
        flow.Page.Fill(flow.Left, flow.Y, flow.Width, 1.2, Inks.Amber);
        flow.Gap(2);
        flow.Page.Text(flow.Left + flow.Width, flow.Y + style.BaselineMm, day, style, Align.Right);
        var title = flow.Words[$"Day plan · {paper.Job}"];
        var room = flow.Width - 50;
        flow.Y += flow.Page.Block(flow.Left, flow.Y, title, style.FitLines(title, room, 2), room);
        flow.Gap(2.5);
    }

    private static Sentence Presses(int count) => count == 1 ? (Sentence)$"1 press" : $"{count} presses";

    private static Sentence Hands(int count) => count == 1 ? (Sentence)$"1 pair of hands" : $"{count} pairs of hands";

    private static Sentence Places(int count) => count == 1 ? (Sentence)$"1 rack place" : $"{count} rack places";

    private static Sentence LateBy((string Order, int Due, int LateS) late, DayWords words) =>
        late.Due >= 0
            ? (Sentence)$"{late.Order} by {Days.Span(late.LateS)} (due {words.Clock(late.Due)[..5]})"
            : $"{late.Order} by {Days.Span(late.LateS)}";
}
