using System.Collections.Immutable;
using Coldpeel.Craft.Press.Day;

namespace Coldpeel.Workshop.Press;

/// <summary>How long a step really took at the bench: the plan's own word for it (load, lift, peel …), who did it, whole seconds.</summary>
public sealed record RecordedTime(string Step, string Person, int Seconds);

/// <summary>What recorded times of one step say: the middle one, and how far the middle half of them reaches from it.</summary>
/// <param name="Step">The step.</param>
/// <param name="Person">The person, or null for everybody together.</param>
/// <param name="Count">How many times were recorded.</param>
/// <param name="MedianS">Half of them took less.</param>
/// <param name="SpreadS">Median distance from the median, times 1.4826: the standard deviation where times are spread evenly about the middle (Hampel 1974).</param>
public sealed record StepTime(string Step, string? Person, int Count, double MedianS, double SpreadS);

/// <summary>Learns from recorded times: medians, which one forgotten stop-watch does not move.</summary>
public static class StepTimes
{
    /// <summary>Fewer recorded times than this are shown and not planned with (common practice, no source).</summary>
    public const int Enough = 5;

    /// <summary>The hand steps of a plan: only these are learned, for press and cooling times come from the recipe.</summary>
    public static readonly ImmutableArray<string> Steps =
    [
        "bond.load",
        "bond.peel",
        "trim",
        "load",
        "lift",
        "peel",
        "finish.load",
        "unload",
        "inspect",
    ];

    /// <summary>Each step for everybody together and then for each person, in the order of the steps and of names.</summary>
    public static ImmutableArray<StepTime> Of(IEnumerable<RecordedTime> recorded)
    {
        ArgumentNullException.ThrowIfNull(recorded);
        var byStep = recorded.ToLookup(r => r.Step, StringComparer.Ordinal);
        return
        [
            .. Steps
                .Where(s => byStep[s].Any())
                .SelectMany(step =>
                    new[] { Say(step, null, byStep[step]) }.Concat(
                        byStep[step]
                            .GroupBy(r => r.Person, StringComparer.Ordinal)
                            .OrderBy(g => g.Key, StringComparer.Ordinal)
                            .Select(g => Say(step, g.Key, g))
                    )
                ),
        ];
    }

    /// <summary>The day with learned times in place of its own, where enough were recorded.</summary>
    public static DayProblem Learn(DayProblem day, ImmutableArray<StepTime> times)
    {
        ArgumentNullException.ThrowIfNull(day);
        var known = times
            .Where(t => t.Person is null && t.Count >= Enough)
            .ToDictionary(t => t.Step, t => (int)Math.Round(t.MedianS), StringComparer.Ordinal);
        int Take(string step, int own) => known.GetValueOrDefault(step, own);
        return day with
        {
            Sheets =
            [
                .. day.Sheets.Select(s =>
                    s with
                    {
                        Load = Take("bond.load", s.Load),
                        Peel = Take("bond.peel", s.Peel),
                        Trim = Take("trim", s.Trim),
                    }
                ),
            ],
            Placements =
            [
                .. day.Placements.Select(p =>
                    p with
                    {
                        Load = Take("load", p.Load),
                        Lift = Take("lift", p.Lift),
                        Peel = Take("peel", p.Peel),
                        FinishLoad = Take("finish.load", p.FinishLoad),
                        Unload = Take("unload", p.Unload),
                        Inspect = Take("inspect", p.Inspect),
                    }
                ),
            ],
        };
    }

    /// <summary>For each step with enough times, each time over the median: what a step may take of what is planned.</summary>
    public static ImmutableDictionary<string, ImmutableArray<double>> Shares(IEnumerable<RecordedTime> recorded) =>
        recorded
            .GroupBy(r => r.Step, StringComparer.Ordinal)
            .Where(g => g.Count() >= Enough)
            .ToImmutableDictionary(
                g => g.Key,
                g =>
                {
                    var middle = Math.Max(1, Median([.. g.Select(r => (double)r.Seconds)]));
                    return g.Select(r => r.Seconds / middle).Order().ToImmutableArray();
                },
                StringComparer.Ordinal
            );

    private static StepTime Say(string step, string? person, IEnumerable<RecordedTime> all)
    {
        var seconds = all.Select(r => (double)r.Seconds).ToArray();
        var middle = Median(seconds);
        return new(
            step,
            person,
            seconds.Length,
            middle,
            1.4826 * Median([.. seconds.Select(s => Math.Abs(s - middle))])
        );
    }

    private static double Median(double[] values)
    {
        Array.Sort(values);
        var half = values.Length / 2;
        return values.Length % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2;
    }
}
