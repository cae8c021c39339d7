using Coldpeel.Workshop.Findings;
using SkiaSharp;

namespace Coldpeel.Files.Paper;

/// <summary>Where text stands between two edges.</summary>
internal enum Align
{
    Left,
    Centre,
    Right,
}

/// <summary>One page being drawn, in mm from its top left corner. What is drawn is kept until the book is written.</summary>
internal sealed class Page(double widthMm, double heightMm)
{
    private readonly List<Action<SKCanvas, SlimFaces>> _drawn = [];
    private readonly List<TextRun> _texts = [];

    public double WidthMm { get; } = widthMm;

    public double HeightMm { get; } = heightMm;

    /// <summary>The pages that count together: "page 2 of 3".</summary>
    public int Section { get; init; }

    /// <summary>What stands at the foot on the left.</summary>
    public string Foot { get; init; } = "";

    /// <summary>How the paper is worded.</summary>
    public Wording Words { get; init; } = Wording.English;

    /// <summary>All its text.</summary>
    internal IEnumerable<TextRun> Texts => _texts;

    /// <summary>One line of text; <paramref name="x"/> is its left end, middle or right end by <paramref name="align"/>.</summary>
    public void Text(double x, double baseline, string text, TextStyle style, Align align = Align.Left)
    {
        var runs = TextRuns.Of(TextRuns.Clean(text).Replace('\n', ' '), style.Face);
        var width = runs.Sum(r => TextRuns.Width(r, style.Pt));
        _texts.AddRange(runs);
        var left =
            Units.Pt(x)
            - (
                align == Align.Left ? 0
                : align == Align.Centre ? width / 2
                : width
            );
        _drawn.Add(
            (canvas, faces) =>
            {
                using var paint = new SKPaint { Color = style.Colour, IsAntialias = true };
                var at = left;
                foreach (var run in runs)
                {
                    at += TextRuns.Draw(canvas, faces, run, style.Pt, at, Units.Pt(baseline), paint);
                }
            }
        );
    }

    /// <summary>Wrapped text from a top edge down; tells the height it took.</summary>
    public double Block(double x, double top, string? text, TextStyle style, double widthMm, Align align = Align.Left)
    {
        var lines = TextLines.Wrap(text, style, widthMm);
        for (var i = 0; i < lines.Count; i++)
        {
            var at =
                align == Align.Left ? x
                : align == Align.Centre ? x + (widthMm / 2)
                : x + widthMm;
            Text(at, top + (i * style.LineMm) + style.BaselineMm, lines[i], style, align);
        }

        return lines.Count * style.LineMm;
    }

    public void Rule(double x1, double y1, double x2, double y2, double thickMm, SKColor colour, double dashMm = 0) =>
        _drawn.Add(
            (canvas, _) =>
            {
                using var dash =
                    dashMm > 0 ? SKPathEffect.CreateDash([Units.Pt(dashMm), Units.Pt(dashMm * 0.7)], 0) : null;
                using var paint = Pen(thickMm, colour);
                paint.PathEffect = dash;
                canvas.DrawLine(Units.Pt(x1), Units.Pt(y1), Units.Pt(x2), Units.Pt(y2), paint);
            }
        );

    public void Fill(double x, double y, double w, double h, SKColor colour) =>
        _drawn.Add(
            (canvas, _) =>
            {
                using var paint = new SKPaint { Color = colour, IsAntialias = true };
                canvas.DrawRect(Units.Pt(x), Units.Pt(y), Units.Pt(w), Units.Pt(h), paint);
            }
        );

    public void Box(double x, double y, double w, double h, double thickMm, SKColor colour) =>
        _drawn.Add(
            (canvas, _) =>
            {
                using var paint = Pen(thickMm, colour);
                canvas.DrawRect(Units.Pt(x), Units.Pt(y), Units.Pt(w), Units.Pt(h), paint);
            }
        );

    /// <summary>A shape given as path data in mm, scaled and then shifted to (x, y).</summary>
    public void Shape(string data, double x, double y, double scale, SKColor? fill, SKColor? line, double thickMm = 0.3)
    {
        using var read = SKPath.ParseSvgPathData(data);
        var k = Units.Pt(scale);
        var path = new SKPath(read);
        path.Transform(SKMatrix.CreateScaleTranslation(k, k, Units.Pt(x), Units.Pt(y)));
        _drawn.Add(
            (canvas, _) =>
            {
                if (fill is { } inside)
                {
                    using var paint = new SKPaint { Color = inside, IsAntialias = true };
                    canvas.DrawPath(path, paint);
                }

                if (line is { } edge)
                {
                    using var paint = Pen(thickMm, edge);
                    canvas.DrawPath(path, paint);
                }
            }
        );
    }

    public void Picture(SKImage image, double x, double y, double w, double h) =>
        _drawn.Add(
            (canvas, _) =>
                canvas.DrawImage(
                    image,
                    SKRect.Create(Units.Pt(x), Units.Pt(y), Units.Pt(w), Units.Pt(h)),
                    new SKSamplingOptions(SKFilterMode.Linear)
                )
        );

    /// <summary>Plays what was drawn.</summary>
    internal void Play(SKCanvas canvas, SlimFaces faces) => _drawn.ForEach(draw => draw(canvas, faces));

    private static SKPaint Pen(double thickMm, SKColor colour) =>
        new()
        {
            Color = colour,
            IsAntialias = true,
            Style = SKPaintStyle.Stroke,
            StrokeWidth = Units.Pt(thickMm),
            StrokeJoin = SKStrokeJoin.Round,
        };
}
