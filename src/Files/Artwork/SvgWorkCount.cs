using Shim = ShimSkiaSharp;

namespace Coldpeel.Files.Artwork;

/// <summary>Counts the work of drawing an SVG, command by command. Figures measured as those of <see cref="SvgReadWork"/>.</summary>
internal sealed class SvgWorkCount(double pageWidth, double pageHeight)
{
    private const double Command = 0.3e-6;
    private const double Corner = 0.2e-6;
    private const double Dash = 2.5e-6;
    private const double Letter = 5e-6;
    private const double SparseEdge = 0.12e-6;
    private const double DenseEdge = 1e-6;
    private const double Plain = 0.3e-9;
    private const double Painted = 12e-9;
    private const double Layer = 35e-9;

    /// <summary>The drawing library draws no more dashes of one outline than this: it leaves them off.</summary>
    private const double MostDashes = 1e6;

    /// <summary>Commands gone through at most, nested ones as often as they are drawn.</summary>
    private const int MostCommands = 3_000_000;

    private int _commands;
    private double _open;
    private double _mostOpen;

    private readonly record struct Place(Shim.SKMatrix Matrix, Shim.SKRect Clip, double Opened);

    public SvgDrawWork Of(Shim.SKPicture picture) =>
        Of(picture, new(Shim.SKMatrix.CreateIdentity(), new(0, 0, (float)pageWidth, (float)pageHeight), 0)) with
        {
            Bytes = 4 * _mostOpen,
        };

    private SvgDrawWork Of(Shim.SKPicture picture, Place place)
    {
        var sum = default(SvgDrawWork);
        var saved = new Stack<Place>();
        foreach (var command in picture.Commands ?? [])
        {
            if (++_commands > MostCommands)
            {
                return new(1e9, 0, 0, 0, 0);
            }

            sum += new SvgDrawWork(Command, 0, 0, 0, 0);
            switch (command)
            {
                case Shim.SaveLayerCanvasCommand layer:
                    saved.Push(place);
                    var bounds = layer.Bounds is { } b ? Meet(Moved(b, place.Matrix), place.Clip) : place.Clip;
                    var area = Size(bounds);
                    place = place with { Opened = area };
                    _mostOpen = Math.Max(_mostOpen, _open += area);
                    sum += Through(layer.Paint, place, area) + new SvgDrawWork(0, 0, Layer * area, 0, 0);
                    break;
                case Shim.SaveCanvasCommand:
                    saved.Push(place);
                    place = place with { Opened = 0 };
                    break;
                case Shim.RestoreCanvasCommand when saved.Count > 0:
                    _open -= place.Opened;
                    place = saved.Pop();
                    break;
                case Shim.SetMatrixCanvasCommand set:
                    place = place with { Matrix = place.Matrix.PreConcat(set.DeltaMatrix) };
                    break;
                case Shim.ClipRectCanvasCommand { Operation: Shim.SKClipOperation.Intersect } cut:
                    place = place with { Clip = Meet(Moved(cut.Rect, place.Matrix), place.Clip) };
                    break;
                case Shim.ClipPathCanvasCommand { ClipPath: { } clip }:
                    sum += Clip(clip, place, 0);
                    break;
                case Shim.DrawPathCanvasCommand { Path: { } path, Paint: { } paint }:
                    sum += Path(path, paint, place);
                    break;
                case Shim.DrawPictureCanvasCommand { Picture: { } nested }:
                    sum += Of(nested, place with { Opened = 0 });
                    break;
                case Shim.DrawImageCanvasCommand image:
                    var shown = Size(Meet(Moved(image.Dest, place.Matrix), place.Clip));
                    sum += new SvgDrawWork(Letter, 0, Painted * shown, 0, 0) + Through(image.Paint, place, shown);
                    break;
                case Shim.DrawTextCanvasCommand text:
                    sum += Letters(text.Text?.Length ?? 0, text.Paint, text.Font, place);
                    break;
                case Shim.DrawTextBlobCanvasCommand text:
                    sum += Letters(text.TextBlob?.Points?.Length ?? 0, text.Paint, text.TextBlob?.Font, place);
                    break;
                case Shim.DrawTextOnPathCanvasCommand text:
                    sum += Letters(text.Text?.Length ?? 0, text.Paint, text.Font, place);
                    break;
                case Shim.DrawPositionedTextRunCanvasCommand text:
                    sum += Letters(text.Fragments?.Sum(f => f.Text?.Length ?? 0) ?? 0, text.Paint, text.Font, place);
                    break;
                default:
                    break;
            }
        }

        return sum;
    }

    private SvgDrawWork Path(Shim.SKPath path, Shim.SKPaint paint, Place place)
    {
        var matrix = place.Matrix;
        var box = Moved(path.Bounds, matrix);
        var stroked = paint.Style != Shim.SKPaintStyle.Fill;
        var scale = Scale(matrix);
        var pen = stroked ? Math.Max(0, paint.StrokeWidth) * scale : 0;
        box = new(box.Left - (float)pen, box.Top - (float)pen, box.Right + (float)pen, box.Bottom + (float)pen);
        var (corners, length) = Measure(path, matrix);
        var seen = Meet(box, place.Clip);
        var area = Size(seen);
        var own = new SvgDrawWork(Corner * corners * (stroked ? 8 : 1), 0, 0, 0, 0);
        if (paint.PathEffect is Shim.DashPathEffect { Intervals: { Length: > 0 } gaps } && stroked)
        {
            var period = gaps.Sum(g => (double)Math.Max(0, g)) * scale / gaps.Length * 2;
            own += new SvgDrawWork(Dash * Math.Min(length / Math.Max(period, 1e-9), MostDashes), 0, 0, 0, 0);
        }

        if (area <= 0)
        {
            return own;
        }

        // Edges lie at most as long on the page as all of its rows for each corner; a stroke has two sides and ends.
        var down = Math.Max(seen.Height, 1e-6);
        var edges = Math.Min(length, corners * (double)down) * (stroked ? 2 : 1) + (stroked ? corners * pen : 0);
        var crossing = Math.Clamp(edges / down / 1000, 0, 1);
        own += new SvgDrawWork(0, edges * (SparseEdge + (crossing * (DenseEdge - SparseEdge))), 0, 0, 0);
        return own + Paint(paint, place, Math.Min(area, stroked ? Math.Max(pen, 1) * length * 2 : area));
    }

    private SvgDrawWork Paint(Shim.SKPaint paint, Place place, double area)
    {
        var plain = paint.Shader is null or Shim.ColorShader && paint.BlendMode == Shim.SKBlendMode.SrcOver;
        var own = new SvgDrawWork(0, 0, (plain ? Plain : Painted) * area, 0, 0) + Through(paint, place, area);
        // A tile is drawn once for every paint, however often it is laid.
        return paint.Shader is Shim.PictureShader { Src: { } tile } pattern
            ? own + Of(tile, new(place.Matrix.PreConcat(pattern.LocalMatrix), place.Clip, 0))
            : own;
    }

    /// <summary>What filters make of an area; a filter may spread over all that is open to it.</summary>
    private SvgDrawWork Through(Shim.SKPaint? paint, Place place, double area)
    {
        var sum = paint?.ColorFilter is null ? default : new SvgDrawWork(0, 0, Painted * area, 0, 0);
        if (paint?.ImageFilter is not { } filter)
        {
            return sum;
        }

        // Every step keeps a picture of its own until the next one is done.
        _mostOpen = Math.Max(_mostOpen, _open + (4 * area));
        return sum
            + new SvgFilterWork(Scale(place.Matrix), nested => Of(nested, place with { Opened = 0 })).Of(filter, area);
    }

    private static SvgDrawWork Clip(Shim.ClipPath clip, Place place, int depth)
    {
        var sum = new SvgDrawWork(0, 0, Plain * Size(place.Clip), 0, 0);
        foreach (var part in clip.Clips ?? [])
        {
            if (part.Path is { } path)
            {
                var (corners, length) = Measure(path, place.Matrix);
                var edges = Math.Min(length, corners * (double)place.Clip.Height);
                sum += new SvgDrawWork(Corner * corners * 8, DenseEdge * edges, 0, 0, 0);
            }

            sum +=
                part.Clip is { } inner && depth < SvgDocumentCheck.DeepestNesting
                    ? Clip(inner, place, depth + 1)
                    : default;
        }

        return clip.Clip is { } outer && depth < SvgDocumentCheck.DeepestNesting
            ? sum + Clip(outer, place, depth + 1)
            : sum;
    }

    private SvgDrawWork Letters(int count, Shim.SKPaint? paint, Shim.SKFont? font, Place place)
    {
        var size = Math.Min((font?.Size ?? paint?.TextSize ?? 0) * Scale(place.Matrix), 4 * (pageWidth + pageHeight));
        var area = Math.Min(count * size * size * 0.6, Size(place.Clip) * Math.Min(count, 100));
        return new SvgDrawWork(Letter * count, SparseEdge * 8 * size * count, Plain * area, 0, 0)
            + (paint is null ? default : Paint(paint, place, area));
    }

    /// <summary>Corners of a path, and the length of its edges in units of the page; those of curves by their frames.</summary>
    private static (double Corners, double Length) Measure(Shim.SKPath path, Shim.SKMatrix m)
    {
        var (corners, length) = (0.0, 0.0);
        var (x, y) = (0.0, 0.0);
        void To(double u, double v)
        {
            var (dx, dy) = (u - x, v - y);
            length += Hypot((m.ScaleX * dx) + (m.SkewX * dy), (m.SkewY * dx) + (m.ScaleY * dy));
            (x, y) = (u, v);
        }

        void Round(Shim.SKRect r)
        {
            length += 2 * Scale(m) * (Math.Abs(r.Width) + Math.Abs(r.Height));
            corners += 7;
        }

        foreach (var step in path.Commands ?? [])
        {
            corners++;
            switch (step)
            {
                case Shim.MoveToPathCommand move:
                    (x, y) = (move.X, move.Y);
                    break;
                case Shim.LineToPathCommand line:
                    To(line.X, line.Y);
                    break;
                case Shim.QuadToPathCommand quad:
                    corners += 3;
                    To(quad.X0, quad.Y0);
                    To(quad.X1, quad.Y1);
                    break;
                case Shim.CubicToPathCommand cubic:
                    corners += 3;
                    To(cubic.X0, cubic.Y0);
                    To(cubic.X1, cubic.Y1);
                    To(cubic.X2, cubic.Y2);
                    break;
                case Shim.ArcToPathCommand arc:
                    corners += 7;
                    length += 4 * Scale(m) * (Math.Abs(arc.Rx) + Math.Abs(arc.Ry));
                    To(arc.X, arc.Y);
                    break;
                case Shim.AddCirclePathCommand circle:
                    Round(new(0, 0, 2 * circle.Radius, 2 * circle.Radius));
                    break;
                case Shim.AddOvalPathCommand oval:
                    Round(oval.Rect);
                    break;
                case Shim.AddRectPathCommand rect:
                    Round(rect.Rect);
                    break;
                case Shim.AddRoundRectPathCommand rect:
                    Round(rect.Rect);
                    break;
                case Shim.AddPolyPathCommand { Points: { } points }:
                    corners += points.Count;
                    for (var i = 0; i < points.Count; i++)
                    {
                        if (i == 0)
                        {
                            (x, y) = (points[0].X, points[0].Y);
                        }

                        To(points[i].X, points[i].Y);
                    }

                    break;
                default:
                    break;
            }
        }

        return (corners, double.IsFinite(length) ? length : 1e12);
    }

    private static double Scale(Shim.SKMatrix m) => Math.Max(Hypot(m.ScaleX, m.SkewY), Hypot(m.SkewX, m.ScaleY));

    private static double Hypot(double a, double b) => Math.Sqrt((a * a) + (b * b));

    private static double Size(Shim.SKRect r) => Math.Max(0, (double)r.Width) * Math.Max(0, (double)r.Height);

    private static Shim.SKRect Meet(Shim.SKRect a, Shim.SKRect b)
    {
        var (left, top) = (Math.Max(a.Left, b.Left), Math.Max(a.Top, b.Top));
        return new(left, top, Math.Max(left, Math.Min(a.Right, b.Right)), Math.Max(top, Math.Min(a.Bottom, b.Bottom)));
    }

    private static Shim.SKRect Moved(Shim.SKRect r, Shim.SKMatrix m)
    {
        Span<(float X, float Y)> corners = [(r.Left, r.Top), (r.Right, r.Top), (r.Right, r.Bottom), (r.Left, r.Bottom)];
        var (left, top, right, bottom) = (float.MaxValue, float.MaxValue, float.MinValue, float.MinValue);
        foreach (var (x, y) in corners)
        {
            var (u, v) = ((m.ScaleX * x) + (m.SkewX * y) + m.TransX, (m.SkewY * x) + (m.ScaleY * y) + m.TransY);
            (left, top, right, bottom) = (Math.Min(left, u), Math.Min(top, v), Math.Max(right, u), Math.Max(bottom, v));
        }

        return new(left, top, right, bottom);
    }
}
