using Coldpeel.Craft.Press.Day;
using Coldpeel.Desk.Orders;
using Coldpeel.Files.Press;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Press.Bench;

/// <summary>The press work of a kept order, as a day of its own and as a part of a day of several orders.</summary>
internal static class DayOfOrder
{
    // As long as the column is.
    private const int LongestName = 400;

    /// <summary>The order with its day and the plan of it; null when it was not made or is stopped.</summary>
    public static (KeptOrder Order, DayProblem Day, DayPlan Plan)? Of(OpenedWorkshop workshop, string name)
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

    /// <summary>What to say of an order that has none.</summary>
    public static Fault None(string name) =>
        new($"“{name}”", "has no day plan.", "Make the order first; one that is stopped cannot be pressed.");

    /// <summary>What a day of those orders is called.</summary>
    public static string Called(IEnumerable<string> orders)
    {
        var name = string.Join(", ", orders);
        return name.Length <= LongestName ? name : $"{name[..(LongestName - 1)]}…";
    }

    /// <summary>What speaks against pressing an order now, in a new day and in a running one alike; null for nothing.</summary>
    public static Fault? Against(OpenedWorkshop workshop, KeptOrder order) =>
        order.SoFar.Stage switch
        {
            OrderStage.Approved or OrderStage.Printed => new OpenBench(workshop).Holding(order.Line.Name) is { } day
                ? Stands(order.Line.Name, day.Name)
                : null,
            OrderStage.Made => new(
                $"“{order.Line.Name}”",
                "is not approved: nobody has said that the customer wants it as the proof shows it.",
                "Keep the customer's approval on the order's page, then press it."
            ),
            _ => new(
                $"“{order.Line.Name}”",
                "was pressed before, or is set aside.",
                "Choose another order, or take its steps back on its page."
            ),
        };

    /// <summary>That an order stands in another day: its pieces would be pressed, and what is spoilt of them counted, twice.</summary>
    public static Fault Stands(string order, string day) =>
        new(
            $"“{order}”",
            $"stands in the day “{day}” at the bench already, which is not closed.",
            "Press it there, or close that day first."
        );

    /// <summary>What the names of the part of that number begin with, from 1.</summary>
    public static string Prefix(int part) => $"{part}/";

    /// <summary>The number of the part that a name belongs to; 0 for the names of a day of one order.</summary>
    public static int PartOf(string name)
    {
        var cut = name.IndexOf('/', StringComparison.Ordinal);
        return cut > 0 && int.TryParse(name.AsSpan(0, cut), out var part) ? part : 0;
    }

    /// <summary>The same work under names that begin so.</summary>
    public static DayProblem Named(DayProblem day, string prefix) =>
        day with
        {
            Sheets = [.. day.Sheets.Select(s => s with { Id = prefix + s.Id })],
            Orders = [.. day.Orders.Select(o => o with { Id = prefix + o.Id })],
            Placements = [.. day.Placements.Select(d => With(d, prefix))],
        };

    private static DayPlacement With(DayPlacement d, string prefix) =>
        d with
        {
            Id = prefix + d.Id,
            Item = prefix + d.Item,
            Order = prefix + d.Order,
            Sheet = d.Sheet is null ? null : prefix + d.Sheet,
            After = d.After is null ? null : prefix + d.After,
        };
}
