using System.Text;
using Coldpeel.Files.Artwork.Pdf;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Artwork;

/// <summary>Reads a customer's artwork after looking at what it really is, whatever its name says.</summary>
public static class ArtworkReader
{
    /// <summary>Largest file that is read, in bytes.</summary>
    public const long MostBytes = 100_000_000;

    /// <summary>What is known by its first bytes and not read, with how to get something that is.</summary>
    private static readonly (string Name, int Offset, byte[] Mark, string Mend)[] Refused =
    [
        (
            "a TIFF of the large kind (BigTIFF)",
            0,
            [0x49, 0x49, 0x2B, 0x00],
            "Open it and save it as plain TIFF or PNG, keeping the resolution."
        ),
        (
            "a TIFF of the large kind (BigTIFF)",
            0,
            [0x4D, 0x4D, 0x00, 0x2B],
            "Open it and save it as plain TIFF or PNG, keeping the resolution."
        ),
        (
            "a GIF picture",
            0,
            "GIF8"u8.ToArray(),
            "Open it and save it as PNG, or ask for the drawing it was made from."
        ),
        ("a BMP picture", 0, "BM"u8.ToArray(), "Open it and save it as PNG."),
        ("a picture from a phone (HEIF or AVIF)", 4, "ftyp"u8.ToArray(), "Save it as JPEG or PNG."),
        ("a PostScript drawing", 0, "%!PS"u8.ToArray(), "Save it as SVG from the program it was drawn in."),
        ("a PostScript drawing", 0, [0xC5, 0xD0, 0xD3, 0xC6], "Save it as SVG from the program it was drawn in."),
        ("a layered picture", 0, "8BPS"u8.ToArray(), "Save it as PNG with a transparent ground."),
        ("a compressed file (gzip, perhaps SVGZ)", 0, [0x1F, 0x8B], "Unpack it and send the plain SVG inside."),
        (
            "an archive (ZIP) or an office document",
            0,
            [0x50, 0x4B, 0x03, 0x04],
            "Unpack it and send the artwork inside, without a password."
        ),
    ];

    /// <summary>The artwork in a file, or the one-line fault that says what is wrong with it and how to mend it.</summary>
    /// <param name="path">Where the file is.</param>
    /// <param name="shownName">What the owner knows it by.</param>
    /// <param name="page">Page of a TIFF or PDF, from 1; null for the first.</param>
    public static Outcome<SourceArtwork> Read(string path, string shownName, int? page = null)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        byte[] bytes;
        try
        {
            var file = new FileInfo(path);
            if (!file.Exists)
            {
                return new Fault(shownName, "There is no such file.", "Check its name and folder.");
            }

            if (file.Length > MostBytes)
            {
                return new Fault(
                    shownName,
                    $"The file has {file.Length / 1e6:F0} MB; {MostBytes / 1e6:F0} MB is the most that is read.",
                    "Send it smaller: 600 pixels an inch at the printed size is enough."
                );
            }

            bytes = File.ReadAllBytes(path);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException)
        {
            return new Fault(
                shownName,
                $"The file cannot be opened ({e.Message}).",
                "Close it elsewhere and check who may read it."
            );
        }

        return Read(bytes, shownName, page);
    }

    internal static Outcome<SourceArtwork> Read(byte[] bytes, string shownName, int? page = null)
    {
        if (bytes.Length == 0)
        {
            return new Fault(shownName, "The file is empty.", "Ask for it again: it was probably lost on the way.");
        }

        if (TiffFile.Fits(bytes))
        {
            return TiffArtwork.Read(bytes, shownName, page);
        }

        if (PdfArtwork.Fits(bytes))
        {
            return PdfArtwork.Read(bytes, shownName, page);
        }

        if (PngHeader.Fits(bytes) || JpegHeader.Fits(bytes) || WebpHeader.Fits(bytes))
        {
            return Pages.Fault(shownName, page, 1) ?? PictureArtwork.Read(bytes, shownName);
        }

        foreach (var (name, offset, mark, mend) in Refused)
        {
            if (bytes.AsSpan().Length >= offset + mark.Length && bytes.AsSpan(offset, mark.Length).SequenceEqual(mark))
            {
                return new Fault(shownName, $"This is {name}, which is not read.", mend);
            }
        }

        return LooksLikeXml(bytes)
            ? Pages.Fault(shownName, page, 1) ?? SvgArtwork.Read(bytes, shownName)
            : new Fault(
                shownName,
                "This is no SVG, PDF, PNG, JPEG, WebP or TIFF, whatever its name says.",
                "Send it as SVG, PDF, PNG, JPEG, WebP or TIFF: open it in the program it comes from and save it as one of these."
            );
    }

    private static bool LooksLikeXml(byte[] bytes)
    {
        var head = bytes.AsSpan(0, Math.Min(bytes.Length, 400));
        var text = head switch
        {
            [0xFF, 0xFE, ..] => Encoding.Unicode.GetString(head[2..]),
            [0xFE, 0xFF, ..] => Encoding.BigEndianUnicode.GetString(head[2..]),
            [0xEF, 0xBB, 0xBF, ..] => Encoding.Latin1.GetString(head[3..]),
            _ => Encoding.Latin1.GetString(head),
        };
        return text.TrimStart().StartsWith('<');
    }
}
