using System.Buffers.Binary;
using System.Runtime.InteropServices;
using HarfBuzzSharp;
using SkiaSharp;

namespace Coldpeel.Files.Artwork.Fonts;

/// <summary>One font ready to set type: Skia draws its letters and HarfBuzz shapes words from the same tables.</summary>
/// <remarks>All figures are in font units, <see cref="UnitsPerEm"/> of them to the font's size. The one who asked for it disposes it; it may be used by one thread at a time.</remarks>
public sealed class FontFace : IDisposable
{
    private readonly SKTypeface typeface;
    private readonly Face face;

    private FontFace(string name, SKTypeface typeface)
    {
        Name = name;
        this.typeface = typeface;
        UnitsPerEm = typeface.UnitsPerEm;
        face = new Face((_, tag) => Table(typeface, tag)) { UnitsPerEm = UnitsPerEm, GlyphCount = typeface.GlyphCount };
        Shaper = new Font(face);
        Shaper.SetScale(UnitsPerEm, UnitsPerEm);
        Shaper.SetFunctionsOpenType();
        Pen = new SKFont(typeface, UnitsPerEm)
        {
            Hinting = SKFontHinting.None,
            Subpixel = true,
            LinearMetrics = true,
        };
        (CapHeight, LineHeight) = (ReadCapHeight(), ReadLineHeight());
    }

    /// <summary>Its full name, for people.</summary>
    public string Name { get; }

    /// <summary>Font units in the font's size.</summary>
    public int UnitsPerEm { get; }

    /// <summary>Height of a flat capital: what the font says (OS/2 sCapHeight), else the height of its H; 70 % of the size for a font without Latin capitals.</summary>
    public double CapHeight { get; }

    /// <summary>From one line's foot to the next one's, as the font says.</summary>
    public double LineHeight { get; }

    /// <summary>Shapes in font units.</summary>
    internal Font Shaper { get; }

    /// <summary>Draws in font units, without hints.</summary>
    internal SKFont Pen { get; }

    /// <summary>The face in a file or in memory; null when either library cannot use it.</summary>
    internal static FontFace? Open(string name, SKData data, int index = 0)
    {
        var typeface = SKTypeface.FromData(data, index);
        if (typeface is null || typeface.GlyphCount == 0 || typeface.UnitsPerEm is < 16 or > 16384)
        {
            typeface?.Dispose();
            return null;
        }

        return new(name, typeface);
    }

    /// <inheritdoc />
    public void Dispose()
    {
        Pen.Dispose();
        Shaper.Dispose();
        face.Dispose();
        typeface.Dispose();
    }

    /// <summary>A table's bytes, in memory that HarfBuzz owns.</summary>
    private static Blob Table(SKTypeface typeface, Tag tag)
    {
        if (!typeface.TryGetTableData(tag, out var bytes) || bytes.Length == 0)
        {
            return Blob.Empty;
        }

        var memory = Marshal.AllocHGlobal(bytes.Length);
        Marshal.Copy(bytes, 0, memory, bytes.Length);
        return new(memory, bytes.Length, MemoryMode.ReadOnly, () => Marshal.FreeHGlobal(memory));
    }

    private double ReadCapHeight()
    {
        // OpenType, table OS/2: sCapHeight is there from version 2 on, at byte 88.
        if (Short("OS/2", 0) >= 2 && Short("OS/2", 88) is { } said && said > 0)
        {
            return said;
        }

        using var h = Pen.GetGlyph('H') is > 0 and var glyph ? Pen.GetGlyphPath(glyph) : null;
        return h is { IsEmpty: false } ? h.TightBounds.Height : 0.7 * UnitsPerEm;
    }

    private double ReadLineHeight()
    {
        // OpenType, table OS/2: bit 7 of fsSelection (byte 62) says that the typographic figures (from byte 68) hold, otherwise hhea's (from byte 4).
        var (table, at) = (Short("OS/2", 62) & 0x80) > 0 ? ("OS/2", 68) : ("hhea", 4);
        var height = (Short(table, at) ?? 0) - (Short(table, at + 2) ?? 0) + (Short(table, at + 4) ?? 0);
        return height > 0 ? height : 1.2 * UnitsPerEm;
    }

    private short? Short(string table, int at) =>
        typeface.TryGetTableData(Tag.Parse(table), out var bytes) && bytes.Length >= at + 2
            ? BinaryPrimitives.ReadInt16BigEndian(bytes.AsSpan(at))
            : null;
}
