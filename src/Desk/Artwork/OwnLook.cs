using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Measures;
using Coldpeel.Files.Artwork;
using Coldpeel.Files.Artwork.Codes;
using Coldpeel.Workshop.Artwork;

namespace Coldpeel.Desk.Artwork;

/// <summary>What only the customer's own file can tell: enlarged or lossy pixels, texts, codes.</summary>
/// <param name="Flaws">Of its pixels; none for a drawing.</param>
/// <param name="Texts">Texts it holds as texts.</param>
/// <param name="Code">The first code that reads in it; null for none.</param>
internal sealed record OwnLook(ImmutableArray<Flaw> Flaws, ImmutableArray<SetText> Texts, FoundCode? Code)
{
    // A code's elements are half a millimetre or more.
    private const double ReadingDotsPerMm = 8;

    /// <summary>Looks at the file at the size it is made.</summary>
    public static OwnLook At(SourceArtwork source, double widthMm, double heightMm, ProcessLimits limits)
    {
        var picture = source.Draw(widthMm, heightMm, ReadingDotsPerMm);
        // Only a picture keeps its own pixels; a drawing is as fine as it is drawn.
        var own =
            source.SourceDpiAt(widthMm) is { } dpi
            && Math.Abs((picture.PixelsPerMm * Length.MillimetresPerInch / dpi) - 1) < 0.01;
        return new(
            own ? SourceCheck.Check(picture, limits) : [],
            [.. source.Texts(widthMm, heightMm)],
            CodeReader.FindIn(picture)
        );
    }

    /// <summary>The design with it: a code that prints is steps and dots by nature, and one that does not is told.</summary>
    public Design AddTo(Design design, SourceArtwork source) =>
        design with
        {
            Flaws = [.. design.Flaws, .. design.Codes.Length == 0 ? Flaws : []],
            Texts = Texts,
            PackedWithLosses = source.Kind == "JPEG",
            LostCode = design.Codes.Length == 0 ? Code : null,
        };
}
