using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Text;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Files.Artwork.Fonts;
using SkiaSharp;

namespace Coldpeel.Files.Sheets;

/// <summary>A line of text as outlines, so that no printer needs a font; what lies inside by the non-zero rule is ink.</summary>
/// <param name="Ink">The outlines; the baseline starts at (0, 0), letters stand above it (y below zero).</param>
/// <param name="Box">The box around the ink.</param>
internal sealed record OutlineText(InkPath Ink, BoxMm Box)
{
    private const float Size = 1000;

    private static readonly Lazy<float> CapOfSize = new(() =>
    {
        using var font = NewFont(false);
        using var path = font.GetTextPath("H", new SKPoint(0, 0));
        return path.TightBounds.Height;
    });

    private static readonly ConcurrentDictionary<(string, bool), OutlineText> Known = new();

    private static readonly ConcurrentDictionary<(ushort Glyph, bool Light), InkPath> KnownLetters = new();

    /// <summary>The text with flat capitals of this height in mm, bold or in the lighter weight.</summary>
    public static OutlineText Of(string text, double capMm, bool light = false)
    {
        // Labels come again on every sheet and at every size tried: the outlines are made once, at a capital of 1 mm.
        if (Known.Count > 4000)
        {
            Known.Clear();
        }

        var one = Known.GetOrAdd((text.Normalize(NormalizationForm.FormC), light), k => Make(k.Item1, k.Item2));
        return new(
            one.Ink.Map(p => new(p.X * capMm, p.Y * capMm)),
            new(one.Box.Left * capMm, one.Box.Top * capMm, one.Box.Right * capMm, one.Box.Bottom * capMm)
        );
    }

    /// <summary>Width of the ink in mm.</summary>
    public static double Width(string text, double capMm, bool light = false) =>
        Known.GetOrAdd((text.Normalize(NormalizationForm.FormC), light), k => Make(k.Item1, k.Item2)).Box.Width * capMm;

    /// <summary>The letters one by one at a capital of 1 mm, each from its own origin, and where it stands on the baseline.</summary>
    public static ImmutableArray<(InkPath Ink, double X)> Letters(string text, bool light)
    {
        using var font = NewFont(light);
        var glyphs = font.GetGlyphs(text.Normalize(NormalizationForm.FormC));
        var places = font.GetGlyphPositions(glyphs);
        var scale = 1.0 / CapOfSize.Value;
        return
        [
            .. glyphs
                .Zip(places, (g, at) => (Ink: KnownLetters.GetOrAdd((g, light), LetterOf), X: at.X * scale))
                .Where(l => !l.Ink.IsEmpty),
        ];
    }

    private static InkPath LetterOf((ushort Glyph, bool Light) letter)
    {
        using var font = NewFont(letter.Light);
        using var path = font.GetGlyphPath(letter.Glyph);
        return path is null ? new([]) : Of(path);
    }

    private static SKFont NewFont(bool light) =>
        new(light ? InterFonts.SemiBold : InterFonts.Bold, Size)
        {
            Hinting = SKFontHinting.None,
            LinearMetrics = true,
            Subpixel = true,
        };

    private static OutlineText Make(string text, bool light)
    {
        using var font = NewFont(light);
        using var path = font.GetTextPath(text, new SKPoint(0, 0));
        var (scale, box) = (1.0 / CapOfSize.Value, path.TightBounds);
        return new(Of(path), new(box.Left * scale, box.Top * scale, box.Right * scale, box.Bottom * scale));
    }

    private static InkPath Of(SKPath path)
    {
        var scale = 1.0 / CapOfSize.Value;
        PointMm At(SKPoint p) => new(p.X * scale, p.Y * scale);
        var steps = ImmutableArray.CreateBuilder<PathStep>();
        using var verbs = path.CreateRawIterator();
        var points = new SKPoint[4];
        while (verbs.Next(points) is var verb && verb != SKPathVerb.Done)
        {
            switch (verb)
            {
                case SKPathVerb.Move:
                    steps.Add(new(PathMove.Start, default, default, At(points[0])));
                    break;
                case SKPathVerb.Line:
                    steps.Add(new(PathMove.Line, default, default, At(points[1])));
                    break;
                case SKPathVerb.Quad:
                    // A quadratic is the cubic whose handles lie two thirds of the way to its one handle.
                    var (a, q, b) = (At(points[0]), At(points[1]), At(points[2]));
                    steps.Add(new(PathMove.Curve, Toward(a, q), Toward(b, q), b));
                    break;
                case SKPathVerb.Cubic:
                    steps.Add(new(PathMove.Curve, At(points[1]), At(points[2]), At(points[3])));
                    break;
                case SKPathVerb.Close:
                    steps.Add(new(PathMove.Close, default, default, default));
                    break;
                default:
                    throw new InvalidDataException($"A letter of Inter holds a curve of kind {verb}.");
            }
        }

        return new(steps.ToImmutable());
    }

    private static PointMm Toward(PointMm end, PointMm handle) =>
        new(end.X + ((handle.X - end.X) * 2 / 3), end.Y + ((handle.Y - end.Y) * 2 / 3));
}
