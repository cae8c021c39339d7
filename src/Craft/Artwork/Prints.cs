using System.Collections.Immutable;

namespace Coldpeel.Craft.Artwork;

/// <summary>An sRGB colour, 8 bits a channel.</summary>
public readonly record struct Rgb(byte R, byte G, byte B);

/// <summary>What of an artwork becomes white toner.</summary>
public abstract record Prints
{
    /// <summary>What is dark prints (CIE L* below 50 on white paper).</summary>
    /// <param name="GroundL">CIE L* of the ground it stands on: what is no darker than that prints nothing, not even a tint.</param>
    public sealed record Dark(double GroundL = 100) : Prints;

    /// <summary>What is light prints (CIE L* from 50 up); what is transparent does not.</summary>
    /// <param name="GroundL">CIE L* of the ground it stands on: what is no lighter than that prints nothing, not even a tint.</param>
    public sealed record Light(double GroundL = 0) : Prints;

    /// <summary>What is not transparent prints.</summary>
    public sealed record Opaque : Prints;

    /// <summary>What is within a colour difference of one of these colours prints.</summary>
    /// <param name="Picked">The colours.</param>
    /// <param name="ToleranceDeltaE">Largest CIEDE2000 difference that still counts as the colour.</param>
    public sealed record Colours(ImmutableArray<Rgb> Picked, double ToleranceDeltaE) : Prints;

    /// <summary>The program chooses one of the others and says why.</summary>
    public sealed record Auto : Prints;
}

/// <summary>How tints become toner.</summary>
public enum Tone
{
    /// <summary>One bit: a dot prints solid or not at all.</summary>
    Solid,

    /// <summary>Grey stays grey; the printer's own screen makes dots of it.</summary>
    Grey,

    /// <summary>Tints become a line screen of clustered dots that carry glue (<see cref="LineScreen"/>).</summary>
    Screen,

    /// <summary>Tints become scattered clusters that carry glue (<see cref="Artwork.Spray"/>).</summary>
    Spray,
}
