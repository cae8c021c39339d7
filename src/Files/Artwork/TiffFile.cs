using System.Buffers.Binary;

namespace Coldpeel.Files.Artwork;

/// <summary>The directories of a TIFF (TIFF 6.0), looked over before anything is unpacked: whatever it points at must lie inside the file.</summary>
/// <param name="Offset">Where the page's directory starts.</param>
/// <param name="Width">Pixels across.</param>
/// <param name="Height">Pixels down.</param>
/// <param name="Bits">Bits of a sample.</param>
/// <param name="Samples">Samples of a pixel.</param>
/// <param name="Tags">Orientation and density.</param>
/// <param name="Profile">The colour profile (ICC.1), or empty.</param>
internal sealed record TiffPage(
    int Offset,
    int Width,
    int Height,
    int Bits,
    int Samples,
    ExifTags Tags,
    ReadOnlyMemory<byte> Profile
);

/// <summary>Reads the page list of a TIFF.</summary>
internal static class TiffFile
{
    /// <summary>Pages that are looked for at most.</summary>
    public const int MostPages = 10_000;

    // Bytes of a value by its type number, TIFF 6.0, section 2.
    private static readonly int[] Sizes = [0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8];

    public static bool Fits(ReadOnlySpan<byte> b) => b is [0x49, 0x49, 0x2A, 0, ..] or [0x4D, 0x4D, 0, 0x2A, ..];

    /// <summary>All pages, or null when a directory is broken or the file ends too early.</summary>
    public static IReadOnlyList<TiffPage>? Pages(byte[] file)
    {
        var little = file[0] == (byte)'I';
        var pages = new List<TiffPage>();
        var seen = new HashSet<long>();
        for (var at = file.Length >= 8 ? Int(file, 4, little) : 0; at != 0; )
        {
            if (!seen.Add(at) || pages.Count >= MostPages || at + 2 > file.Length)
            {
                return null;
            }

            var count = Short(file, at, little);
            var end = at + 2 + (12L * count);
            if (end + 4 > file.Length || Page(file, (int)at, count, little) is not { } page)
            {
                return null;
            }

            pages.Add(page);
            at = Int(file, end, little);
        }

        return pages.Count == 0 ? null : pages;
    }

    private static TiffPage? Page(byte[] file, int at, int count, bool little)
    {
        long width = 0,
            height = 0,
            bits = 1,
            samples = 1;
        long[] starts = [],
            lengths = [];
        var profile = ReadOnlyMemory<byte>.Empty;
        for (var i = 0; i < count; i++)
        {
            var entry = at + 2 + (12 * i);
            var (tag, type, values) = (
                Short(file, entry, little),
                Short(file, entry + 2, little),
                Int(file, entry + 4, little)
            );
            var size = type < Sizes.Length ? Sizes[type] * values : 0;
            var where = size <= 4 ? entry + 8 : Int(file, entry + 8, little);
            if (where + size > file.Length)
            {
                return null;
            }

            long[] Numbers() =>
                type is 3 or 4
                    ?
                    [
                        .. Enumerable
                            .Range(0, (int)values)
                            .Select(k =>
                                type == 3 ? Short(file, where + (2 * k), little) : Int(file, where + (4 * k), little)
                            ),
                    ]
                    : [];
            long First() => values > 0 && Numbers() is [var first, ..] ? first : 0;
            switch (tag)
            {
                case 256:
                    width = First();
                    break;
                case 257:
                    height = First();
                    break;
                case 258:
                    bits = First();
                    break;
                case 277:
                    samples = First();
                    break;
                case 273 or 324:
                    starts = Numbers();
                    break;
                case 279 or 325:
                    lengths = Numbers();
                    break;
                case 34675 when type is 1 or 7:
                    profile = file.AsMemory((int)where, (int)size);
                    break;
                default:
                    break;
            }
        }

        var inside =
            starts.Length > 0
            && starts.Length == lengths.Length
            && starts.Zip(lengths).All(s => s.First + s.Second <= file.Length);
        return inside
            ? new(
                at,
                (int)Math.Min(width, int.MaxValue),
                (int)Math.Min(height, int.MaxValue),
                (int)bits,
                (int)samples,
                ExifTags.ReadDirectory(file, at, little),
                profile
            )
            : null;
    }

    private static int Short(byte[] b, long at, bool little) =>
        little
            ? BinaryPrimitives.ReadUInt16LittleEndian(b.AsSpan((int)at))
            : BinaryPrimitives.ReadUInt16BigEndian(b.AsSpan((int)at));

    private static long Int(byte[] b, long at, bool little) =>
        little
            ? BinaryPrimitives.ReadUInt32LittleEndian(b.AsSpan((int)at))
            : BinaryPrimitives.ReadUInt32BigEndian(b.AsSpan((int)at));
}
