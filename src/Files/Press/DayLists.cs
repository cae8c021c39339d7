using System.Globalization;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Files.Paper;

namespace Coldpeel.Files.Press;

/// <summary>What each pair of hands does, in order, with clock times, close together in columns; what is done to one thing without a pause is one line.</summary>
internal static class DayLists
{
    private static readonly TextStyle Time = TextStyle.Title.At(8);
    private static readonly TextStyle Do = TextStyle.Strong.At(8);
    private static readonly TextStyle What = TextStyle.Body.At(8);

    public static void Draw(Flow flow, DayWords words)
    {
        var list = new DayColumns(flow);
        if (words.Changes.Length > 0)
        {
            list.Heading(
                words[$"Set-point changes"],
                words[$"start"],
                words[$"do"],
                words[$"press"],
                words[$"from, to"]
            );
            foreach (var change in words.Changes.OrderBy(c => c.Start))
            {
                list.Row(
                    new(words[$"takes {Days.Span(change.End - change.Start)}"], What),
                    new(words.Clock(change.Start), Time),
                    new(words[$"set"], Do),
                    new(change.Press, Do),
                    new($"{change.FromC} °C → {change.ToC} °C", Do)
                );
            }
        }

        foreach (var hand in words.Steps.Where(s => s.Hand is not null).GroupBy(s => s.Hand!.Value).OrderBy(g => g.Key))
        {
            var title = words[$"Hands {hand.Key}"];
            list.Heading(title, words[$"start"], words[$"do"], words[$"number"], words[$"press"], words[$"rack"]);
            var pauses = new Queue<DayPause>(words.Breaks.Where(b => b.Hand == hand.Key));
            foreach (var run in Runs([.. hand], words))
            {
                while (pauses.TryPeek(out var pause) && pause.From <= run[0].Start)
                {
                    Break(list, pauses.Dequeue(), words);
                }

                Row(list, run, words);
            }

            foreach (var pause in pauses)
            {
                Break(list, pause, words);
            }
        }

        list.End();
    }

    /// <summary>
    /// Steps of one hand that make one line: trims of one sheet right after one another; and work on one thing, where nothing but its own
    /// time in the closed press lies between.
    /// </summary>
    internal static List<List<DayStep>> Runs(IReadOnlyList<DayStep> steps, DayWords words)
    {
        var runs = new List<List<DayStep>>();
        foreach (var step in steps)
        {
            if (runs.Count > 0 && Joins(runs[^1][^1], step, words))
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

    private static bool Joins(DayStep a, DayStep b, DayWords words)
    {
        if (a.Op == "trim" || b.Op == "trim")
        {
            return a.Op == b.Op && a.End == b.Start && words.SheetOf(a.Ref) == words.SheetOf(b.Ref);
        }

        return a.Ref == b.Ref && b.Start - a.End == (words.Closed(a.Op, a.Ref) ?? 0);
    }

    private static void Break(DayColumns list, DayPause pause, DayWords words) =>
        list.Row(
            null,
            new(words.Clock(pause.From), Time),
            new(words[$"break"], Do),
            new(words[$"until {words.Clock(pause.To)}"], Do)
        );

    private static void Row(DayColumns list, List<DayStep> run, DayWords words)
    {
        var (first, trims) = (run[0], run[0].Op == "trim");
        var many = run.Count > 1 && trims ? $"{run.Count} × " : "";
        // A thing's name stands where it is taken in hand; from then on its number and its label tell it from others.
        var note =
            trims ? Trimmed(run, words)
            : run.Any(s => s.Op is "load" or "bond.load") ? words.Name(first.Ref)
            : "";
        var label = trims || words.Label(first.Ref) is not { } l ? "" : " · " + l;
        CellText[] cells =
        [
            new(words.Clock(first.Start), Time),
            new(many + string.Join(", ", run.Select(s => words[DayWords.Short(s.Op)]).Distinct()), Do),
            new(Numbers(run, words) + label, Do),
        ];
        // The labels of a few pieces find room on the line itself: a trim is at no press.
        if (trims && DayColumns.Fits(new(note, What), cells.Length))
        {
            list.Row(null, [.. cells, new(note, What)]);
            return;
        }

        var rack = run.Any(s => s.Op is "lift" or "peel") ? words.RackPlace(first.Ref) : null;
        list.Row(
            new(note, What),
            [.. cells, new(Figures(run, words), Do), new(rack?.ToString(CultureInfo.InvariantCulture) ?? "", Do)]
        );
    }

    /// <summary>Pieces to be cut apart: by the labels printed beside them where they are known, else by name.</summary>
    private static string Trimmed(List<DayStep> run, DayWords words)
    {
        var from = words.SheetOf(run[0].Ref) is { } sheet ? $"{words.Name(sheet)}: " : "";
        return from
            + string.Join("; ", run.Select(s => words.Label(s.Ref) ?? $"{words.Tag(s.Ref)} {words.Name(s.Ref)}"));
    }

    /// <summary>"4" or "4–9": pieces trimmed in a row have numbers in a row, for trimming is the first that is done to them.</summary>
    public static string Numbers(IReadOnlyList<DayStep> run, DayWords words)
    {
        var tags = run.Select(s => words.Tag(s.Ref)).ToArray();
        var row = tags.Zip(tags.Skip(1)).All(t => Follows(t.First, t.Second));
        return tags.Distinct().Count() == 1 ? tags[0]
            : row ? $"{tags[0]}–{tags[^1]}"
            : string.Join(", ", tags);
    }

    private static bool Follows(string a, string b) =>
        int.TryParse(a, CultureInfo.InvariantCulture, out var first)
        && int.TryParse(b, CultureInfo.InvariantCulture, out var next)
        && next == first + 1;

    /// <summary>"P1 150 °C 20 s" where the press closes; the press alone for other work at it.</summary>
    private static string Figures(List<DayStep> run, DayWords words)
    {
        var closes = run.FirstOrDefault(s => words.Closed(s.Op, s.Ref) is not null);
        return closes is not null
            ? $"{closes.Press} {words.Celsius(closes.Ref)}\u00a0°C {words.Closed(closes.Op, closes.Ref)}\u00a0s"
            : run.FirstOrDefault(s => s.Press is not null)?.Press ?? "";
    }
}
