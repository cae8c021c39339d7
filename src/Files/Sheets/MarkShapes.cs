using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;

namespace Coldpeel.Files.Sheets;

/// <summary>The look of a mark before it has a place: ink in a frame of its own, from (0, 0) to (width, height) in mm.</summary>
/// <param name="Text">What it says.</param>
/// <param name="Ink">Filled by the non-zero rule.</param>
internal sealed record MarkShape(string Text, InkPath Ink, double Width, double Height)
{
    /// <summary>The mark lying on its left side: its text runs up the page.</summary>
    public MarkShape Upended() => new(Text, Ink.Map(p => new(p.Y, Width - p.X)), Height, Width);

    /// <summary>The ink with the top left of its frame at a point of the sheet.</summary>
    public InkPath At(BoxMm box) => Ink.Map(p => new(p.X + box.Left, p.Y + box.Top));
}

/// <summary>Draws the marks. Strokes are 0.4 mm, the thinnest that toner and eye hold well at this size (common practice, no source).</summary>
internal static class MarkShapes
{
    /// <summary>Length of the check scale, outer edge to outer edge.</summary>
    public const double ScaleMm = 100;

    private const double Stroke = 0.4;
    private const double ScaleCap = 2.2;
    private const double FeedCap = 2.2;

    /// <summary>A bar of exactly 100 mm with a tick up at both ends and its length written between them.</summary>
    public static MarkShape Scale()
    {
        const string words = "100 mm";
        const double height = ScaleCap + 0.6 + Stroke;
        var bar = Polygon(
            new(0, 0),
            new(Stroke, 0),
            new(Stroke, height - Stroke),
            new(ScaleMm - Stroke, height - Stroke),
            new(ScaleMm - Stroke, 0),
            new(ScaleMm, 0),
            new(ScaleMm, height),
            new(0, height)
        );
        var text = Words(words, ScaleCap);
        return new(words, Join(bar, Move(text.Ink, (ScaleMm - text.Width) / 2, 0)), ScaleMm, height);
    }

    /// <summary>A line of words; its frame is the box of its ink.</summary>
    public static MarkShape Words(string words, double capMm)
    {
        var text = OutlineText.Of(words, capMm);
        return new(words, Move(text.Ink, -text.Box.Left, -text.Box.Top), text.Box.Width, text.Box.Height);
    }

    /// <summary>An arrow to the top or the left edge of the sheet, with words beside it where there is room.</summary>
    public static MarkShape Feed(bool toTheLeft, bool withWords)
    {
        const string words = "this edge first";
        const double head = 4;
        const double length = 5.6;
        const double shaft = 1.2;
        PointMm[] up =
        [
            new(head / 2, 0),
            new(head, 2.6),
            new((head + shaft) / 2, 2.6),
            new((head + shaft) / 2, length),
            new((head - shaft) / 2, length),
            new((head - shaft) / 2, 2.6),
            new(0, 2.6),
        ];
        var (width, height) = toTheLeft ? (length, head) : (head, length);
        var arrow = Polygon([.. up.Select(p => toTheLeft ? new PointMm(p.Y, p.X) : p)]);
        if (!withWords)
        {
            return new("", arrow, width, height);
        }

        var text = Words(words, FeedCap);
        var ink = Join(arrow, Move(text.Ink, width + 1.2, (height - text.Height) / 2));
        return new(words, ink, width + 1.2 + text.Width, height);
    }

    /// <summary>A label led by a small triangle that points to its piece.</summary>
    /// <param name="way">Where to, in the frame of the words: one of the four unit steps.</param>
    public static MarkShape Pointed(string label, double capMm, PointMm way)
    {
        var text = Words(label, capMm);
        var (size, across) = (capMm * 0.9, new PointMm(-way.Y, way.X));
        var middle = new PointMm(size / 2, text.Height / 2);
        PointMm Corner(double along, double aside) =>
            new(
                middle.X + (size * ((way.X * along) + (across.X * aside))),
                middle.Y + (size * ((way.Y * along) + (across.Y * aside)))
            );
        var triangle = Polygon(Corner(0.5, 0), Corner(-0.4, 0.5), Corner(-0.4, -0.5));
        var start = size + (capMm * 0.3);
        return new(label, Join(triangle, Move(text.Ink, start, 0)), start + text.Width, text.Height);
    }

    private static InkPath Polygon(params ReadOnlySpan<PointMm> ring)
    {
        var steps = ImmutableArray.CreateBuilder<PathStep>();
        foreach (var p in ring)
        {
            steps.Add(new(steps.Count == 0 ? PathMove.Start : PathMove.Line, default, default, p));
        }

        steps.Add(new(PathMove.Close, default, default, default));
        return new(steps.ToImmutable());
    }

    private static InkPath Join(InkPath a, InkPath b) => new(a.Steps.AddRange(b.Steps));

    private static InkPath Move(InkPath ink, double x, double y) => ink.Map(p => new(p.X + x, p.Y + y));
}
