using System.Buffers.Binary;
using System.Text;

namespace Coldpeel.Files.Artwork.Fonts;

/// <summary>The names under which one font of a file can be asked for.</summary>
/// <param name="Index">Its place in the file: 0 unless the file is a collection.</param>
/// <param name="Full">Family and style, for people: "Oswald Bold".</param>
/// <param name="All">Every name it answers to.</param>
internal sealed record FontNames(int Index, string Full, IReadOnlyList<string> All)
{
    private static readonly string[] Upright = ["Regular", "Book", "Normal", "Roman"];
    private static readonly int[] WholeNames = [4, 6];

    /// <summary>The names of all fonts in a file, read from the <c>name</c> tables alone so that a thousand files take moments; empty when the file is no font.</summary>
    public static IReadOnlyList<FontNames> Read(Stream file)
    {
        try
        {
            return [.. Offsets(file).Select((offset, index) => One(file, offset, index)).OfType<FontNames>()];
        }
        catch (Exception e) when (e is IOException or ArgumentException or OverflowException)
        {
            return [];
        }
    }

    private static uint[] Offsets(Stream file)
    {
        var head = Take(file, 0, 12);
        if (!head.AsSpan(0, 4).SequenceEqual("ttcf"u8))
        {
            return [0];
        }

        var count = Math.Min(BinaryPrimitives.ReadUInt32BigEndian(head.AsSpan(8)), 256);
        var offsets = Take(file, 12, checked((int)count * 4));
        return
        [
            .. Enumerable.Range(0, (int)count).Select(i => BinaryPrimitives.ReadUInt32BigEndian(offsets.AsSpan(4 * i))),
        ];
    }

    private static FontNames? One(Stream file, uint offset, int index)
    {
        var head = Take(file, offset, 12);
        var version = BinaryPrimitives.ReadUInt32BigEndian(head);
        if (version is not (0x00010000 or 0x4F54544F or 0x74727565)) // TrueType, "OTTO", "true"
        {
            return null;
        }

        var tables = Take(file, offset + 12, BinaryPrimitives.ReadUInt16BigEndian(head.AsSpan(4)) * 16);
        for (var at = 0; at < tables.Length; at += 16)
        {
            if (tables.AsSpan(at, 4).SequenceEqual("name"u8))
            {
                var start = BinaryPrimitives.ReadUInt32BigEndian(tables.AsSpan(at + 8));
                var length = BinaryPrimitives.ReadUInt32BigEndian(tables.AsSpan(at + 12));
                return length <= 1 << 20 ? FromTable(Take(file, start, (int)length), index) : null;
            }
        }

        return null;
    }

    /// <summary>OpenType, table <c>name</c>: 1 family, 2 style, 4 full name, 6 PostScript name, 16 and 17 family and style of larger families.</summary>
    private static FontNames? FromTable(byte[] table, int index)
    {
        var count = BinaryPrimitives.ReadUInt16BigEndian(table.AsSpan(2));
        var strings = BinaryPrimitives.ReadUInt16BigEndian(table.AsSpan(4));
        var names = new Dictionary<int, string>();
        foreach (var unicode in new[] { true, false })
        {
            for (var i = 0; i < count; i++)
            {
                var entry = table.AsSpan(6 + (12 * i), 12);
                var (platform, language) = (U16(entry, 0), U16(entry, 4));
                var english = unicode ? platform == 3 && language == 0x0409 : platform == 1 && language == 0;
                var text = table.AsSpan(strings + U16(entry, 10), U16(entry, 8));
                if (
                    english
                    && (unicode ? Encoding.BigEndianUnicode : Encoding.Latin1).GetString(text).Trim()
                        is { Length: > 0 } name
                )
                {
                    names.TryAdd(U16(entry, 6), name);
                }
            }
        }

        if (!names.TryGetValue(1, out var family))
        {
            return null;
        }

        var all = new List<string>();
        foreach (
            var (f, s) in new[]
            {
                (names.GetValueOrDefault(16, family), names.GetValueOrDefault(17) ?? names.GetValueOrDefault(2)),
                (family, names.GetValueOrDefault(2)),
            }
        )
        {
            if (s is not null)
            {
                all.Add($"{f} {s}");
            }

            if (s is null || Upright.Contains(s, StringComparer.OrdinalIgnoreCase))
            {
                all.Add(f);
            }
        }

        all.AddRange(WholeNames.Where(names.ContainsKey).Select(id => names[id]));
        return new(index, all[0], [.. all.Distinct(StringComparer.OrdinalIgnoreCase)]);
    }

    private static ushort U16(ReadOnlySpan<byte> bytes, int at) => BinaryPrimitives.ReadUInt16BigEndian(bytes[at..]);

    private static byte[] Take(Stream file, long from, int count)
    {
        if (count < 0 || from + count > file.Length)
        {
            throw new EndOfStreamException();
        }

        var bytes = new byte[count];
        file.Position = from;
        file.ReadExactly(bytes);
        return bytes;
    }
}
