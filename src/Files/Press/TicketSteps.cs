using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Files.Paper;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Press;

/// <summary>The steps of a ticket as a table; the figures of the steps at the item are the biggest things on the paper.</summary>
internal static class TicketSteps
{
    private static readonly Column[] Columns =
    [
        new("step", 36),
        new("°C", 22, Align.Right),
        new("seconds", 24, Align.Right),
        new("pressure, kPa", 23, Align.Right),
        new("on top", 27),
        new("how", 48),
    ];

    public static void Draw(Flow flow, ImmutableArray<ProcessStep> steps)
    {
        if (steps.Length > 0)
        {
            new Table(Columns, middle: true).Draw(flow, [.. steps.Select((s, i) => Row(s, i + 1))]);
            flow.Gap(1.5);
            Sources(flow, steps);
        }

        flow.Keep(TextStyle.Strong.LineMm);
        flow.Text(TicketsPdf.MakersFirst, TextStyle.Strong.At(10.5));
        flow.Gap(3);
    }

    private static IReadOnlyList<Cell> Row(ProcessStep step, int number)
    {
        // Steps at the item are read at the press with warm hands; those of the sheet are done before, at a table.
        var atItem = step.Kind is >= StepKind.PrePress;
        var figure = TextStyle.Title.At(atItem ? 26 : 15);
        var name = TextStyle.Title.At(atItem ? 13 : 11);
        var heated = step.Celsius is not null;
        return
        [
            Cell.Of($"{number} {Name(step.Kind)}", name),
            Figure(step.Celsius, figure, 1),
            Seconds(step, figure),
            step.KPa is null && heated
                ? Cell.Of("maker's sheet", TextStyle.Small.At(8.5))
                : Figure(step.KPa, figure.At(figure.Pt * 0.75), 3),
            Cell.Of(step.Cover ?? "", TextStyle.Strong.At(10.5)),
            Cell.Of(step.Say, TextStyle.Body.At(9.5)),
        ];
    }

    /// <summary>Press and cooling times are kept to the second; a hand's time is only what the plan reckons with.</summary>
    private static Cell Seconds(ProcessStep step, TextStyle figure) =>
        step.Seconds > 0 && step.Celsius is null && step.Kind != StepKind.Cool
            ? Cell.Of(string.Create(CultureInfo.InvariantCulture, $"about {step.Seconds}"), TextStyle.Body.At(10))
            : Figure(step.Seconds > 0 ? step.Seconds : null, figure, 2);

    private static Cell Figure(int? value, TextStyle style, int column) =>
        value is { } v
            ? Cell.Figure(v.ToString(CultureInfo.InvariantCulture), style, Columns[column].WidthMm)
            : Cell.Of("–", TextStyle.Body.At(style.Pt / 2) with { Colour = Inks.Grey });

    /// <summary>Where the figures come from, small, steps with one source together.</summary>
    private static void Sources(Flow flow, ImmutableArray<ProcessStep> steps)
    {
        var by = steps
            .Select((s, i) => (Number: i + 1, s.Source))
            .GroupBy(s => s.Source, StringComparer.Ordinal)
            .Select(g => $"steps {string.Join(", ", g.Select(s => s.Number))}: {g.Key}");
        flow.Text("Figures from – " + string.Join("; ", by) + ".", TextStyle.Small);
        flow.Gap(0.5);
    }

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
