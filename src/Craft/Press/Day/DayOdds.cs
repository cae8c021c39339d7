using System.Collections.Immutable;
using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Press.Day;

/// <summary>How sure the end of a day is.</summary>
/// <param name="Runs">Days simulated.</param>
/// <param name="LikelyS">Half of them end by this second, from the problem's now.</param>
/// <param name="SafeS">Nine in ten end by this second.</param>
/// <param name="OnTime">For each order, the share of days on which it is done by its due second.</param>
public sealed record DaySureness(int Runs, int LikelyS, int SafeS, ImmutableArray<(string Order, double Share)> OnTime);

/// <summary>Lives through a planned day many times, each hand step taking as long as one of its recorded times says.</summary>
/// <remarks>
/// The order of work on each press and of each hand stays as planned; who is behind goes on as soon as the hand, the press at its set-point and
/// the item are there. A press that waits for a late hand stays closed longer. Steps are taken as independent of one another; a person who is slow all day makes the true spread wider.
/// </remarks>
public static class DayOdds
{
    /// <summary>The spread of ends over so many simulated days; the same seed gives the same days.</summary>
    /// <param name="day">The day.</param>
    /// <param name="plan">A sound plan of it.</param>
    /// <param name="shares">By step, recorded times over what is planned; a step that is not there takes what is planned.</param>
    /// <param name="runs">Days to simulate, 1 or more.</param>
    /// <param name="seed">The seed.</param>
    public static DaySureness Simulate(
        DayProblem day,
        DayPlan plan,
        IReadOnlyDictionary<string, ImmutableArray<double>> shares,
        int runs,
        ulong seed
    )
    {
        ArgumentNullException.ThrowIfNull(day);
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(shares);
        Need.Positive(runs);
        var steps = plan.Steps;
        var before = Before(day, steps);
        var rng = new Rng(seed);
        var ends = new int[runs];
        var onTime = new int[day.Orders.Length];
        var orderOf = day.Placements.ToDictionary(p => p.Id, p => p.Order, StringComparer.Ordinal);
        var printed = day.Sheets.ToDictionary(s => ("bond.load", s.Id), s => (double)s.AvailableAt);
        var end = new double[steps.Length];
        for (var run = 0; run < runs; run++)
        {
            var last = (double)day.Now;
            var done = day.Orders.ToDictionary(o => o.Id, _ => double.MinValue, StringComparer.Ordinal);
            for (var i = 0; i < steps.Length; i++)
            {
                var (step, length) = (steps[i], (double)(steps[i].End - steps[i].Start));
                var start = Math.Max(day.Now, printed.GetValueOrDefault((step.Op, step.Ref)));
                start = before[i].Count == 0 ? Math.Max(start, step.Start) : start;
                foreach (var (j, lag) in before[i])
                {
                    start = Math.Max(start, end[j] + lag);
                }

                if (step.Start < day.Now)
                {
                    start = step.Start;
                }
                else if (step.Hand is not null && shares.TryGetValue(step.Op, out var all) && all.Length > 0)
                {
                    length *= all[rng.Below(all.Length)];
                }

                end[i] = start + length;
                last = Math.Max(last, end[i]);
                if (step.Op == "inspect")
                {
                    done[orderOf[step.Ref]] = Math.Max(done[orderOf[step.Ref]], end[i]);
                }
            }

            ends[run] = (int)Math.Ceiling(last) - day.Now;
            for (var o = 0; o < onTime.Length; o++)
            {
                onTime[o] += done[day.Orders[o].Id] <= day.Orders[o].Due ? 1 : 0;
            }
        }

        Array.Sort(ends);
        return new(
            runs,
            ends[(runs - 1) / 2],
            ends[(int)Math.Ceiling(0.9 * runs) - 1],
            [.. day.Orders.Select((o, i) => (o.Id, (double)onTime[i] / runs))]
        );
    }

    // What each step waits for, and how long after its end: all of it stands before the step in a plan in order of start.
    private static List<(int Step, double Lag)>[] Before(DayProblem day, ImmutableArray<DayStep> steps)
    {
        var before = steps.Select(_ => new List<(int, double)>()).ToArray();
        var at = new Dictionary<(string, string), int>();
        var hand = new Dictionary<int, int>();
        var press = new Dictionary<string, (int Step, int TempC)>(StringComparer.Ordinal);
        var rack = new Dictionary<int, int>();
        var temps = day
            .Sheets.ToDictionary(s => s.Id, s => s.TempC, StringComparer.Ordinal)
            .Concat(day.Placements.Select(p => KeyValuePair.Create(p.Id, p.TempC)))
            .GroupBy(p => p.Key)
            .ToDictionary(g => g.Key, g => g.Last().Value, StringComparer.Ordinal);
        var lain = steps.Where(s => s.Op == "cool").ToDictionary(s => s.Ref, s => s.Rack, StringComparer.Ordinal);
        var placements = day.Placements.ToDictionary(p => p.Id, StringComparer.Ordinal);
        for (var i = 0; i < steps.Length; i++)
        {
            var step = steps[i];
            void After(string op, string? of)
            {
                if (of is not null && at.TryGetValue((op, of), out var j))
                {
                    before[i].Add((j, 0));
                }
            }

            var placement = placements.GetValueOrDefault(step.Ref);
            foreach (var op in Earlier(step.Op))
            {
                After(op, step.Op == "trim" ? placement?.Sheet : step.Ref);
            }

            if (step.Op == "load")
            {
                After("inspect", placement?.After);
            }

            if (step.Hand is { } h)
            {
                if (hand.TryGetValue(h, out var j))
                {
                    before[i].Add((j, 0));
                }

                hand[h] = i;
            }

            if (step.Press is { } p)
            {
                if (press.TryGetValue(p, out var last))
                {
                    var change = temps[step.Ref] - last.TempC;
                    before[i]
                        .Add((last.Step, Math.Abs(change) * 60 / (change > 0 ? day.HeatCPerMin : day.CoolCPerMin)));
                }

                press[p] = (i, temps[step.Ref]);
            }

            if (step.Op == "lift" && lain.GetValueOrDefault(step.Ref) is { } place)
            {
                if (rack.TryGetValue(place, out var held))
                {
                    before[i].Add((held, 0));
                }
            }

            if (step.Op == "finish.load" && lain.GetValueOrDefault(step.Ref) is { } left)
            {
                rack[left] = i;
            }

            at[(step.Op, step.Ref)] = i;
        }

        return before;
    }

    private static string[] Earlier(string op) =>
        op switch
        {
            "bond.press" => ["bond.load"],
            "bond.peel" => ["bond.press"],
            "trim" => ["bond.peel"],
            "load" => ["trim"],
            "press" => ["load"],
            "lift" => ["press"],
            "cool" => ["lift"],
            "peel" => ["cool"],
            "finish.load" => ["peel"],
            "finish.press" => ["finish.load"],
            "unload" => ["finish.press"],
            "inspect" => ["unload"],
            _ => [],
        };
}
