using System.Buffers.Binary;

namespace Coldpeel.Files.Artwork;

/// <summary>Reads the header of a JPEG (ITU-T T.81): size from the frame, density from JFIF (ITU-T T.871) or EXIF, orientation from EXIF.</summary>
internal static class JpegHeader
{
    private const double InchMm = 25.4;

    /// <summary>Scans that a progressive picture may have: a hostile one makes the decoder go over all pixels once for each.</summary>
    private const int MostScans = 200;

    public static bool Fits(ReadOnlySpan<byte> bytes) => bytes is [0xFF, 0xD8, 0xFF, ..];

    /// <summary>The header, or null when it is broken.</summary>
    public static ImageHeader? Read(ReadOnlySpan<byte> bytes)
    {
        (double Across, double Down)? jfif = null;
        var exif = new ExifTags(1, null);
        for (var at = 2; at + 4 <= bytes.Length; )
        {
            if (bytes[at] != 0xFF)
            {
                return null;
            }

            var marker = bytes[at + 1];
            if (marker is 0xFF)
            {
                at++; // fill bytes are allowed before a marker
                continue;
            }

            if (marker is 0x01 or (>= 0xD0 and <= 0xD8))
            {
                at += 2;
                continue;
            }

            var length = BinaryPrimitives.ReadUInt16BigEndian(bytes[(at + 2)..]);
            if (length < 2 || at + 2 + length > bytes.Length || marker is 0xD9 or 0xDA)
            {
                return null;
            }

            var body = bytes.Slice(at + 4, length - 2);
            if (marker == 0xE0 && body.StartsWith("JFIF\0"u8) && body.Length >= 12)
            {
                jfif = Jfif(body);
            }
            else if (marker == 0xE1 && body.StartsWith("Exif\0\0"u8))
            {
                exif = ExifTags.Read(body[6..]);
            }
            else if (marker is >= 0xC0 and <= 0xCF and not (0xC4 or 0xC8 or 0xCC))
            {
                if (body.Length < 6 || Scans(bytes[(at + 2 + length)..]) > MostScans)
                {
                    return null;
                }

                var density = jfif ?? exif.PerMm;
                return new(
                    "JPEG",
                    BinaryPrimitives.ReadUInt16BigEndian(body[3..]),
                    BinaryPrimitives.ReadUInt16BigEndian(body[1..]),
                    density?.Across,
                    density?.Down,
                    exif.Orientation
                );
            }

            at += 2 + length;
        }

        return null;
    }

    private static (double, double)? Jfif(ReadOnlySpan<byte> body)
    {
        var perUnit = body[7] switch
        {
            1 => InchMm,
            2 => 10.0,
            _ => 0, // only the shape of a pixel is told
        };
        var across = BinaryPrimitives.ReadUInt16BigEndian(body[8..]);
        var down = BinaryPrimitives.ReadUInt16BigEndian(body[10..]);
        return perUnit > 0 && across > 1 && down > 1 ? (across / perUnit, down / perUnit) : null;
    }

    private static int Scans(ReadOnlySpan<byte> rest)
    {
        var scans = 0;
        for (var at = rest.IndexOf<byte>(0xFF); at >= 0 && at + 1 < rest.Length; )
        {
            scans += rest[at + 1] == 0xDA ? 1 : 0;
            var next = rest[(at + 1)..].IndexOf<byte>(0xFF);
            at = next < 0 ? -1 : at + 1 + next;
        }

        return scans;
    }
}
