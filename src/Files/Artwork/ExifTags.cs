using System.Buffers.Binary;

namespace Coldpeel.Files.Artwork;

/// <summary>The two things we take from EXIF (JEITA CP-3451): which way is up, and the density.</summary>
/// <param name="Orientation">1 to 8; 1 is upright.</param>
/// <param name="PerMm">Pixels in a millimetre, across and down as stored.</param>
internal sealed record ExifTags(int Orientation, (double Across, double Down)? PerMm)
{
    /// <summary>Reads the first directory of a TIFF block; whatever is broken in it counts as not told.</summary>
    public static ExifTags Read(ReadOnlySpan<byte> tiff)
    {
        var none = new ExifTags(1, null);
        if (tiff.Length < 8 || !(tiff.StartsWith("II"u8) || tiff.StartsWith("MM"u8)))
        {
            return none;
        }

        var little = tiff[0] == (byte)'I';
        return ReadDirectory(tiff, Int(tiff, 4, little), little);
    }

    /// <summary>Reads the directory at an offset.</summary>
    public static ExifTags ReadDirectory(ReadOnlySpan<byte> tiff, int at, bool little)
    {
        if (at > tiff.Length - 2)
        {
            return new(1, null);
        }

        int orientation = 1;
        double across = 0,
            down = 0,
            unitMm = 25.4;
        var count = Short(tiff, at, little);
        for (var i = 0; i < count && at + 2 + ((i + 1) * 12L) <= tiff.Length; i++)
        {
            var entry = at + 2 + (i * 12);
            switch (Short(tiff, entry, little))
            {
                case 0x0112:
                    orientation = Short(tiff, entry + 8, little);
                    break;
                case 0x011A:
                    across = Ratio(tiff, Int(tiff, entry + 8, little), little);
                    break;
                case 0x011B:
                    down = Ratio(tiff, Int(tiff, entry + 8, little), little);
                    break;
                case 0x0128:
                    unitMm = Short(tiff, entry + 8, little) switch
                    {
                        2 => 25.4,
                        3 => 10,
                        _ => 0,
                    };
                    break;
                default:
                    break;
            }
        }

        return new(
            orientation is >= 1 and <= 8 ? orientation : 1,
            unitMm > 0 && across > 1 && down > 1 ? (across / unitMm, down / unitMm) : null
        );
    }

    private static int Short(ReadOnlySpan<byte> b, int at, bool little) =>
        little ? BinaryPrimitives.ReadUInt16LittleEndian(b[at..]) : BinaryPrimitives.ReadUInt16BigEndian(b[at..]);

    private static int Int(ReadOnlySpan<byte> b, int at, bool little)
    {
        var value = little
            ? BinaryPrimitives.ReadUInt32LittleEndian(b[at..])
            : BinaryPrimitives.ReadUInt32BigEndian(b[at..]);
        return (int)Math.Min(value, int.MaxValue);
    }

    private static double Ratio(ReadOnlySpan<byte> b, int at, bool little) =>
        at <= b.Length - 8 && Int(b, at + 4, little) is > 0 and var under ? (double)Int(b, at, little) / under : 0;
}
