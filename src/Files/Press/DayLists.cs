using System.Globalization;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Files.Paper;

namespace Coldpeel.Files.Press;

/// <summary>What each pair of hands does, in order, with clock times; equal work that follows on itself is one line.</summary>
internal static class DayLists
{
    private const int MostNamed = 12;

    private static readonly TextStyle Time = TextStyle.Title.At(12);

    private static readonly Column[] Columns =
    [
        new("start", 25),
        new("until", 25),
        new("do", 52),
        new("what (its number on the timeline)", 113),
        new("press, figures", 52),
    ];

    private static readonly Column[] ChangeColumns =
    [
        new("start", 25),
        new("until", 25),
        new("press", 52),
        new("set-point", 113),
        new("takes", 52),
    ];

    public static void Draw(Flow flow, DayWords words)
    {
        Changes(flow, words);
        foreach (var hand in words.Steps.Where(s => s.Hand is not null).GroupBy(s => s.Hand!.Value).OrderBy(g => g.Key))
        {
            flow.Keep(60);
            flow.Heading($"Hands {hand.Key.ToString(CultureInfo.InvariantCulture)}", 30);
            Hand(flow, [.. hand], words);
            flow.Gap(4);
        }
    }

    /// <summary>Work that repeats stands as a table with a column a step and a line a round; the rest as a list.</summary>
    private static void Hand(Flow flow, DayStep[] steps, DayWords words)
    {
        foreach (var part in DayRounds.Split(steps, s => (s.Op, s.Press, s.End - s.Start, Figures(s, words))))
        {
            if (part.Period == 0)
            {
                new Table(Columns).Draw(flow, [.. Runs(part.Steps, words).Select(r => Row(r, words))]);
            }
            else
            {
                Rounds(flow, part, words);
            }

            flow.Gap(3);
        }
    }

    private static void Rounds(Flow flow, DayPart part, DayWords words)
    {
        var rounds = part.Steps.Chunk(part.Period).ToList();
        flow.Keep(40);
        flow.Text(
            $"{rounds.Count} rounds of the same work, from left to right, line by line:",
            TextStyle.Strong.At(11)
        );
        flow.Gap(1);
        // Where a round is one item's work its name stands once; where items overlap, each step names its own.
        var one = rounds.All(r => r.All(s => s.Ref == r[0].Ref));
        var name = one ? 60 : 0;
        var width = (flow.Width - name) / part.Period;
        var columns = rounds[0].Select(s => new Column(Head(s, words), width)).ToList();
        if (one)
        {
            columns.Insert(0, new("what", name));
        }

        new Table(columns).Draw(flow, [.. rounds.Select(r => Round(r, one, words))]);
    }

    private static IReadOnlyList<Cell> Round(DayStep[] round, bool one, DayWords words)
    {
        string Named(DayStep s) => $"{words.Tag(s.Ref)} {words.Name(s.Ref)}";
        var times = round.Select(s =>
        {
            var time = new CellText(words.Clock(s.Start), Time.At(11));
            return new Cell(one ? [time] : [time, new(Named(s), TextStyle.Body.At(9))]);
        });
        return one ? [Cell.Of(Named(round[0]), TextStyle.Strong.At(11)), .. times] : [.. times];
    }

    private static string Head(DayStep step, DayWords words)
    {
        var figures = Figures(step, words);
        return $"{DayWords.Verb(step.Op)}, {Days.Span(step.End - step.Start)}"
            + (figures.Length > 0 ? $"\n{figures}" : "");
    }

    private static void Changes(Flow flow, DayWords words)
    {
        if (words.Changes.Length == 0)
        {
            return;
        }

        flow.Heading("Set-point changes", 24);
        new Table(ChangeColumns).Draw(
            flow,
            [
                .. words
                    .Changes.OrderBy(c => c.Start)
                    .Select(
                        IReadOnlyList<Cell> (c) =>
                            [
                                Cell.Of(words.Clock(c.Start), Time),
                                Cell.Of(words.Clock(c.End), TextStyle.Body.At(12)),
                                Cell.Of(c.Press, TextStyle.Strong.At(12)),
                                Cell.Of($"{c.FromC} °C → {c.ToC} °C", TextStyle.Strong.At(12)),
                                Cell.Of(Days.Span(c.End - c.Start), TextStyle.Body),
                            ]
                    ),
            ]
        );
        flow.Gap(4);
    }

    /// <summary>Steps of one hand that follow on one another with the same work, press and figures.</summary>
    private static List<List<DayStep>> Runs(IReadOnlyList<DayStep> steps, DayWords words)
    {
        var runs = new List<List<DayStep>>();
        foreach (var step in steps)
        {
            if (runs.Count > 0 && Alike(runs[^1][^1], step, words))
            {
                runs[^1].Add(step);
            }
            else
            {
                runs.Add([step]);
            }
        }

        return runs;
    }

    private static bool Alike(DayStep a, DayStep b, DayWords words) =>
        a.Op == b.Op
        && a.Press == b.Press
        && a.End - a.Start == b.End - b.Start
        && Figures(a, words) == Figures(b, words);

    private static IReadOnlyList<Cell> Row(List<DayStep> run, DayWords words)
    {
        var first = run[0];
        var each = Days.Span(first.End - first.Start);
        // A long trim is told by its numbers: every piece is named again where it is pressed.
        var what =
            first.Op == "trim" && run.Count > MostNamed
                ? "numbers " + Ranges([.. run.Select(s => words.Tag(s.Ref))])
                : string.Join("; ", run.Select(s => $"{words.Tag(s.Ref)} {words.Name(s.Ref)}"));
        var many = run.Count > 1 ? $"{run.Count} × " : "";
        return
        [
            Cell.Of(words.Clock(first.Start), Time),
            Cell.Of(words.Clock(run[^1].End), TextStyle.Body.At(12)),
            Cell.Of(
                $"{many}{DayWords.Verb(first.Op)}, {each}{(run.Count > 1 ? " each" : "")}",
                TextStyle.Strong.At(11)
            ),
            Cell.Of(what, TextStyle.Body.At(11)),
            Cell.Of(Figures(first, words), TextStyle.Strong.At(11)),
        ];
    }

    /// <summary>"1–4, 7, 9–12", in the order of the tags.</summary>
    private static string Ranges(string[] tags)
    {
        var parts = new List<string>();
        for (int i = 0, j; i < tags.Length; i = j)
        {
            for (j = i + 1; j < tags.Length && Follows(tags[j - 1], tags[j]); j++) { }

            parts.Add(j - i > 1 ? $"{tags[i]}–{tags[j - 1]}" : tags[i]);
        }

        return string.Join(", ", parts);
    }

    private static bool Follows(string a, string b) =>
        int.TryParse(a, CultureInfo.InvariantCulture, out var first)
        && int.TryParse(b, CultureInfo.InvariantCulture, out var next)
        && next == first + 1;

    /// <summary>"on P1, 150 °C, 20 s" for a load; the press alone for other work at it; the rack place for none.</summary>
    private static string Figures(DayStep step, DayWords words)
    {
        if (step.Press is null)
        {
            return "";
        }

        return words.Closed(step.Op, step.Ref) is { } seconds
            ? $"{step.Press}, {words.Celsius(step.Ref)} °C, {seconds} s"
            : step.Press;
    }
}
