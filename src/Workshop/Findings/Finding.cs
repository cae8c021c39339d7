using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;

namespace Coldpeel.Workshop.Findings;

/// <summary>How much a finding weighs.</summary>
public enum Severity
{
    /// <summary>Good to know.</summary>
    Note,

    /// <summary>Likely to go wrong; look before you print.</summary>
    Warn,

    /// <summary>The job cannot be made as asked.</summary>
    Stop,
}

/// <summary>Something the owner must know before the job is made.</summary>
/// <param name="Kind">Short name, lower case with hyphens: what <c>--accept</c> takes.</param>
/// <param name="Severity">How much it weighs.</param>
/// <param name="Say">One sentence for the owner: what, where, how to mend.</param>
public sealed record Finding(string Kind, Severity Severity, Sentence Say)
{
    /// <summary>The design it is about.</summary>
    public string? Design { get; init; }

    /// <summary>The item it is about.</summary>
    public string? Item { get; init; }

    /// <summary>How many places.</summary>
    public int? Count { get; init; }

    /// <summary>The worst figure found, in mm.</summary>
    public double? WorstMm { get; init; }

    /// <summary>The figure it is held against, in mm.</summary>
    public double? LimitMm { get; init; }

    /// <summary>Where, in mm of the design's frame.</summary>
    public ImmutableArray<BoxMm> At { get; init; } = [];

    /// <summary>Whether the owner accepted it by name.</summary>
    public bool Accepted { get; init; }
}
