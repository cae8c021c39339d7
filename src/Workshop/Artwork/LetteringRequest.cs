namespace Coldpeel.Workshop.Artwork;

/// <summary>Text to be set in type.</summary>
/// <param name="Text">The text; <c>{column}</c> takes that column of the roster; a line feed starts a new line.</param>
/// <param name="Font">Family name, or a font file beside the job.</param>
/// <param name="HeightMm">Height of a flat capital (H) in mm.</param>
/// <param name="TrackingPercent">Extra space after each letter, in percent of the capital height; may be negative.</param>
/// <param name="MaxWidthMm">When set, text that is wider is set smaller until it fits.</param>
public sealed record LetteringRequest(
    string Text,
    string Font,
    double HeightMm,
    double TrackingPercent = 0,
    double? MaxWidthMm = null
)
{
    /// <summary>Whether text that is narrower than <see cref="MaxWidthMm"/> is set larger until it is as wide.</summary>
    public bool FillWidth { get; init; }

    /// <summary>From one line's foot to the next one's, in percent of what the font says.</summary>
    public double LineSpacingPercent { get; init; } = 100;

    /// <summary>How lines of different width stand to each other; on an arc they are always centred.</summary>
    public LineAlign Align { get; init; } = LineAlign.Centre;

    /// <summary>The arc that the text runs along; null for straight lines.</summary>
    public LetterArc? Arc { get; init; }

    /// <summary>Prints the letters' outline as a ring instead of the letters; null for full letters.</summary>
    public LetterRing? Ring { get; init; }
}

/// <summary>How lines stand to each other.</summary>
public enum LineAlign
{
    /// <summary>The middles of their ink lie above each other.</summary>
    Centre,

    /// <summary>Their ink starts at the same place.</summary>
    Left,

    /// <summary>Their ink ends at the same place.</summary>
    Right,
}

/// <summary>An arc that text runs along.</summary>
/// <param name="RadiusMm">Radius of the circle that the first line's feet stand on.</param>
/// <param name="Below">
/// False: over the top of the circle, letters' heads outwards, further lines inside. True: along its bottom, heads inwards, further lines outside.
/// </param>
public sealed record LetterArc(double RadiusMm, bool Below);

/// <summary>The outline of letters as a ring that prints.</summary>
/// <param name="WidthMm">Width of the ring.</param>
/// <param name="Inside">True: within the letters, which keep their size. False: round them.</param>
public sealed record LetterRing(double WidthMm, bool Inside);
