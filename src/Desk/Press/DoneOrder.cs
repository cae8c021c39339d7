using System.Collections.Immutable;
using Coldpeel.Craft.Press.Day;

namespace Coldpeel.Desk.Press;

/// <summary>An order in a plan: due and done, in seconds of the day, by the last look at its last item.</summary>
public sealed record DoneOrder(string Id, int Due, int Done)
{
    /// <summary>Seconds after it was due; 0 when it is in time.</summary>
    public int LateS => Math.Max(0, Done - Due);

    /// <summary>Orders with work in the plan, in the order of the day.</summary>
    internal static ImmutableArray<DoneOrder> Of(DayProblem day, DayPlan plan)
    {
        var orderOf = day.Placements.ToDictionary(p => p.Id, p => p.Order, StringComparer.Ordinal);
        var done = plan
            .Steps.Where(s => s.Op == "inspect")
            .GroupBy(s => orderOf[s.Ref])
            .ToDictionary(g => g.Key, g => g.Max(s => s.End), StringComparer.Ordinal);
        return [.. day.Orders.Where(o => done.ContainsKey(o.Id)).Select(o => new DoneOrder(o.Id, o.Due, done[o.Id]))];
    }
}
