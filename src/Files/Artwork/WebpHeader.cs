using System.Buffers.Binary;

namespace Coldpeel.Files.Artwork;

/// <summary>Reads the header of a WebP (RFC 9649): size from its first frame or its canvas, density and orientation from EXIF.</summary>
internal static class WebpHeader
{
    public static bool Fits(ReadOnlySpan<byte> b) =>
        b.Length >= 16 && b.StartsWith("RIFF"u8) && b.Slice(8, 4).SequenceEqual("WEBP"u8);

    /// <summary>The header, or null when it is broken or the file ends before the length it gives.</summary>
    public static ImageHeader? Read(ReadOnlySpan<byte> bytes)
    {
        if (BinaryPrimitives.ReadUInt32LittleEndian(bytes[4..]) + 8L > bytes.Length)
        {
            return null;
        }

        ImageHeader? header = null;
        for (var at = 12; at + 8 <= bytes.Length; )
        {
            var length = BinaryPrimitives.ReadUInt32LittleEndian(bytes[(at + 4)..]);
            if (at + 8L + length > bytes.Length)
            {
                return header;
            }

            var body = bytes.Slice(at + 8, (int)length);
            var kind = bytes.Slice(at, 4);
            if (kind.SequenceEqual("EXIF"u8))
            {
                // Some writers put the marker of JPEG's segment before the block.
                var tags = ExifTags.Read(body.StartsWith("Exif\0\0"u8) ? body[6..] : body);
                header = header is null
                    ? null
                    : header with
                    {
                        AcrossPerMm = tags.PerMm?.Across,
                        DownPerMm = tags.PerMm?.Down,
                        Orientation = tags.Orientation,
                    };
            }
            else if (header is null)
            {
                header = Frame(kind, body);
                if (header is null)
                {
                    return null;
                }
            }

            at += 8 + (int)length + ((int)length & 1);
        }

        return header;
    }

    private static ImageHeader? Frame(ReadOnlySpan<byte> kind, ReadOnlySpan<byte> body)
    {
        if (kind.SequenceEqual("VP8X"u8) && body.Length >= 10)
        {
            return Sized(1 + Three(body[4..]), 1 + Three(body[7..]));
        }

        if (kind.SequenceEqual("VP8L"u8) && body.Length >= 5 && body[0] == 0x2F)
        {
            var packed = BinaryPrimitives.ReadUInt32LittleEndian(body[1..]);
            return Sized((int)(1 + (packed & 0x3FFF)), (int)(1 + ((packed >> 14) & 0x3FFF)));
        }

        return kind.SequenceEqual("VP8 "u8) && body.Length >= 10
            ? Sized(
                BinaryPrimitives.ReadUInt16LittleEndian(body[6..]) & 0x3FFF,
                BinaryPrimitives.ReadUInt16LittleEndian(body[8..]) & 0x3FFF
            )
            : null;
    }

    private static ImageHeader Sized(int width, int height) => new("WebP", width, height, null, null);

    private static int Three(ReadOnlySpan<byte> b) => b[0] | (b[1] << 8) | (b[2] << 16);
}
