namespace Coldpeel.Workshop.Wash;

/// <summary>The hottest, hardest treatment that is allowed, in the five groups and the order of ISO 3758: washing, bleaching, drying, ironing, professional care.</summary>
/// <param name="WashC">Hottest wash in °C: 0 for "do not wash".</param>
/// <param name="WashGentle">0 normal, 1 mild, 2 very mild.</param>
/// <param name="Bleach">0 none, 1 oxygen only, 2 any.</param>
/// <param name="TumbleC">Hottest tumble drying at the outlet in °C: 0 for none, 60 or 80.</param>
/// <param name="IronC">Hottest sole plate in °C: 0 for none, 110, 150 or 200.</param>
/// <param name="DryClean">Whether professional dry cleaning is allowed.</param>
public sealed record CareLimits(int WashC, int WashGentle, int Bleach, int TumbleC, int IronC, bool DryClean)
{
    /// <summary>What both allow: element by element the milder, as a label states the limit of the most critical part.</summary>
    public CareLimits Milder(CareLimits other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return new(
            Math.Min(WashC, other.WashC),
            Math.Max(WashGentle, other.WashGentle),
            Math.Min(Bleach, other.Bleach),
            Math.Min(TumbleC, other.TumbleC),
            Math.Min(IronC, other.IronC),
            DryClean && other.DryClean
        );
    }

    /// <summary>The same without any heat at which the glue would soften: an iron or a dryer that hot is not allowed at all.</summary>
    /// <param name="glueSoftensC">Where the glue softens in °C; null where nobody knows.</param>
    public CareLimits CoolerThan(int? glueSoftensC) =>
        this with
        {
            IronC = IronC >= glueSoftensC ? 0 : IronC,
            TumbleC = TumbleC >= glueSoftensC ? 0 : TumbleC,
        };
}

/// <summary>The care slip of an item group: advice in words.</summary>
/// <param name="Item">The item group.</param>
/// <param name="Title">"12 × gilet".</param>
/// <param name="Groups">Five lines in the order of ISO 3758: group, advice.</param>
/// <param name="Tips">What else makes it last: inside out, cold, line dry.</param>
/// <param name="Washes">What wash life to expect, and how that is known.</param>
public sealed record CareSlip(
    string Item,
    string Title,
    System.Collections.Immutable.ImmutableArray<CareLine> Groups,
    System.Collections.Immutable.ImmutableArray<Findings.Sentence> Tips,
    Findings.Sentence Washes
)
{
    /// <summary>The figures behind the words; null where only words are known.</summary>
    public CareLimits? Limits { get; init; }
}

/// <summary>One group of care advice.</summary>
/// <param name="Group">Washing, bleaching, drying, ironing or professional care.</param>
/// <param name="Advice">The words.</param>
public sealed record CareLine(Findings.Sentence Group, Findings.Sentence Advice);
