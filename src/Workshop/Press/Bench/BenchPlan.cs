using System.Collections.Immutable;
using Coldpeel.Craft.Press.Day;

namespace Coldpeel.Workshop.Press.Bench;

/// <summary>A press as the bench shows it.</summary>
/// <param name="Id">Its name in the workshop file.</param>
/// <param name="Celsius">Where it stands when the day starts.</param>
public sealed record BenchPress(string Id, int Celsius);

/// <summary>A day plan as work for people: tasks with what comes before each.</summary>
/// <param name="Tasks">By planned start.</param>
/// <param name="Presses">The presses.</param>
/// <param name="Hands">Pairs of hands planned with.</param>
/// <param name="RackPlaces">Items that can lie and cool at one time.</param>
public sealed record BenchPlan(
    ImmutableArray<BenchTask> Tasks,
    ImmutableArray<BenchPress> Presses,
    int Hands,
    int RackPlaces
)
{
    /// <summary>All that the day has to do, for whoever plans it again; null for a day that an earlier version opened.</summary>
    public DayProblem? Day { get; init; }

    /// <summary>What was planned again since, in order.</summary>
    public ImmutableArray<BenchChange> Changes { get; init; } = [];

    private static readonly ImmutableArray<string> SheetOps = ["bond.load", "bond.press", "bond.peel"];

    /// <summary>What is done to an item, in order.</summary>
    public static readonly ImmutableArray<string> ItemOps =
    [
        "trim",
        "load",
        "press",
        "lift",
        "cool",
        "peel",
        "finish.load",
        "finish.press",
        "unload",
        "inspect",
    ];

    /// <summary>The tasks of a plan. Steps that take no time are no tasks.</summary>
    public static BenchPlan Of(DayProblem day, DayPlan plan)
    {
        ArgumentNullException.ThrowIfNull(day);
        ArgumentNullException.ThrowIfNull(plan);
        var steps = plan.Steps.Where(s => s.End > s.Start).ToDictionary(s => (s.Op, s.Ref));
        var tasks = new List<BenchTask>();
        var last = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var sheet in day.Sheets)
        {
            Chain(sheet.Id, sheet.Id, SheetOps, sheet.TempC, [], []);
        }

        foreach (var placement in InOrder(day.Placements))
        {
            Chain(placement.Id, placement.Item, ItemOps, placement.TempC, Last(placement.Sheet), Last(placement.After));
        }

        return new(
            [.. tasks.OrderBy(t => t.StartS).ThenBy(t => t.EndS).ThenBy(t => t.Id, StringComparer.Ordinal)],
            [.. day.Presses.Select(p => new BenchPress(p.Id, p.SetpointC))],
            day.Hands,
            day.RackPlaces
        );

        ImmutableArray<string> Last(string? of) => of is not null && last.TryGetValue(of, out var id) ? [id] : [];

        // A piece may be trimmed early; the item itself must be free when it is placed.
        void Chain(
            string of,
            string item,
            ImmutableArray<string> ops,
            int celsius,
            ImmutableArray<string> before,
            ImmutableArray<string> itemBefore
        )
        {
            foreach (var op in ops)
            {
                if (!steps.TryGetValue((op, of), out var step))
                {
                    continue;
                }

                var id = $"{op} {of}";
                if (op == "load")
                {
                    before = [.. before, .. itemBefore];
                }

                var work =
                    op is "press" or "bond.press" or "finish.press" ? BenchWork.Plate
                    : op == "cool" ? BenchWork.Air
                    : BenchWork.Hand;
                tasks.Add(
                    new(
                        id,
                        op,
                        of,
                        item,
                        step.Start,
                        step.End,
                        work,
                        step.Press,
                        step.Press is null ? null : celsius,
                        step.Hand,
                        before
                    )
                );
                before = [id];
                last[of] = id;
            }
        }
    }

    // What comes first on an item is chained first, however the file lists them.
    private static List<DayPlacement> InOrder(ImmutableArray<DayPlacement> placements)
    {
        var known = placements.Select(p => p.Id).ToHashSet(StringComparer.Ordinal);
        var given = new HashSet<string>(StringComparer.Ordinal);
        var ordered = new List<DayPlacement>();
        for (var found = true; found; )
        {
            found = false;
            foreach (var p in placements.Where(p => !given.Contains(p.Id)).ToArray())
            {
                if (p.After is null || !known.Contains(p.After) || given.Contains(p.After))
                {
                    given.Add(p.Id);
                    ordered.Add(p);
                    found = true;
                }
            }
        }

        return ordered;
    }
}
