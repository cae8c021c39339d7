using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Artwork;

/// <summary>What a picture says of itself before any pixel is unpacked.</summary>
/// <param name="Kind">PNG, JPEG, WebP or TIFF.</param>
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

    /// <summary>Most pixels in all: more than the largest film of the trade shows at 600 dots an inch (300 × 200 mm: 33 million).</summary>
    public const long MostPixels = 34_000_000;

    /// <summary>The header, or the fault that keeps us from unpacking the pixels.</summary>
    public static Outcome<ImageHeader> Read(ReadOnlySpan<byte> bytes, string shownName)
    {
        var read =
            PngHeader.Fits(bytes) ? PngHeader.Read(bytes)
            : JpegHeader.Fits(bytes) ? JpegHeader.Read(bytes)
            : WebpHeader.Fits(bytes) ? WebpHeader.Read(bytes)
            : null;
        if (read is not { } header)
        {
            return new Fault(
                shownName,
                "The picture is broken: its header cannot be read.",
                "Open it, save it again as PNG, or ask for it again."
            );
        }

        return header.Judge(shownName) is { } fault ? fault : header;
    }

    /// <summary>Why pixels of this size are not unpacked; null when they may be.</summary>
    public Fault? Judge(string shownName)
    {
        if (Width <= 0 || Height <= 0)
        {
            return new Fault(
                shownName,
                $"The picture is {Width} × {Height} pixels: there is nothing in it.",
                "Ask for it again."
            );
        }

        return Width > LongestSide || Height > LongestSide || (long)Width * Height > MostPixels
            ? new Fault(
                shownName,
                $"The picture is {Width} × {Height} pixels; {MostPixels / 1_000_000} million in all and {LongestSide} a side are the most that is read.",
                "Make the picture smaller: at the printed size the film shows no more than 600 dots an inch, which are 33 million on 300 × 200 mm."
            )
            : null;
    }
}
