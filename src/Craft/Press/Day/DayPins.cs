using System.Collections.Immutable;

namespace Coldpeel.Craft.Press.Day;

/// <summary>A pin that a plan does not keep to the letter.</summary>
/// <param name="Pin">The pin.</param>
/// <param name="First">The first step of its task as planned.</param>
/// <param name="SoonestS">No plan begins the task before this second: what comes before it, its press and now ask for it.</param>
public sealed record DayPinMiss(DayPin Pin, DayStep First, int SoonestS)
{
    /// <summary>The task begins after the second it is pinned to.</summary>
    public bool Late => First.Start > Pin.Start;

    /// <summary>It is on another press.</summary>
    public bool Elsewhere => Pin.Press is not null && First.Press is not null && First.Press != Pin.Press;

    /// <summary>Another hand begins it.</summary>
    public bool OtherHand => Pin.Hand is not null && First.Hand != Pin.Hand;
}

/// <summary>What a plan makes of pins.</summary>
public static class DayPins
{
    /// <summary>Pins of tasks not begun before now that are late, elsewhere or in other hands, in the order of the day's pins.</summary>
    public static ImmutableArray<DayPinMiss> Missed(DayProblem problem, DayPlan plan)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(plan);
        if (problem.Wishes.Pins.IsEmpty)
        {
            return [];
        }

        var model = new DayModel(problem);
        var heads = DayBound.Heads(model);
        var firsts = plan
            .Steps.Where(s => Firsts.ContainsKey(s.Op))
            .ToDictionary(s => (Op: Firsts[s.Op], s.Ref), s => s);
        var missed = ImmutableArray.CreateBuilder<DayPinMiss>();
        foreach (var pin in problem.Wishes.Pins)
        {
            if (!firsts.TryGetValue((pin.Op, pin.Ref), out var first))
            {
                continue;
            }

            var b = model.BlockOf(pin.Op, pin.Ref);
            var miss = new DayPinMiss(pin, first, heads[b]);
            if (model.FixedStart[b] < 0 && (miss.Late || miss.Elsewhere || miss.OtherHand))
            {
                missed.Add(miss);
            }
        }

        return missed.ToImmutable();
    }

    private static readonly Dictionary<string, string> Firsts = new(StringComparer.Ordinal)
    {
        ["bond.load"] = "bond",
        ["trim"] = "trim",
        ["load"] = "place",
        ["peel"] = "peel",
        ["finish.load"] = "finish",
        ["inspect"] = "inspect",
    };
}
