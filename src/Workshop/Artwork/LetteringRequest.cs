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
);
