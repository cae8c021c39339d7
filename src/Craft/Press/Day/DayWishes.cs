using System.Collections.Immutable;

namespace Coldpeel.Craft.Press.Day;

/// <summary>A block that must not begin before a second and may be held to one press or hand: a task that somebody set by hand.</summary>
/// <param name="Op">One of bond, trim, place, peel, finish, inspect.</param>
/// <param name="Ref">The sheet (bond) or placement.</param>
/// <param name="Start">Not before this second; as soon after it as the rest allows.</param>
/// <param name="Press">On this press, or null for any.</param>
public sealed record DayPin(string Op, string Ref, int Start, string? Press)
{
    /// <summary>At that second and no other, before all else that is sought; where that cannot be, as soon after it as can be.</summary>
    public bool Exactly { get; init; }

    /// <summary>By this hand, or null for any.</summary>
    public int? Hand { get; init; }
}

/// <summary>A press that takes nothing new, or not this sheet or placement.</summary>
public sealed record DayBan(string Press, string? Ref);

/// <summary>So many hands are away from one second to before another.</summary>
public sealed record DayBreak(int From, int To, int Hands);

/// <summary>Where a block stood in the plan that was in force: what is planned anew stays near it.</summary>
public sealed record DayWanted(string Op, string Ref, string? Press, int Start);

/// <summary>What people ask of a plan beyond the rules of the day.</summary>
public sealed record DayWishes
{
    /// <summary>Nothing is asked.</summary>
    public static DayWishes None { get; } = new();

    /// <summary>Tasks set by hand.</summary>
    public ImmutableArray<DayPin> Pins { get; init; } = [];

    /// <summary>Presses not to be used.</summary>
    public ImmutableArray<DayBan> Bans { get; init; } = [];

    /// <summary>Breaks.</summary>
    public ImmutableArray<DayBreak> Breaks { get; init; } = [];

    /// <summary>The plan in force, where one is.</summary>
    public ImmutableArray<DayWanted> Wanted { get; init; } = [];

    /// <summary>Seconds of what is sought that leaving one task of the plan in force where it stood is worth, 0 or more.</summary>
    public int CalmS { get; init; } = 2;

    /// <summary>Whether a press may take new work of this sheet or placement.</summary>
    internal bool Bars(string press, string id) => Bans.Any(b => b.Press == press && (b.Ref is null || b.Ref == id));
}
