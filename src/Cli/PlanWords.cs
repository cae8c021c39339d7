using System.Globalization;
using Coldpeel.Desk.Press;

namespace Coldpeel.Cli;

/// <summary>A day plan in words for a terminal.</summary>
internal static class PlanWords
{
    public static string Of(PlannedDay day)
    {
        var plan = day.Plan;
        var lines = new List<string>
        {
            $"{day.Problem.Name}: {plan.Steps.Length} steps, {Clock(plan.MakespanS)} long; no plan can be shorter than {Clock(plan.BoundS)}"
                + (plan.Proved ? " (proved the shortest)" : ""),
        };
        lines.AddRange(
            plan.Steps.Select(s =>
                $"  {Clock(s.Start)}  {s.Op, -13}{s.Ref, -12}"
                + (s.Press is null ? "" : $" press {s.Press}")
                + (s.Hand is null ? "" : $" hand {s.Hand}")
                + (s.Rack is null ? "" : $" rack {s.Rack}")
            )
        );
        lines.AddRange(plan.LeftOut.Select(left => $"  not planned: {left.Ref}: {left.Why}"));
        return string.Join(Environment.NewLine, lines);
    }

    private static string Clock(int seconds) =>
        string.Create(CultureInfo.InvariantCulture, $"{seconds / 3600}:{seconds / 60 % 60:00}:{seconds % 60:00}");
}
