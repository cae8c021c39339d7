using System.Collections.Immutable;

namespace Coldpeel.Craft.Press.Day;

/// <summary>One step of the plan: what, of which sheet or placement, from when to when, and on which press, by which hand, at which rack place.</summary>
/// <param name="Op">bond.load, bond.press, bond.peel, trim, load, press, lift, cool, peel, finish.load, finish.press, unload or inspect.</param>
/// <param name="Ref">A sheet for the bond steps, else a placement.</param>
/// <param name="Start">Seconds of the day.</param>
/// <param name="End">Seconds of the day.</param>
/// <param name="Press">The press, where one is held.</param>
/// <param name="Hand">The hand from 1, where one is taken.</param>
/// <param name="Rack">The rack place from 1, where one is held.</param>
public sealed record DayStep(string Op, string Ref, int Start, int End, string? Press, int? Hand, int? Rack);

/// <summary>A break: from one second of the day to before another, for the hand of that number.</summary>
public sealed record DayPause(int From, int To, int Hand);

/// <summary>A placement or sheet that cannot be planned, and why.</summary>
public sealed record DayLeftOut(string Ref, string Why);

/// <summary>A day plan.</summary>
/// <param name="Steps">All steps, by start.</param>
/// <param name="LeftOut">What no press can take, with the reason.</param>
/// <param name="MakespanS">When the last step ends, in seconds from the problem's now.</param>
/// <param name="BoundS">No plan can end earlier than this, in seconds from now.</param>
/// <param name="Proved">Whether no shorter day exists.</param>
public sealed record DayPlan(
    ImmutableArray<DayStep> Steps,
    ImmutableArray<DayLeftOut> LeftOut,
    int MakespanS,
    int BoundS,
    bool Proved
)
{
    /// <summary>Weighted lateness: for each order its weight times the seconds it is late, summed.</summary>
    public long LatenessS { get; init; }

    /// <summary>No plan has less weighted lateness than this.</summary>
    public long LatenessBoundS { get; init; }

    /// <summary>How many tasks stand a minute or more from where the plan in force had them, or on another press.</summary>
    public int Moved { get; init; }

    /// <summary>How often a press goes to another set-point from now on.</summary>
    public int SetPointChanges { get; init; }

    /// <summary>How often a hand goes from one press to another from now on; steps away from a press are not counted.</summary>
    public int Walks { get; init; }

    /// <summary>Whether of all plans with this weighted lateness none is shorter; asked only where lateness is sought first.</summary>
    public bool ShortestOfItsLateness { get; init; }

    /// <summary>Breaks, with the hand that takes each.</summary>
    public ImmutableArray<DayPause> Breaks { get; init; } = [];

    /// <summary>How many plans were tried to find this one, whole or in part.</summary>
    public long Tried { get; init; }
}
