using System.Globalization;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Desk.Press;

namespace Coldpeel.Cli;

/// <summary>A day plan in words for a terminal: for each pair of hands what is next, and what goes on meanwhile.</summary>
internal static class PlanWords
{
    private const int ShownChanges = 10;

    public static string Of(PlannedDay day)
    {
        var plan = day.Plan;
        var lines = new List<string>
        {
            $"{day.Problem.Name}: {plan.Steps.Length} steps, {Clock(plan.MakespanS)} long; no plan can be shorter than {Clock(plan.BoundS)}"
                + (
                    plan.Proved ? " (proved the shortest)"
                    : plan.ShortestOfItsLateness ? " (proved the shortest that is no later)"
                    : ""
                ),
            $"  lateness {Whole(plan.LatenessS)} weighted seconds"
                + (plan.LatenessS <= plan.LatenessBoundS ? " (proved the least)" : ""),
        };
        lines.Add($"  {Whole(plan.SetPointChanges)} set-point changes, {Whole(plan.Walks)} walks from press to press");
        lines.AddRange(
            day.Orders.Where(o => o.LateS > 0)
                .Select(o => $"  late: order {o.Id} by {Clock(o.LateS)} (due {Clock(o.Due)}, done {Clock(o.Done)})")
        );
        lines.AddRange(day.Notes.Select(n => "  note: " + n));
        lines.AddRange(plan.LeftOut.Select(left => $"  not planned: {left.Ref}: {left.Why}"));
        Changes(lines, day.Changes);
        lines.AddRange(
            day.Answers.Select(a =>
                $"  with {a.Asked}: {Clock(a.MakespanS)} long ({Difference(a.MakespanS - plan.MakespanS)}), lateness {Whole(a.LatenessS)}"
            )
        );
        Sure(lines, day);
        foreach (var hand in plan.Steps.Where(s => s.Hand is not null).GroupBy(s => s.Hand!.Value).OrderBy(g => g.Key))
        {
            lines.Add($"Hands {Whole(hand.Key)}");
            lines.AddRange(hand.Select(s => Line(s, plan)));
            lines.AddRange(
                plan.Breaks.Where(b => b.Hand == hand.Key).Select(b => $"  {Clock(b.From)}  break until {Clock(b.To)}")
            );
        }

        return string.Join(Environment.NewLine, lines);
    }

    private static string Line(DayStep step, DayPlan plan)
    {
        var meanwhile = plan
            .Steps.Where(s =>
                s.Op.EndsWith("press", StringComparison.Ordinal) && s.Start <= step.Start && s.End > step.Start
            )
            .Select(s => $"{s.Ref} in {s.Press} until {Clock(s.End)}");
        var also = string.Join(", ", meanwhile);
        return $"  {Clock(step.Start)}  {step.Op, -13}{step.Ref, -12}"
            + (step.Press is null ? "" : $" press {step.Press}")
            + (step.Rack is null ? "" : $" rack {Whole(step.Rack.Value)}")
            + (also.Length > 0 ? $"  meanwhile {also}" : "");
    }

    private static void Changes(List<string> lines, DayChanges? changes)
    {
        if (changes is null)
        {
            return;
        }

        lines.Add(
            $"  changed: {Whole(changes.Moved.Length)} of {Whole(changes.Known)} tasks moved by a minute or more or to another press"
                + (changes.Added > 0 ? $", {Whole(changes.Added)} are new" : "")
                + (changes.Dropped > 0 ? $", {Whole(changes.Dropped)} fell away" : "")
        );
        lines.AddRange(
            changes
                .Moved.Take(ShownChanges)
                .Select(t =>
                    $"    {t.Op} of {t.Ref}: {Clock(t.From)} to {Clock(t.To)}"
                    + (t.FromPress != t.ToPress ? $", press {t.FromPress} to {t.ToPress}" : "")
                )
        );
        if (changes.Moved.Length > ShownChanges)
        {
            lines.Add($"    and {Whole(changes.Moved.Length - ShownChanges)} more");
        }
    }

    private static void Sure(List<string> lines, PlannedDay day)
    {
        lines.AddRange(
            day.Times.Select(t =>
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"  {t.Step} takes {t.Person ?? "everybody"} {t.MedianS:0.#} s (± {t.SpreadS:0.#}, {t.Count} times)"
                )
            )
        );
        if (day.Sureness is { } sure)
        {
            lines.Add(
                $"  half of {Whole(sure.Runs)} days lived through end by {Clock(sure.LikelyS)}, nine in ten by {Clock(sure.SafeS)}"
            );
        }
    }

    private static string Difference(int seconds) => (seconds < 0 ? "-" : "+") + Clock(Math.Abs(seconds));

    private static string Whole(long value) => value.ToString(CultureInfo.InvariantCulture);

    private static string Clock(int seconds) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"{(seconds < 0 ? "-" : "")}{Math.Abs(seconds) / 3600}:{Math.Abs(seconds) / 60 % 60:00}:{Math.Abs(seconds) % 60:00}"
        );
}
