using System.Runtime.InteropServices;
using HarfBuzzSharp;
using SkiaSharp;

namespace Coldpeel.Files.Artwork;

/// <summary>Which letters of a face a text takes and where they stand, kerned and joined by the face's own rules.</summary>
internal static class SvgShaping
{
    /// <summary>Letters, their places from the start of the text, and the text's advance, all in units of <paramref name="size"/>.</summary>
    public static (ushort[] Glyphs, SKPoint[] Points, float Advance) Shape(SKTypeface typeface, float size, string text)
    {
        using var face = new Face((_, tag) => Table(typeface, tag)) { UnitsPerEm = typeface.UnitsPerEm };
        using var font = new Font(face);
        var units = typeface.UnitsPerEm;
        font.SetScale(units, units);
        font.SetFunctionsOpenType();
        using var buffer = new HarfBuzzSharp.Buffer();
        buffer.AddUtf16(text);
        buffer.GuessSegmentProperties();
        font.Shape(buffer);
        var (infos, positions) = (buffer.GlyphInfos, buffer.GlyphPositions);
        var glyphs = new ushort[infos.Length];
        var points = new SKPoint[infos.Length];
        var (x, y) = (0, 0);
        var scale = size / units;
        for (var i = 0; i < infos.Length; i++)
        {
            glyphs[i] = (ushort)infos[i].Codepoint;
            points[i] = new((x + positions[i].XOffset) * scale, -(y + positions[i].YOffset) * scale);
            x += positions[i].XAdvance;
            y += positions[i].YAdvance;
        }

        return (glyphs, points, x * scale);
    }

    private static Blob Table(SKTypeface typeface, Tag tag)
    {
        if (!typeface.TryGetTableData(tag, out var table) || table is null)
        {
            return Blob.Empty;
        }

        var memory = Marshal.AllocCoTaskMem(table.Length);
        Marshal.Copy(table, 0, memory, table.Length);
        return new Blob(memory, table.Length, MemoryMode.ReadOnly, () => Marshal.FreeCoTaskMem(memory));
    }
}
