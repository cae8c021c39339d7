using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Files.Paper;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Press;

/// <summary>The steps of a ticket: those of the sheet small, then those at the press, whose figures are the biggest things on the paper.</summary>
internal static class TicketSteps
{
    /// <summary>A block of steps: how wide its columns are and how big its type is.</summary>
    private sealed record Block(
        string Head,
        Column[] Columns,
        double NamePt,
        double FigurePt,
        double CoverPt,
        double SayPt
    )
    {
        public static Block Of(
            string head,
            double[] mm,
            double namePt,
            double figurePt,
            double coverPt,
            double sayPt
        ) =>
            new(
                head,
                [
                    new("step", mm[0]),
                    new("°C", mm[1], Align.Right),
                    new("seconds", mm[2], Align.Right),
                    new("kPa", mm[3], Align.Right),
                    new("on top", mm[4]),
                    new("how", mm[5]),
                ],
                namePt,
                figurePt,
                coverPt,
                sayPt
            );
    }

    // The sheet is made at a table, once; the item is pressed at arm's length, with warm hands, every time.
    private static readonly Block AtTable = Block.Of("Once a sheet", [24, 13, 18, 22, 20, 83], 9.5, 11, 8.5, 8.5);
    private static readonly Block AtPress = Block.Of(
        "At the press, every item",
        [32, 21, 20, 22, 24, 61],
        12,
        25,
        10,
        9
    );

    public static void Draw(Flow flow, ImmutableArray<ProcessStep> steps, string? heatSay)
    {
        var numbered = steps.Select((s, i) => (Step: s, Number: i + 1)).ToList();
        Draw(flow, AtTable, [.. numbered.Where(s => s.Step.Kind < StepKind.PrePress)]);
        Draw(flow, AtPress, [.. numbered.Where(s => s.Step.Kind >= StepKind.PrePress)]);
        if (steps.Length > 0)
        {
            Sources(flow, steps, heatSay);
        }

        flow.Keep(TextStyle.Strong.LineMm);
        flow.Text(TicketsPdf.MakersFirst, TextStyle.Strong.At(10));
        flow.Gap(3);
    }

    private static void Draw(Flow flow, Block block, List<(ProcessStep Step, int Number)> steps)
    {
        if (steps.Count == 0)
        {
            return;
        }

        var table = new Table(block.Columns, middle: true, airMm: block == AtTable ? 0.7 : 1);
        var rows = steps.Select(s => Row(s.Step, s.Number, block)).ToList();
        var head = TextStyle.Title.At(11);
        flow.Keep(head.LineMm + table.HeightMm(rows.Take(2)));
        flow.Text(block.Head, head);
        table.Draw(flow, rows);
        flow.Gap(3);
    }

    private static IReadOnlyList<Cell> Row(ProcessStep step, int number, Block block)
    {
        var figure = TextStyle.Title.At(block.FigurePt);
        var columns = block.Columns;
        return
        [
            Cell.Of($"{number} {Name(step.Kind)}", TextStyle.Title.At(block.NamePt)),
            Figure(step.Celsius, figure, columns[1]),
            Seconds(step, figure, columns[2]),
            step.KPa is null && step.Celsius is not null
                ? Cell.Of("maker's sheet", TextStyle.Small.At(8))
                : Figure(step.KPa, figure.At(figure.Pt * 0.75), columns[3]),
            Cell.Of(step.Cover ?? "", TextStyle.Strong.At(block.CoverPt)),
            Cell.Of(step.Say, TextStyle.Body.At(block.SayPt)),
        ];
    }

    /// <summary>Press and cooling times are kept to the second; a hand's time is only what the plan reckons with.</summary>
    private static Cell Seconds(ProcessStep step, TextStyle figure, Column column) =>
        step.Seconds > 0 && step.Celsius is null && step.Kind != StepKind.Cool
            ? Cell.Of(string.Create(CultureInfo.InvariantCulture, $"about {step.Seconds}"), TextStyle.Body.At(9))
            : Figure(step.Seconds > 0 ? step.Seconds : null, figure, column);

    private static Cell Figure(int? value, TextStyle style, Column column) =>
        value is { } v
            ? Cell.Figure(v.ToString(CultureInfo.InvariantCulture), style, column.WidthMm)
            : Cell.Of("–", TextStyle.Body.At(Math.Min(10, style.Pt)) with { Colour = Inks.Grey });

    /// <summary>Where the figures come from, small, steps with one source together.</summary>
    private static void Sources(Flow flow, ImmutableArray<ProcessStep> steps, string? heatSay)
    {
        var by = steps
            .Select((s, i) => (Number: i + 1, Source: Source(s)))
            .GroupBy(s => s.Source, StringComparer.Ordinal)
            .Select(g =>
                $"{(g.Count() == 1 ? "Step" : "Steps")} {string.Join(", ", g.Select(s => s.Number))}: {g.Key}."
            );
        flow.Text("Sources of the figures. " + string.Join(" ", by.Append(heatSay)).TrimEnd(), TextStyle.Small.At(6.5));
        flow.Gap(0.5);
    }

    // Common practice says so in its own words; anything better is told.
    private static string Source(ProcessStep step) =>
        step.Evidence == Evidence.CommonPractice
            ? step.Source
            : $"{step.Source} (rests on: {EvidenceWords.Of(step.Evidence)})";

    /// <summary>The trade's word for a step.</summary>
    public static string Name(StepKind kind) =>
        kind switch
        {
            StepKind.Print => "Print",
            StepKind.Bond => "Bond",
            StepKind.HotPeel => "Hot peel",
            StepKind.Trim => "Trim",
            StepKind.PrePress => "Pre-press",
            StepKind.Press => "Press",
            StepKind.Cool => "Cool",
            StepKind.ColdPeel => "Cold peel",
            StepKind.FinishPress => "Finish press",
            StepKind.Inspect => "Inspect",
            _ => kind.ToString(),
        };
}
