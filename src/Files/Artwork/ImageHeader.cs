using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Artwork;

/// <summary>What a picture says of itself before any pixel is unpacked.</summary>
/// <param name="Kind">PNG or JPEG.</param>
/// <param name="Width">Pixels across, as stored.</param>
/// <param name="Height">Pixels down, as stored.</param>
/// <param name="AcrossPerMm">Pixels in a millimetre across; null when the file tells none.</param>
/// <param name="DownPerMm">Pixels in a millimetre down.</param>
/// <param name="Orientation">1 to 8 as in EXIF; 1 is upright.</param>
internal sealed record ImageHeader(
    string Kind,
    int Width,
    int Height,
    double? AcrossPerMm,
    double? DownPerMm,
    int Orientation = 1
)
{
    public const int LongestSide = 30_000;

    /// <summary>The header, or the fault that keeps us from unpacking the pixels.</summary>
    public static Outcome<ImageHeader> Read(ReadOnlySpan<byte> bytes, string shownName)
    {
        var read =
            PngHeader.Fits(bytes) ? PngHeader.Read(bytes)
            : JpegHeader.Fits(bytes) ? JpegHeader.Read(bytes)
            : null;
        if (read is not { } header)
        {
            return new Fault(
                shownName,
                "The picture is broken: its header cannot be read.",
                "Open it, save it again as PNG, or ask for it again."
            );
        }

        if (header.Width <= 0 || header.Height <= 0)
        {
            return new Fault(
                shownName,
                $"The picture is {header.Width} × {header.Height} pixels: there is nothing in it.",
                "Ask for it again."
            );
        }

        return
            header.Width > LongestSide
            || header.Height > LongestSide
            || (long)header.Width * header.Height > SourceArtwork.MostPixels
            ? new Fault(
                shownName,
                $"The picture is {header.Width} × {header.Height} pixels; {SourceArtwork.MostPixels / 1_000_000} million in all and {LongestSide} a side are the most that is read.",
                "Save it smaller: 600 pixels an inch at the printed size is enough."
            )
            : header;
    }
}
