using BitMiracle.LibTiff.Classic;
using Coldpeel.Workshop.Findings;
using SkiaSharp;

namespace Coldpeel.Files.Artwork;

/// <summary>Unpacks a page of a TIFF to sRGB with straight alpha.</summary>
internal static class TiffArtwork
{
    /// <summary>Pixels at most where the library unpacks the whole page at once (tiles, YCbCr, Lab): it takes twice the memory.</summary>
    private const long MostAtOnce = 50_000_000;

    // The library writes its complaints to the console where nobody takes them.
    static TiffArtwork() => Tiff.SetErrorHandler(new Silent());

    public static Outcome<SourceArtwork> Read(byte[] bytes, string shownName, int? page)
    {
        if (TiffFile.Pages(bytes) is not { } pages)
        {
            return PictureArtwork.Broken(shownName, "it ends too early or its page list cannot be read");
        }

        if (Pages.Fault(shownName, page, pages.Count) is { } noPage)
        {
            return noPage;
        }

        var asked = pages[(page ?? 1) - 1];
        var density = asked.Tags.PerMm;
        var header = new ImageHeader(
            "TIFF",
            asked.Width,
            asked.Height,
            density?.Across,
            density?.Down,
            asked.Tags.Orientation
        );
        if (header.Judge(shownName) is { } fault)
        {
            return fault;
        }

        if (asked.Bits is not (1 or 2 or 4 or 8 or 16) || asked.Samples is < 1 or > 8)
        {
            return new Fault(
                shownName,
                $"This kind of TIFF ({asked.Samples} channels of {asked.Bits} bits) is not read.",
                "Save it as a TIFF of 8 or 16 bits a channel, or as PNG."
            );
        }

        try
        {
            using var tiff = Tiff.ClientOpen(
                shownName,
                "r",
                new MemoryStream(bytes, writable: false),
                new TiffStream()
            );
            if (tiff is null || !tiff.SetSubDirectory(asked.Offset))
            {
                return PictureArtwork.Broken(shownName, "its page cannot be read");
            }

            var rgba = TiffPixels.Plain(tiff, asked) ?? AtOnce(tiff, asked);
            return rgba is null
                ? PictureArtwork.Broken(shownName, "its pixels cannot be unpacked (cut short, or packed in a rare way)")
                : PictureArtwork.Of(header, Managed(rgba, asked), Notes(page, pages.Count, asked));
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            // The library meets broken pages with exceptions of every kind.
            return PictureArtwork.Broken(shownName, "its pixels cannot be unpacked");
        }
    }

    private static bool IsOfInks(TiffPage page) =>
        page.Profile.Length >= 20 && page.Profile.Span.Slice(16, 4).SequenceEqual("CMYK"u8);

    private static Sentence? Notes(int? page, int count, TiffPage asked)
    {
        Sentence? inks = IsOfInks(asked)
            ? (Sentence)
                $"The printing inks (CMYK) of the TIFF carry a colour profile that is not used: their lightness is reckoned by rule of thumb. Save it as RGB where a tint or a picked colour matters."
            : null;
        return (Pages.Note(page, count), inks) switch
        {
            (null, var ink) => ink,
            (var pages, null) => pages,
            (var pages, var ink) => $"{pages} {ink}",
        };
    }

    private static byte[]? AtOnce(Tiff tiff, TiffPage page)
    {
        if ((long)page.Width * page.Height > MostAtOnce)
        {
            return null;
        }

        // Asked for in the orientation that it has, the library turns nothing: that is done for all pictures alike.
        var raster = new int[page.Width * page.Height];
        var stored = (Orientation)page.Tags.Orientation;
        if (!tiff.ReadRGBAImageOriented(page.Width, page.Height, raster, stored, true))
        {
            return null;
        }

        var rgba = new byte[4 * raster.Length];
        for (var i = 0; i < raster.Length; i++)
        {
            var (r, g, b, a) = (Tiff.GetR(raster[i]), Tiff.GetG(raster[i]), Tiff.GetB(raster[i]), Tiff.GetA(raster[i]));
            TiffPixels.Put(rgba, i, r, g, b, a, multiplied: true);
        }

        return rgba;
    }

    /// <summary>The pixels in sRGB, when the page carries a profile of its own colours.</summary>
    private static byte[] Managed(byte[] rgba, TiffPage page)
    {
        using var own = page.Profile.IsEmpty ? null : SKColorSpace.CreateIcc(page.Profile.ToArray());
        if (own is null || own.IsSrgb)
        {
            return rgba;
        }

        // Printing inks have been turned into light by rule of thumb already; their profile does not fit any more.
        if (page.Profile.Length < 20 || IsOfInks(page))
        {
            return rgba;
        }

        var format = new SKImageInfo(page.Width, page.Height, SKColorType.Rgba8888, SKAlphaType.Unpremul);
        unsafe
        {
            fixed (byte* at = rgba)
            {
                using var pixels = new SKPixmap(format.WithColorSpace(own), (nint)at);
                pixels.ReadPixels(format.WithColorSpace(SKColorSpace.CreateSrgb()), (nint)at, format.RowBytes);
            }
        }

        return rgba;
    }

    private sealed class Silent : TiffErrorHandler
    {
        public override void ErrorHandler(Tiff tif, string method, string format, params object[] args) { }

        public override void ErrorHandlerExt(
            Tiff tif,
            object clientData,
            string method,
            string format,
            params object[] args
        ) { }

        public override void WarningHandler(Tiff tif, string method, string format, params object[] args) { }

        public override void WarningHandlerExt(
            Tiff tif,
            object clientData,
            string method,
            string format,
            params object[] args
        ) { }
    }
}
