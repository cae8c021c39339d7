using System.Buffers.Binary;
using System.Text;

namespace Coldpeel.Files.Artwork.Pdf;

/// <summary>Reads pixels that poppler wrote without packing them: packing a page at 600 an inch takes it ten times as long as drawing it.</summary>
internal static class BarePixels
{
    /// <summary>A portable pixmap (Netpbm's P6, 8 bits a colour) as RGBA, opaque; null when it is none, or cut short.</summary>
    public static (int Width, int Height, byte[] Rgba)? Pixmap(string file)
    {
        using var from = File.OpenRead(file);
        if (Word(from) != "P6" || Whole(from) is not { } width || Whole(from) is not { } height || Word(from) != "255")
        {
            return null;
        }

        var row = new byte[3 * width];
        return Rows(
            width,
            height,
            (_, to) =>
            {
                if (from.ReadAtLeast(row, row.Length, throwOnEndOfStream: false) < row.Length)
                {
                    return false;
                }

                for (var x = 0; x < width; x++)
                {
                    (to[4 * x], to[(4 * x) + 1], to[(4 * x) + 2], to[(4 * x) + 3]) = (
                        row[3 * x],
                        row[(3 * x) + 1],
                        row[(3 * x) + 2],
                        255
                    );
                }

                return true;
            }
        );
    }

    /// <summary>A TIFF 6.0 of unpacked RGBA in strips, as pdftocairo writes it with transparency; null when it is another kind, or cut short.</summary>
    /// <remarks>Its colours are multiplied by alpha (ExtraSamples 1); they are divided as poppler does for PNG. A test holds the two against each other.</remarks>
    public static (int Width, int Height, byte[] Rgba)? Tiff(string file)
    {
        using var from = File.OpenRead(file);
        var head = Bytes(from, 0, 8);
        if (head is null || !head.AsSpan(0, 4).SequenceEqual("II*\0"u8))
        {
            return null;
        }

        var at = BinaryPrimitives.ReadUInt32LittleEndian(head.AsSpan(4));
        var tags = new Dictionary<int, (int Type, uint Count, uint Value)>();
        var count = Bytes(from, at, 2) is { } two ? BinaryPrimitives.ReadUInt16LittleEndian(two) : 0;
        if (Bytes(from, at + 2, 12 * count) is not { } list)
        {
            return null;
        }

        for (var i = 0; i < count; i++)
        {
            var entry = list.AsSpan(12 * i, 12);
            var type = BinaryPrimitives.ReadUInt16LittleEndian(entry[2..]);
            var value =
                type == 3
                    ? BinaryPrimitives.ReadUInt16LittleEndian(entry[8..])
                    : BinaryPrimitives.ReadUInt32LittleEndian(entry[8..]);
            tags[BinaryPrimitives.ReadUInt16LittleEndian(entry)] = (
                type,
                BinaryPrimitives.ReadUInt32LittleEndian(entry[4..]),
                value
            );
        }

        uint Tag(int tag, uint otherwise = 0) => tags.TryGetValue(tag, out var told) ? told.Value : otherwise;
        var (width, height, rows) = ((int)Tag(256), (int)Tag(257), (int)Math.Min(int.MaxValue, Tag(278, int.MaxValue)));
        var plain = Tag(259, 1) == 1 && Tag(262) == 2 && Tag(277) == 4 && Tag(284, 1) == 1 && rows >= 1;
        if (!plain || width < 1 || height < 1 || Offsets(from, tags) is not { } strips)
        {
            return null;
        }

        return Rows(
            width,
            height,
            (y, to) =>
            {
                var strip = y / rows;
                if (strip >= strips.Length)
                {
                    return false;
                }

                from.Position = strips[strip] + ((long)(y % rows) * to.Length);
                if (from.ReadAtLeast(to, to.Length, throwOnEndOfStream: false) < to.Length)
                {
                    return false;
                }

                Divide(to);
                return true;
            }
        );
    }

    private static void Divide(Span<byte> row)
    {
        for (var x = 0; x < row.Length; x += 4)
        {
            var alpha = row[x + 3];
            for (var k = x; alpha is > 0 and < 255 && k < x + 3; k++)
            {
                row[k] = (byte)Math.Min(255, ((row[k] * 255) + (alpha / 2)) / alpha);
            }
        }
    }

    private delegate bool ReadRow(int y, Span<byte> to);

    private static (int, int, byte[])? Rows(int width, int height, ReadRow read)
    {
        var rgba = GC.AllocateUninitializedArray<byte>(4 * width * height);
        for (var y = 0; y < height; y++)
        {
            if (!read(y, rgba.AsSpan(4 * width * y, 4 * width)))
            {
                return null;
            }
        }

        return (width, height, rgba);
    }

    /// <summary>Where every strip begins; a single one stands in the tag itself.</summary>
    private static uint[]? Offsets(FileStream from, Dictionary<int, (int Type, uint Count, uint Value)> tags)
    {
        if (!tags.TryGetValue(273, out var told) || told.Type != 4 || told.Count > 100_000)
        {
            return null;
        }

        if (told.Count == 1)
        {
            return [told.Value];
        }

        return Bytes(from, told.Value, 4 * (int)told.Count) is { } all
            ?
            [
                .. Enumerable
                    .Range(0, (int)told.Count)
                    .Select(k => BinaryPrimitives.ReadUInt32LittleEndian(all.AsSpan(4 * k))),
            ]
            : null;
    }

    private static byte[]? Bytes(FileStream from, long at, int count)
    {
        var bytes = new byte[count];
        from.Position = at;
        return from.ReadAtLeast(bytes, count, throwOnEndOfStream: false) == count ? bytes : null;
    }

    private static int? Whole(FileStream from) =>
        int.TryParse(Word(from), out var value) && value is > 0 and < 100_000 ? value : null;

    /// <summary>The characters up to the next single space or line end.</summary>
    private static string Word(FileStream from)
    {
        var word = new StringBuilder();
        for (int c; (c = from.ReadByte()) > ' ' && word.Length < 12; )
        {
            word.Append((char)c);
        }

        return word.ToString();
    }
}
