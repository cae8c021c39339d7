using System.Globalization;
using System.Text;
using Coldpeel.Files.Artwork.Fonts;
using HarfBuzzSharp;
using Buffer = HarfBuzzSharp.Buffer;

namespace Coldpeel.Files.Artwork.Lettering;

/// <summary>A letter's outline at its place: font units, x right and y up from the start of the line's foot.</summary>
/// <param name="Glyph">Its number in the font.</param>
/// <param name="X">Its origin.</param>
/// <param name="Y">Its origin, up.</param>
/// <param name="Middle">Middle of the advance of the letter that it belongs to, marks included: where a letter on an arc stands upright.</param>
internal readonly record struct PlacedGlyph(ushort Glyph, double X, double Y, double Middle = 0);

/// <summary>A line as glyphs.</summary>
/// <param name="Glyphs">From left to right, without those that are missing.</param>
/// <param name="Advance">Width of the line with the letters' own side spaces, in font units.</param>
/// <param name="Missing">What the font cannot draw, in the order of the text.</param>
internal sealed record ShapedLine(List<PlacedGlyph> Glyphs, double Advance, List<string> Missing);

/// <summary>Turns a line of text into glyphs with HarfBuzz: kerning, ligatures, marks, joined letters, both directions.</summary>
internal static class LineShaper
{
    // Spelled out: left open, HarfBuzz would take the machine's language, and the same job could come out differently elsewhere.
    private static readonly Language NoLanguage = new("und");
    private static readonly Feature[] LooseLetters = [Feature.Parse("-liga"), Feature.Parse("-clig")];

    /// <summary>Shapes a line.</summary>
    /// <param name="face">The font.</param>
    /// <param name="line">One line of text.</param>
    /// <param name="tracking">Space after each letter but the last, in font units; none inside words of joined scripts, and no ligatures beside it.</param>
    public static ShapedLine Shape(FontFace face, string line, double tracking)
    {
        var glyphs = new List<PlacedGlyph>();
        var missing = new SortedDictionary<int, string>();
        var starts = StringInfo.ParseCombiningCharacters(line);
        var (x, owed) = (0.0, 0.0);
        foreach (var run in TextRuns.InSight(line))
        {
            using var buffer = new Buffer();
            buffer.AddUtf16(line.AsSpan(), run.Start, run.Length);
            buffer.Direction = run.RightToLeft ? Direction.RightToLeft : Direction.LeftToRight;
            buffer.Script = run.Script;
            buffer.Language = NoLanguage;
            face.Shaper.Shape(buffer, tracking == 0 ? [] : LooseLetters);
            var infos = buffer.GetGlyphInfoSpan();
            var places = buffer.GetGlyphPositionSpan();
            var middle = 0.0;
            for (var i = 0; i < infos.Length; i++)
            {
                var cluster = (int)infos[i].Cluster;
                var starting = i == 0 || infos[i - 1].Cluster != infos[i].Cluster;
                if (starting)
                {
                    x += owed;
                    middle = x + (ClusterAdvance(infos, places, i) / 2.0);
                    owed = run.Joins && !TouchesSpace(line, cluster, run, infos, i) ? 0 : tracking;
                }

                if (IsMissing(face, line, infos[i].Codepoint, cluster, ClusterEnd(line, run, infos, i)))
                {
                    var at = Array.FindLastIndex(starts, s => s <= cluster);
                    missing[starts[at]] = line[starts[at]..(at + 1 < starts.Length ? starts[at + 1] : line.Length)];
                }
                else
                {
                    glyphs.Add(new((ushort)infos[i].Codepoint, x + places[i].XOffset, places[i].YOffset, middle));
                }

                x += places[i].XAdvance;
            }
        }

        return new(glyphs, x, [.. missing.Values]);
    }

    /// <summary>A glyph is missing when it is the font's box for that (.notdef), or when it is blank though its text is to be seen, as coloured picture letters are.</summary>
    private static bool IsMissing(FontFace face, string line, uint glyph, int from, int to)
    {
        if (glyph == 0)
        {
            return true;
        }

        var seen = line[from..to].EnumerateRunes().Count(IsSeen) == 1 && to - from <= 2;
        if (!seen)
        {
            return false;
        }

        using var outline = face.Pen.GetGlyphPath((ushort)glyph);
        return outline is null || outline.IsEmpty;
    }

    private static bool IsSeen(Rune rune) =>
        Rune.IsLetterOrDigit(rune) || Rune.IsPunctuation(rune) || (Rune.IsSymbol(rune) && rune.Value != 0x2800); // the empty Braille cell

    private static bool TouchesSpace(string line, int cluster, TextRun run, ReadOnlySpan<GlyphInfo> infos, int i)
    {
        var end = ClusterEnd(line, run, infos, i);
        // In sight, what follows to the right of a letter that runs leftwards is the letter before it.
        var next = run.RightToLeft ? cluster - 1 : end;
        return char.IsWhiteSpace(line[cluster])
            || next < run.Start
            || next >= run.Start + run.Length
            || char.IsWhiteSpace(line[next]);
    }

    private static int ClusterAdvance(ReadOnlySpan<GlyphInfo> infos, ReadOnlySpan<GlyphPosition> places, int i)
    {
        var sum = 0;
        for (var k = i; k < infos.Length && infos[k].Cluster == infos[i].Cluster; k++)
        {
            sum += places[k].XAdvance;
        }

        return sum;
    }

    private static int ClusterEnd(string line, TextRun run, ReadOnlySpan<GlyphInfo> infos, int i)
    {
        var end = run.Start + run.Length;
        foreach (var info in infos)
        {
            if (info.Cluster > infos[i].Cluster && info.Cluster < end)
            {
                end = (int)info.Cluster;
            }
        }

        return Math.Min(end, line.Length);
    }
}
