using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;
using Coldpeel.Workshop.Findings;
using SkiaSharp;
using Svg.Skia;
using Shim = ShimSkiaSharp;

namespace Coldpeel.Files.Artwork;

/// <summary>Flattens the painting of an SVG into one even-odd path of white ink, or says why it cannot.</summary>
internal sealed class SvgInk(SkiaModel model, Func<Rgb, byte, double> strength, InkWork work)
{
    /// <summary>Lengths of the longer side in the units that outlines are joined in: single precision then resolves 1/2000 of a unit or better. Each is another try where joining goes wrong.</summary>
    public static readonly double[] Grids = [8192, 6007, 9973, 3271];

    /// <summary>Strength from which a paint prints solid, and below 1 − which it prints nothing.</summary>
    private const double Clear = 0.98;

    /// <summary>Alpha from which a paint covers, and below 255 − which it is not there.</summary>
    private const byte Covering = 253;

    /// <summary>Said when the drawing library cannot join the outlines.</summary>
    public const string Tangled = "Its outlines are too tangled to be joined exactly.";

    /// <summary>Said when joining the outlines would take too long.</summary>
    public const string TooMany = "It has more shapes laid over or beside one another than are joined to outlines.";

    private readonly InkGround _ground = new(work);
    private Sentence? _whyNot;

    /// <summary>The ink of a picture on a page of whole units, at a size in mm, joined on one of the <see cref="Grids"/>.</summary>
    public VectorInk Of(Shim.SKPicture picture, (int W, int H) page, double widthMm, double heightMm, double grid)
    {
        var perMm = grid / Math.Max(widthMm, heightMm);
        var start = SKMatrix.CreateScale((float)(widthMm * perMm / page.W), (float)(heightMm * perMm / page.H));
        using var frame = Rectangle(SKRect.Create((float)(widthMm * perMm), (float)(heightMm * perMm)));
        Walk(picture, new(start, frame));
        if (_whyNot is not null)
        {
            return new(null, _whyNot);
        }

        var steps = ImmutableArray.CreateBuilder<PathStep>();
        foreach (var island in _ground.Islands)
        {
            InkPaths.Add(steps, island, 1 / perMm, 1 / perMm);
        }

        return new(new InkPath(steps.ToImmutable()), null);
    }

    private readonly record struct State(SKMatrix Matrix, SKPath Clip);

    private void Walk(Shim.SKPicture picture, State state)
    {
        var saved = new Stack<State>();
        foreach (var command in picture.Commands ?? [])
        {
            switch (command)
            {
                case Shim.SaveLayerCanvasCommand layer:
                    saved.Push(state);
                    _whyNot ??= layer.Paint is { } through ? WhyNotLayer(through) : null;
                    break;
                case Shim.SaveCanvasCommand:
                    saved.Push(state);
                    break;
                case Shim.RestoreCanvasCommand when saved.Count > 0:
                    state = saved.Pop();
                    break;
                case Shim.SetMatrixCanvasCommand set:
                    state = state with { Matrix = state.Matrix.PreConcat(model.ToSKMatrix(set.DeltaMatrix)) };
                    break;
                case Shim.ClipRectCanvasCommand clip:
                    state = Clip(state, Rectangle(model.ToSKRect(clip.Rect)), clip.Operation);
                    break;
                case Shim.ClipPathCanvasCommand { ClipPath: { } clip } cut:
                    state = Clip(state, model.ToSKPath(clip) ?? new SKPath(), cut.Operation);
                    break;
                case Shim.DrawPathCanvasCommand { Path: { } path, Paint: { } paint }:
                    Paint(state, model.ToSKPath(path), paint);
                    break;
                case Shim.DrawPictureCanvasCommand { Picture: { } nested }:
                    Walk(nested, state);
                    break;
                case Shim.DrawImageCanvasCommand:
                    _whyNot ??= "It carries a picture made of pixels.";
                    break;
                case Shim.DrawTextCanvasCommand { Paint: { } paint } text:
                    Paint(state, SvgText.Outline(model, text), paint);
                    break;
                case Shim.DrawTextBlobCanvasCommand { Paint: { } paint } text:
                    Paint(state, SvgText.Outline(model, text), paint);
                    break;
                case Shim.DrawTextOnPathCanvasCommand { Paint: { } paint } text:
                    Paint(state, SvgText.Outline(model, text), paint);
                    break;
                default:
                    _whyNot ??= "It is drawn in a way that has no plain outlines.";
                    break;
            }

            if (_whyNot is not null)
            {
                return;
            }
        }
    }

    private void Paint(State state, SKPath? path, Shim.SKPaint paint)
    {
        _whyNot ??= WhyNotPaint(paint);
        if (path is null)
        {
            _whyNot ??= "Some of its text cannot be turned into outlines.";
        }

        var colour = Colour(paint);
        if (_whyNot is not null || path is null || colour.Alpha <= byte.MaxValue - Covering)
        {
            return;
        }

        var ink = strength(new Rgb(colour.Red, colour.Green, colour.Blue), colour.Alpha);
        if (colour.Alpha < Covering)
        {
            _whyNot = "Some of it is painted semi-transparent.";
            return;
        }

        if (ink is < Clear and > 1 - Clear)
        {
            _whyNot = $"Some of it is a tint (#{Hex(colour)}) that neither prints solid nor stays empty.";
            return;
        }

        using var shape = Shape(state, path, paint);
        if (shape is null || !(ink >= Clear ? _ground.Unite(shape) : _ground.Cut(shape)))
        {
            _whyNot = work.IsSpent ? TooMany : Tangled;
        }
    }

    /// <summary>What a paint covers, in the grid's units; null when the outlines defeat the drawing library.</summary>
    private SKPath? Shape(State state, SKPath path, Shim.SKPaint paint)
    {
        var outline = path;
        if (paint.Style != Shim.SKPaintStyle.Fill)
        {
            using var pen = model.ToSKPaint(paint);
            if (pen is null || (pen.StrokeWidth <= 0 && paint.Style == Shim.SKPaintStyle.Stroke))
            {
                return new SKPath();
            }

            // Strokes are widened in their own units, finely enough for the size they come out at.
            var m = state.Matrix;
            var scale = Math.Sqrt(Math.Abs((m.ScaleX * m.ScaleY) - (m.SkewX * m.SkewY)));
            outline = pen.GetFillPath(path, (float)Math.Max(scale, 1e-3) * 4);
            if (outline is null)
            {
                return null;
            }
        }

        var moved = new SKPath();
        outline.Transform(state.Matrix, moved);
        var inside = state.Clip.TightBounds;
        return inside.IsEmpty ? new SKPath()
            : state.Clip.IsRect && inside.Contains(moved.TightBounds) ? moved
            : moved.Op(state.Clip, SKPathOp.Intersect);
    }

    private State Clip(State state, SKPath clip, Shim.SKClipOperation operation)
    {
        var moved = new SKPath();
        clip.Transform(state.Matrix, moved);
        var how = operation == Shim.SKClipOperation.Difference ? SKPathOp.Difference : SKPathOp.Intersect;
        var rest = state.Clip.Op(moved, how);
        if (rest is null)
        {
            _whyNot ??= Tangled;
        }

        return state with
        {
            Clip = rest ?? state.Clip,
        };
    }

    private static string Hex(Shim.SKColor colour) => $"{colour.Red:x2}{colour.Green:x2}{colour.Blue:x2}";

    private static Shim.SKColor Colour(Shim.SKPaint paint) =>
        paint.Shader is Shim.ColorShader plain ? plain.Color : paint.Color ?? new Shim.SKColor(0, 0, 0, byte.MaxValue);

    private static Sentence? WhyNotPaint(Shim.SKPaint paint) =>
        paint.Shader switch
        {
            null or Shim.ColorShader => WhyNotBlend(paint),
            Shim.PictureShader => "Some of it is filled with a pattern.",
            _ => "Some of it is filled with a gradient.",
        };

    private static Sentence? WhyNotBlend(Shim.SKPaint paint) =>
        paint.ImageFilter is not null ? "Some of it is drawn through a filter (a blur, a shadow)."
        : paint.ColorFilter is not null || paint.BlendMode is Shim.SKBlendMode.DstIn
            ? "Some of it is drawn through a mask."
        : paint.BlendMode is not Shim.SKBlendMode.SrcOver ? "Some of its colours are blended with what lies below."
        : null;

    private static Sentence? WhyNotLayer(Shim.SKPaint paint) =>
        WhyNotPaint(paint) ?? (paint.Color is { Alpha: < Covering } ? "Some of it is painted semi-transparent." : null);

    private static SKPath Rectangle(SKRect rect)
    {
        using var builder = new SKPathBuilder();
        builder.AddRect(rect);
        return builder.Detach();
    }
}
