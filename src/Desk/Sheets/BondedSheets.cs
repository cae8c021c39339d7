using Coldpeel.Desk.Press.Bench;
using Coldpeel.Workshop.Press.Bench;

namespace Coldpeel.Desk.Sheets;

/// <summary>Reads from the days at the bench which sheets have their adhesive.</summary>
internal sealed class BondedSheets(OpenedWorkshop workshop)
{
    // The glue stays where there is toner once the sheet is peeled off hot.
    private const string Bonded = "bond.peel";

    /// <summary>How many sheets of each order were bonded in a day that is open; orders without any are left out.</summary>
    public Dictionary<string, int> Of(IReadOnlyCollection<string> orders)
    {
        var bonded = new Dictionary<string, int>(StringComparer.Ordinal);
        if (orders.Count == 0)
        {
            return bonded;
        }

        var bench = new OpenBench(workshop);
        foreach (var day in bench.Last().Where(d => !d.Closed).Select(d => bench.Run(d.Id)).OfType<OpenedBench>())
        {
            var done = BenchProgress.Of(day.Plan, day.Events);
            var sheets = done
                .Tasks.Where(t => t.Op == Bonded && done.Done.ContainsKey(t.Id))
                .Select(t => t.Ref)
                .ToHashSet(StringComparer.Ordinal);
            foreach (var (order, count) in day.Cards.Where(c => sheets.Contains(c.Ref)).CountBy(c => c.Job))
            {
                if (orders.Contains(order))
                {
                    bonded[order] = bonded.GetValueOrDefault(order) + count;
                }
            }
        }

        return bonded;
    }
}
