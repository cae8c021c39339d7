using System.Buffers.Binary;
using SkiaSharp;

namespace Coldpeel.Files.Paper;

/// <summary>
/// Makes a font that keeps only the outlines a paper uses, so that the paper carries a few kilobytes and not the whole font (the Skia we ship
/// embeds a font as it stands). Glyphs keep their numbers and widths. Tables: OpenType 1.9, "glyf", "loca", "head", "maxp".
/// </summary>
internal static class SlimFont
{
    // What a reader needs to draw and to copy text; shaping, kerning and hinting programs are left out. "post" loses its glyph names.
    private static readonly string[] Kept =
    [
        "OS/2",
        "cmap",
        "glyf",
        "head",
        "hhea",
        "hmtx",
        "loca",
        "maxp",
        "name",
        "post",
    ];

    private const int MoreComponents = 0x20;
    private const int WordArguments = 0x01;
    private const int OneScale = 0x08;
    private const int TwoScales = 0x40;
    private const int Matrix = 0x80;

    /// <summary>The slim face, or null where the font has no TrueType outlines: then the whole font must do.</summary>
    public static SKTypeface? Of(SKTypeface face, IReadOnlySet<ushort> glyphs)
    {
        var tables = new SortedDictionary<string, byte[]>(StringComparer.Ordinal);
        foreach (var tag in Kept)
        {
            if (face.TryGetTableData(Number(tag), out var data))
            {
                tables[tag] = data;
            }
        }

        if (!(tables.ContainsKey("glyf") && tables.ContainsKey("loca") && tables.ContainsKey("cmap")))
        {
            return null;
        }

        Outlines(tables, glyphs);
        if (tables.TryGetValue("post", out var post))
        {
            tables["post"] = post[..32];
            BinaryPrimitives.WriteUInt32BigEndian(tables["post"], 0x00030000); // version 3: no names
        }

        using var written = SKData.CreateCopy(File(tables));
        return SKTypeface.FromData(written);
    }

    private static void Outlines(SortedDictionary<string, byte[]> tables, IReadOnlySet<ushort> glyphs)
    {
        var (glyf, loca, head) = (tables["glyf"], tables["loca"], tables["head"]);
        var longOffsets = Short(head, 50) != 0;
        var count = Short(tables["maxp"], 4);
        int Offset(int glyph) =>
            longOffsets
                ? (int)BinaryPrimitives.ReadUInt32BigEndian(loca.AsSpan(glyph * 4))
                : Short(loca, glyph * 2) * 2;

        // Glyph 0 stands for what is missing; accented letters are made of other glyphs.
        var wanted = new SortedSet<int>(glyphs.Select(g => (int)g).Where(g => g < count)) { 0 };
        var open = new Stack<int>(wanted);
        while (open.TryPop(out var glyph))
        {
            foreach (var part in Parts(glyf.AsSpan(Offset(glyph)..Offset(glyph + 1))).Where(p => p < count))
            {
                if (wanted.Add(part))
                {
                    open.Push(part);
                }
            }
        }

        using var outlines = new MemoryStream();
        var offsets = new byte[(count + 1) * 4];
        for (var glyph = 0; glyph < count; glyph++)
        {
            BinaryPrimitives.WriteUInt32BigEndian(offsets.AsSpan(glyph * 4), (uint)outlines.Length);
            if (wanted.Contains(glyph))
            {
                outlines.Write(glyf.AsSpan(Offset(glyph)..Offset(glyph + 1)));
                while (outlines.Length % 4 != 0)
                {
                    outlines.WriteByte(0);
                }
            }
        }

        BinaryPrimitives.WriteUInt32BigEndian(offsets.AsSpan(count * 4), (uint)outlines.Length);
        var newHead = head.ToArray();
        BinaryPrimitives.WriteUInt16BigEndian(newHead.AsSpan(50), 1); // offsets of four bytes
        (tables["glyf"], tables["loca"], tables["head"]) = (outlines.ToArray(), offsets, newHead);
    }

    /// <summary>The glyphs that a composite glyph is made of.</summary>
    private static List<int> Parts(ReadOnlySpan<byte> glyph)
    {
        var parts = new List<int>();
        if (glyph.Length < 10 || BinaryPrimitives.ReadInt16BigEndian(glyph) >= 0)
        {
            return parts;
        }

        for (var (at, more) = (10, true); more && at + 4 <= glyph.Length; )
        {
            var flags = BinaryPrimitives.ReadUInt16BigEndian(glyph[at..]);
            parts.Add(BinaryPrimitives.ReadUInt16BigEndian(glyph[(at + 2)..]));
            more = (flags & MoreComponents) != 0;
            at += 4 + ((flags & WordArguments) != 0 ? 4 : 2);
            at +=
                (flags & OneScale) != 0 ? 2
                : (flags & TwoScales) != 0 ? 4
                : (flags & Matrix) != 0 ? 8
                : 0;
        }

        return parts;
    }

    /// <summary>A font file: the directory of its tables, then the tables, each on four bytes.</summary>
    private static byte[] File(SortedDictionary<string, byte[]> tables)
    {
        var start = 12 + (16 * tables.Count);
        var file = new byte[start + tables.Values.Sum(t => (t.Length + 3) / 4 * 4)];
        BinaryPrimitives.WriteUInt32BigEndian(file, 0x00010000);
        BinaryPrimitives.WriteUInt16BigEndian(file.AsSpan(4), (ushort)tables.Count);
        var power = 1 << (int)Math.Floor(Math.Log2(tables.Count));
        BinaryPrimitives.WriteUInt16BigEndian(file.AsSpan(6), (ushort)(power * 16));
        BinaryPrimitives.WriteUInt16BigEndian(file.AsSpan(8), (ushort)Math.Log2(power));
        BinaryPrimitives.WriteUInt16BigEndian(file.AsSpan(10), (ushort)((tables.Count - power) * 16));
        var (entry, at) = (12, start);
        foreach (var (tag, data) in tables)
        {
            data.CopyTo(file, at);
            BinaryPrimitives.WriteUInt32BigEndian(file.AsSpan(entry), Number(tag));
            BinaryPrimitives.WriteUInt32BigEndian(
                file.AsSpan(entry + 4),
                Sum(file.AsSpan(at, (data.Length + 3) / 4 * 4))
            );
            BinaryPrimitives.WriteUInt32BigEndian(file.AsSpan(entry + 8), (uint)at);
            BinaryPrimitives.WriteUInt32BigEndian(file.AsSpan(entry + 12), (uint)data.Length);
            entry += 16;
            at += (data.Length + 3) / 4 * 4;
        }

        return file;
    }

    private static uint Sum(ReadOnlySpan<byte> data)
    {
        uint sum = 0;
        for (var i = 0; i < data.Length; i += 4)
        {
            sum = unchecked(sum + BinaryPrimitives.ReadUInt32BigEndian(data[i..]));
        }

        return sum;
    }

    private static int Short(byte[] data, int at) => BinaryPrimitives.ReadUInt16BigEndian(data.AsSpan(at));

    private static uint Number(string tag) =>
        ((uint)tag[0] << 24) | ((uint)tag[1] << 16) | ((uint)tag[2] << 8) | tag[3];
}
