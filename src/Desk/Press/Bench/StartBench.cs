using Coldpeel.Craft.Press.Day;
using Coldpeel.Desk.Orders;
using Coldpeel.Files.Press;
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
        if (orders.Count is 0 or > MostOrders)
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
            if (Part(name) is not { } part)
            {
                return new Fault(
                    $"“{name}”",
                    "has no day plan.",
                    "Make the order first; one that is stopped cannot be pressed."
                );
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
                BenchCards.Of(p.Order, p.Day).Select(c => parts.Count == 1 ? c : c with { Ref = Prefix(i) + c.Ref })
        );
        var day = workshop.Store.Bench.Open(
            string.Join(", ", parts.Select(p => p.Order.Line.Name)),
            workshop.Clock.GetUtcNow(),
            KeptJson.Write(BenchPlan.Of(problem, plan)),
            KeptJson.Write(cards.ToArray())
        );
        return new StartedBench(day);
    }

    private (KeptOrder, DayProblem, DayPlan)? Part(string name)
    {
        if (
            new OpenKeptJob(workshop).Run(name) is not { Line.Figures: not null } order
            || workshop.Store.Content(name, "day.json") is not { } day
            || workshop.Store.Content(name, "day-plan.json") is not { } plan
        )
        {
            return null;
        }

        // The readers take files; what they say of ours cannot be a person's fault.
        var folder = Directory.CreateTempSubdirectory("coldpeel-day-").FullName;
        try
        {
            var (dayPath, planPath) = (Path.Combine(folder, "day.json"), Path.Combine(folder, "day-plan.json"));
            File.WriteAllBytes(dayPath, day);
            File.WriteAllBytes(planPath, plan);
            var problem = DayFile.Read(dayPath, "day.json");
            var planned = DayPlanFile.Read(planPath, "day-plan.json");
            return problem.Ok && planned.Ok ? (order, problem.Value, planned.Value.Plan) : null;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private (DayProblem, DayPlan) Together(
        List<(KeptOrder Order, DayProblem Day, DayPlan Plan)> parts,
        CancellationToken stop
    )
    {
        var first = parts[0].Day;
        var problem = first with
        {
            Name = string.Join(", ", parts.Select(p => p.Day.Name)),
            Sheets = [.. parts.SelectMany((p, i) => p.Day.Sheets.Select(s => s with { Id = Prefix(i) + s.Id }))],
            Orders = [.. parts.SelectMany((p, i) => p.Day.Orders.Select(o => o with { Id = Prefix(i) + o.Id }))],
            Placements = [.. parts.SelectMany((p, i) => p.Day.Placements.Select(d => With(d, Prefix(i))))],
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

    private static DayPlacement With(DayPlacement d, string prefix) =>
        d with
        {
            Id = prefix + d.Id,
            Item = prefix + d.Item,
            Order = prefix + d.Order,
            Sheet = d.Sheet is null ? null : prefix + d.Sheet,
            After = d.After is null ? null : prefix + d.After,
        };

    private static string Prefix(int part) => $"{part + 1}/";
}
