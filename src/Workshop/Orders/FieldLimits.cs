using System.Collections.Immutable;

namespace Coldpeel.Workshop.Orders;

/// <summary>What kind of value a field of the workshop file holds.</summary>
public enum FieldKind
{
    /// <summary>Text, or one of some words.</summary>
    Text,

    /// <summary>A whole number.</summary>
    Whole,

    /// <summary>A number.</summary>
    Number,

    /// <summary>True or false.</summary>
    Flag,
}

/// <summary>What a field of the workshop file may hold.</summary>
/// <param name="Kind">What kind of value.</param>
/// <param name="Least">The least; null for none.</param>
/// <param name="Most">The most; null for none.</param>
public sealed record FieldLimits(FieldKind Kind, double? Least, double? Most)
{
    /// <summary>Whether the least itself is too little.</summary>
    public bool AboveLeast { get; init; }

    /// <summary>Whether the most itself is too much.</summary>
    public bool BelowMost { get; init; }

    /// <summary>Most letters; null for no bound.</summary>
    public int? MostLetters { get; init; }

    /// <summary>The words it may be; empty where any will do.</summary>
    public ImmutableArray<string> Choices { get; init; } = [];
}
