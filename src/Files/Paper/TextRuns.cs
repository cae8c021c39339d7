using System.Globalization;
using System.Text;
using HarfBuzzSharp;
using SkiaSharp;

namespace Coldpeel.Files.Paper;

/// <summary>A stretch of text in one face; <paramref name="From"/> is set where the face is not Inter.</summary>
internal sealed record TextRun(string Text, SKTypeface Face, FallbackFont? From);

/// <summary>Splits text by the face that can show it, measures and draws it.</summary>
internal static class TextRuns
{
    /// <summary>What stands where no font on the machine has the letter: visible, never silent.</summary>
    public const string Missing = "□";

    /// <summary>Composed letters, no control characters, no direction marks, no broken surrogates: what may be drawn.</summary>
    public static string Clean(string? text)
    {
        var clean = new StringBuilder();
        foreach (var rune in (text ?? "").EnumerateRunes()) // broken surrogates come out as U+FFFD
        {
            if (rune.Value is >= 0x202A and <= 0x202E or >= 0x2066 and <= 0x2069 or 0x200E or 0x200F or 0xFEFF)
            {
                continue;
            }

            clean.Append(
                rune.Value == '\n' ? "\n"
                : Rune.IsControl(rune) ? " "
                : rune.ToString()
            );
        }

        return clean.ToString().Normalize(NormalizationForm.FormC);
    }

    /// <summary>The runs of one line of clean text.</summary>
    public static List<TextRun> Of(string text, SKTypeface face)
    {
        using var font = new SKFont(face);
        if (font.ContainsGlyphs(text))
        {
            return [new(text, face, null)];
        }

        var runs = new List<TextRun>();
        var letters = StringInfo.GetTextElementEnumerator(text);
        while (letters.MoveNext())
        {
            var letter = letters.GetTextElement();
            var last = runs.Count > 0 ? runs[^1] : null;
            // A blank stays with the foreign words on both its sides, so that they keep their direction.
            var blank = string.IsNullOrWhiteSpace(letter) && last?.From is not null;
            var next =
                blank && Has(last!.Face, letter) ? last with { Text = letter }
                : font.ContainsGlyphs(letter) ? new TextRun(letter, face, null)
                : FallbackFonts.For(letter) is { } other ? new TextRun(letter, other.Face, other)
                : new TextRun(Missing, face, null);
            if (last is not null && last.Face == next.Face)
            {
                runs[^1] = last with { Text = last.Text + next.Text };
            }
            else
            {
                runs.Add(next);
            }
        }

        return runs;
    }

    /// <summary>Width in points.</summary>
    public static double Width(TextRun run, double pt)
    {
        if (run.From is not null)
        {
            return Shape(run, pt).Width;
        }

        using var font = Font(run.Face, pt);
        return font.MeasureText(run.Text);
    }

    /// <summary>The glyphs that a run is drawn with.</summary>
    public static ushort[] Glyphs(TextRun run)
    {
        if (run.From is not null)
        {
            return Shape(run, 10).Glyphs;
        }

        using var font = new SKFont(run.Face);
        return font.GetGlyphs(run.Text);
    }

    /// <summary>Draws the run with its left end at a baseline, in points, and tells its width; <paramref name="faces"/> are those of the paper.</summary>
    public static double Draw(
        SKCanvas canvas,
        SlimFaces faces,
        TextRun run,
        double pt,
        double x,
        double y,
        SKPaint paint
    )
    {
        using var font = Font(faces.For(run.Face), pt);
        if (run.From is null)
        {
            canvas.DrawText(run.Text, (float)x, (float)y, SKTextAlign.Left, font, paint);
            return font.MeasureText(run.Text);
        }

        var (glyphs, points, width) = Shape(run, pt);
        using var builder = new SKTextBlobBuilder();
        builder.AddPositionedRun(glyphs, font, points);
        using var blob = builder.Build();
        if (blob is not null)
        {
            canvas.DrawText(blob, (float)x, (float)y, paint);
        }

        return width;
    }

    private static bool Has(SKTypeface face, string letter)
    {
        using var font = new SKFont(face);
        return font.ContainsGlyphs(letter);
    }

    private static SKFont Font(SKTypeface face, double pt) =>
        new(face, (float)pt)
        {
            Subpixel = true,
            LinearMetrics = true,
            Hinting = SKFontHinting.None,
        };

    private static (ushort[] Glyphs, SKPoint[] Points, double Width) Shape(TextRun run, double pt)
    {
        using var blob = Blob.FromFile(run.From!.File);
        using var face = new Face(blob, 0);
        using var font = new HarfBuzzSharp.Font(face);
        font.SetScale(face.UnitsPerEm, face.UnitsPerEm);
        using var buffer = new HarfBuzzSharp.Buffer();
        buffer.AddUtf16(run.Text);
        buffer.GuessSegmentProperties();
        font.Shape(buffer);
        var scale = pt / face.UnitsPerEm;
        var glyphs = buffer.GlyphInfos.Select(g => (ushort)g.Codepoint).ToArray();
        var points = new SKPoint[glyphs.Length];
        double x = 0;
        var placed = buffer.GlyphPositions;
        for (var i = 0; i < points.Length; i++)
        {
            points[i] = new((float)(x + (placed[i].XOffset * scale)), (float)(-placed[i].YOffset * scale));
            x += placed[i].XAdvance * scale;
        }

        return (glyphs, points, x);
    }
}
