using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Files.Paper;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Press;

/// <summary>The steps of a ticket: those of the sheet small, then those at the press, whose figures are the biggest things on the paper.</summary>
internal static class TicketSteps
{
    /// <summary>A block of steps: how wide its columns are and how big its type is.</summary>
    private sealed record Block(
        Sentence Head,
        (Sentence Head, double Mm, Align Align)[] Heads,
        double NamePt,
        double FigurePt,
        double CoverPt,
        double SayPt
    )
    {
        public static Block Of(
            Sentence head,
            double[] mm,
            double namePt,
            double figurePt,
            double coverPt,
            double sayPt
        ) =>
            new(
                head,
                [
                    ($"step", mm[0], Align.Left),
                    ($"°C", mm[1], Align.Right),
                    ($"seconds", mm[2], Align.Right),
                    ($"kPa", mm[3], Align.Right),
                    ($"on top", mm[4], Align.Left),
                    ($"how", mm[5], Align.Left),
                ],
                namePt,
                figurePt,
                coverPt,
                sayPt
            );

        public Column[] In(Wording words) => [.. Heads.Select(h => new Column(words[h.Head], h.Mm, h.Align))];
    }

    // The sheet is made at a table, once; the item is pressed at arm's length, with warm hands, every time.
    private static readonly Block AtTable = Block.Of($"Once a sheet", [24, 13, 18, 22, 20, 83], 9.5, 11, 8.5, 8.5);
    private static readonly Block AtPress = Block.Of(
        $"At the press, every item",
        [32, 21, 20, 22, 24, 61],
        12,
        25,
        10,
        9
    );

    public static void Draw(Flow flow, ImmutableArray<ProcessStep> steps, Sentence? heatSay)
    {
        var numbered = steps.Select((s, i) => (Step: s, Number: i + 1)).ToList();
        Draw(flow, AtTable, [.. numbered.Where(s => s.Step.Kind < StepKind.PrePress)]);
        Draw(flow, AtPress, [.. numbered.Where(s => s.Step.Kind >= StepKind.PrePress)]);
        if (steps.Length > 0)
        {
            Sources(flow, steps, heatSay);
        }

        flow.Keep(TextStyle.Strong.LineMm);
        flow.Text(flow.Words[TicketsPdf.MakersFirst], TextStyle.Strong.At(10));
        flow.Gap(3);
    }

    private static void Draw(Flow flow, Block block, List<(ProcessStep Step, int Number)> steps)
    {
        if (steps.Count == 0)
        {
            return;
        }

        var table = new Table(block.In(flow.Words), middle: true, airMm: block == AtTable ? 0.7 : 1);
        var rows = steps.Select(s => Row(s.Step, s.Number, block, flow.Words)).ToList();
        var head = TextStyle.Title.At(11);
        flow.Keep(head.LineMm + table.HeightMm(rows.Take(2)));
        flow.Text(flow.Words[block.Head], head);
        table.Draw(flow, rows);
        flow.Gap(3);
    }

    private static IReadOnlyList<Cell> Row(ProcessStep step, int number, Block block, Wording words)
    {
        var figure = TextStyle.Title.At(block.FigurePt);
        var columns = block.In(words);
        return
        [
            Cell.Of($"{number} {words[Name(step.Kind)]}", TextStyle.Title.At(block.NamePt)),
            Figure(step.Celsius, figure, columns[1]),
            Seconds(step, figure, columns[2], words),
            step.KPa is null && step.Celsius is not null
                ? Cell.Of(words[$"maker's sheet"], TextStyle.Small.At(8))
                : Figure(step.KPa, figure.At(figure.Pt * 0.75), columns[3]),
            Cell.Of(words.Data(step.Cover ?? ""), TextStyle.Strong.At(block.CoverPt)),
            Cell.Of(words.Data(step.Say), TextStyle.Body.At(block.SayPt)),
        ];
    }

    /// <summary>Press and cooling times are kept to the second; a hand's time is only what the plan reckons with.</summary>
    private static Cell Seconds(ProcessStep step, TextStyle figure, Column column, Wording words) =>
        step.Seconds > 0 && step.Celsius is null && step.Kind != StepKind.Cool
            ? Cell.Of(words[$"about {step.Seconds}"], TextStyle.Body.At(9))
            : Figure(step.Seconds > 0 ? step.Seconds : null, figure, column);

    private static Cell Figure(int? value, TextStyle style, Column column) =>
        value is { } v
            ? Cell.Figure(v.ToString(CultureInfo.InvariantCulture), style, column.WidthMm)
            : Cell.Of("–", TextStyle.Body.At(Math.Min(10, style.Pt)) with { Colour = Inks.Grey });

    /// <summary>Where the figures come from, small, steps with one source together.</summary>
    private static void Sources(Flow flow, ImmutableArray<ProcessStep> steps, Sentence? heatSay)
    {
        var by = steps
            .Select((s, i) => (Number: i + 1, Source: Source(s)))
            .GroupBy(s => s.Source)
            .Select(g =>
            {
                var steps = string.Join(", ", g.Select(s => s.Number));
                return g.Count() == 1 ? (Sentence)$"Step {steps}: {g.Key}." : $"Steps {steps}: {g.Key}.";
            });
        var all = new Part.Row([.. by, heatSay ?? Sentence.Nothing], " ");
        flow.Text(flow.Words[$"Sources of the figures. {all}"].TrimEnd(), TextStyle.Small.At(6.5));
        flow.Gap(0.5);
    }

    // Common practice says so in its own words; anything better is told.
    private static Sentence Source(ProcessStep step) =>
        step.Evidence == Evidence.CommonPractice
            ? (Sentence)step.Source
            : $"{(Sentence)step.Source} (rests on: {(Sentence)EvidenceWords.Of(step.Evidence)})";

    /// <summary>The trade's word for a step.</summary>
    public static Sentence Name(StepKind kind) =>
        kind switch
        {
            StepKind.Print => (Sentence)$"Print",
            StepKind.Bond => $"Bond",
            StepKind.HotPeel => $"Hot peel",
            StepKind.Trim => $"Trim",
            StepKind.PrePress => $"Pre-press",
            StepKind.Press => $"Press",
            StepKind.Cool => $"Cool",
            StepKind.ColdPeel => $"Cold peel",
            StepKind.FinishPress => $"Finish press",
            StepKind.Inspect => $"Inspect",
            _ => kind.ToString(),
        };
}
