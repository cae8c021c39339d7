using System.Buffers.Binary;

namespace Coldpeel.Files.Artwork;

/// <summary>Reads the header of a PNG (ISO/IEC 15948): its size from IHDR, its density from pHYs.</summary>
internal static class PngHeader
{
    private static ReadOnlySpan<byte> Signature => [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A];

    public static bool Fits(ReadOnlySpan<byte> bytes) => bytes.StartsWith(Signature);

    /// <summary>The header, or null when it is broken.</summary>
    public static ImageHeader? Read(ReadOnlySpan<byte> bytes)
    {
        ImageHeader? header = null;
        for (var at = Signature.Length; at + 12L <= bytes.Length; )
        {
            var length = BinaryPrimitives.ReadUInt32BigEndian(bytes[at..]);
            var kind = bytes.Slice(at + 4, 4);
            if (length > int.MaxValue || at + 12L + length > bytes.Length)
            {
                return kind.SequenceEqual("IDAT"u8) ? header : null; // cut short in the pixels: the decoder says so
            }

            var body = bytes.Slice(at + 8, (int)length);
            if (header is null)
            {
                if (!kind.SequenceEqual("IHDR"u8) || length != 13)
                {
                    return null;
                }

                var width = BinaryPrimitives.ReadUInt32BigEndian(body);
                var height = BinaryPrimitives.ReadUInt32BigEndian(body[4..]);
                header = new("PNG", Whole(width), Whole(height), null, null);
            }
            else if (kind.SequenceEqual("pHYs"u8) && length == 9 && body[8] == 1)
            {
                var across = BinaryPrimitives.ReadUInt32BigEndian(body) / 1000.0;
                var down = BinaryPrimitives.ReadUInt32BigEndian(body[4..]) / 1000.0;
                header = across > 0 && down > 0 ? header with { AcrossPerMm = across, DownPerMm = down } : header;
            }
            else if (kind.SequenceEqual("IDAT"u8))
            {
                return header;
            }

            at += 12 + (int)length;
        }

        return header;
    }

    /// <summary>Whether its numbers are colours of another kind than sRGB: a profile (iCCP, cICP), or a gamma far from the 1/2.2 that means sRGB in practice.</summary>
    public static bool HasOwnColours(ReadOnlySpan<byte> bytes)
    {
        var (profile, standard, gamma) = (false, false, 45_455u);
        for (var at = Signature.Length; at + 12L <= bytes.Length; )
        {
            var length = BinaryPrimitives.ReadUInt32BigEndian(bytes[at..]);
            var kind = bytes.Slice(at + 4, 4);
            if (at + 12L + length > bytes.Length || kind.SequenceEqual("IDAT"u8))
            {
                break;
            }

            profile |= kind.SequenceEqual("iCCP"u8) || kind.SequenceEqual("cICP"u8);
            standard |= kind.SequenceEqual("sRGB"u8);
            if (kind.SequenceEqual("gAMA"u8) && length == 4)
            {
                gamma = BinaryPrimitives.ReadUInt32BigEndian(bytes[(at + 8)..]);
            }

            at += 12 + (int)length;
        }

        return profile || (!standard && gamma is not (0 or (>= 43_000 and <= 48_000)));
    }

    // A size beyond what PNG allows stays too large to be read, and does not turn negative.
    private static int Whole(uint size) => (int)Math.Min(size, int.MaxValue);
}
