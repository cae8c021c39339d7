using Coldpeel.Craft.Press.Day;
using Coldpeel.Desk.Orders;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Press.Bench;

namespace Coldpeel.Desk.Press.Bench;

/// <summary>The number of a day at the bench that was just opened.</summary>
public sealed record StartedBench(int Day);

/// <summary>Opens a day at the bench over kept orders: one order by its own plan, several planned together.</summary>
public sealed class StartBench(OpenedWorkshop workshop)
{
    /// <summary>Most orders in one day.</summary>
    public const int MostOrders = 20;

    // Somebody stands at the bench and waits.
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(8);

    /// <summary>Opens the day now. The fault is of the choice.</summary>
    public Outcome<StartedBench> Run(IReadOnlyList<string> orders, CancellationToken stop)
    {
        ArgumentNullException.ThrowIfNull(orders);
        if (orders.Count == 0)
        {
            return new Fault(
                "The bench",
                "was given no order to press.",
                "Tick at least one order, then start the day."
            );
        }

        if (orders.Count > MostOrders)
        {
            return new Fault(
                "The bench",
                $"takes 1 to {MostOrders} orders a day.",
                "Choose the orders to press today."
            );
        }

        var parts = new List<(KeptOrder Order, DayProblem Day, DayPlan Plan)>();
        foreach (var name in orders.Distinct(StringComparer.Ordinal))
        {
            if (DayOfOrder.Of(workshop, name) is not { } part)
            {
                return DayOfOrder.None(name);
            }

            if (DayOfOrder.Against(workshop, part.Order) is { } against)
            {
                return against;
            }

            parts.Add(part);
        }

        var (problem, plan) = parts.Count == 1 ? (parts[0].Day, parts[0].Plan) : Together(parts, stop);
        if (plan.Steps.IsEmpty)
        {
            return new Fault("The bench", "finds nothing to press in that.", "Choose another order.");
        }

        var cards = parts.SelectMany(
            (p, i) =>
                BenchCards
                    .Of(p.Order, p.Day)
                    .Select(c => parts.Count == 1 ? c : c with { Ref = DayOfOrder.Prefix(i + 1) + c.Ref })
        );
        // Somebody else may have begun one of them while it was planned.
        lock (workshop.BenchTaps)
        {
            return
                parts.Select(p => DayOfOrder.Against(workshop, p.Order)).FirstOrDefault(f => f is not null) is { } late
                ? late
                : new StartedBench(
                    workshop.Store.Bench.Open(
                        DayOfOrder.Called(parts.Select(p => p.Order.Line.Name)),
                        workshop.Clock.GetUtcNow(),
                        KeptJson.Write(BenchPlan.Of(problem, plan) with { Day = problem }),
                        KeptJson.Write(cards.ToArray())
                    )
                );
        }
    }

    private (DayProblem, DayPlan) Together(
        List<(KeptOrder Order, DayProblem Day, DayPlan Plan)> parts,
        CancellationToken stop
    )
    {
        var first = parts[0].Day;
        var named = parts.Select((p, i) => DayOfOrder.Named(p.Day, DayOfOrder.Prefix(i + 1))).ToArray();
        var problem = first with
        {
            Name = string.Join(", ", parts.Select(p => p.Day.Name)),
            Sheets = [.. named.SelectMany(d => d.Sheets)],
            Orders = [.. named.SelectMany(d => d.Orders)],
            Placements = [.. named.SelectMany(d => d.Placements)],
            Fixed = [],
        };
        using var clock = new CancellationTokenSource(Patience, workshop.Clock);
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(stop, clock.Token);
        var plan = DayPlanner.Solve(problem, new DaySearch { Seed = 1 }, null, limit.Token);
        var faults = DayCheck.Faults(problem, plan.Steps);
        return faults.Count == 0
            ? (problem, plan)
            : throw new InvalidOperationException($"the day plan breaks a rule: {faults[0]}");
    }
}
