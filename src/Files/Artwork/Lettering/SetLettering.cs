using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Artwork.Lettering;

/// <summary>Text as outlines at true size.</summary>
/// <param name="Path">The outlines; the origin is the top left corner of the ink's box. Letters that the font lacks are left out.</param>
/// <param name="WidthMm">Width of the ink's box; 0 when nothing prints.</param>
/// <param name="HeightMm">Height of the ink's box; 0 when nothing prints.</param>
/// <param name="MissingLetters">Letters as a reader counts them that the font cannot draw, each once: any makes the text unfit to print.</param>
/// <param name="CapHeightMm">Height of a flat capital as set.</param>
/// <param name="Note">What the owner should know: set smaller than asked, or outlines to look at; null for nothing.</param>
public sealed record SetLettering(
    InkPath Path,
    double WidthMm,
    double HeightMm,
    ImmutableArray<string> MissingLetters,
    double CapHeightMm,
    Sentence? Note
);
