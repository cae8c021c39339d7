using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>A contour for every form of a problem.</summary>
internal sealed class ContourBook
{
    // Contours are single precision: grown this much more, and a millionth of their size, pieces that do not overlap keep their gap.
    private const double Safety = 0.0002;
    private const double SafetyOfSize = 1e-6;

    // Without a gap pieces may touch: drawn this much smaller, well within what a judge lets pass, shared edges are no overlap.
    private const double Touch = 0.0003;
    private const double Exact = 1500;
    private const int ManyPoints = 56;

    private readonly Contour?[] _byForm;
    private readonly (int Piece, Way Way)[] _asked;
    private readonly Lazy<(List<PointMm[]> Rings, Pole[] Poles)>[] _grown;
    private readonly bool _alongX;
    private readonly Lock _making = new();

    /// <param name="problem">The pieces and their gap.</param>
    /// <param name="book">Their forms.</param>
    public ContourBook(SheetProblem problem, FormBook book)
    {
        _byForm = new Contour?[book.Count];
        _asked = new (int, Way)[book.Count];
        _alongX = problem.StripHeight is not null;
        var half = problem.Gap.InMillimetres / 2;
        _grown =
        [
            .. problem.Pieces.Select(p => new Lazy<(List<PointMm[]>, Pole[])>(() =>
            {
                var rings = Grown(p.Outline, half);
                return (rings, PoleFinder.Find(rings));
            })),
        ];
        for (var piece = problem.Pieces.Length - 1; piece >= 0; piece--)
        {
            foreach (var way in book.Ways[piece])
            {
                _asked[way.Form.Index] = (piece, way);
            }
        }
    }

    /// <summary>The contour of a form, made when first asked for: of many turns few are. May be asked by several threads.</summary>
    public Contour this[Form form] => _byForm[form.Index] ?? Made(form.Index);

    private Contour Made(int form)
    {
        lock (_making)
        {
            var (piece, way) = _asked[form];
            var (rings, poles) = _grown[piece].Value;
            return _byForm[form] ??= Turned(rings, poles, way, _alongX);
        }
    }

    private static List<PointMm[]> Grown(Region outline, double half)
    {
        // What the exact forms gave up for fewer points (a twelfth of half the gap, at most 0.3 mm) is given up here too.
        var depth = Math.Min(0.1, half * 0.08);
        var rings = Simplified(outline, depth);
        for (var k = 0; k < 3 && half > 0 && rings.Outer.Length > ManyPoints; k++)
        {
            depth = Math.Min(0.3, depth * 1.8);
            rings = Simplified(outline, depth);
        }

        var size = Math.Max(outline.Box.Width, outline.Box.Height);
        if (half == 0 && size < Exact)
        {
            return Outward.Rings(Shrunk(rings, Touch / size));
        }

        var grown = Offsets.Grow(rings, half + Math.Max(Safety, SafetyOfSize * size));
        return Outward.Rings(grown).ConvertAll(ring => Outward.Simplify(ring, Math.Max(1e-6, depth / 2)));
    }

    private static Region Simplified(Region outline, double depth)
    {
        var rings = Outward.Rings(outline).ConvertAll(ring => Outward.Simplify(ring, depth));
        return new(
            [.. rings[0]],
            [.. rings.Skip(1).Select(ring => (System.Collections.Immutable.ImmutableArray<PointMm>)[.. ring])]
        );
    }

    /// <summary>Drawn towards the middle of its box.</summary>
    private static Region Shrunk(Region region, double share)
    {
        var box = region.Box;
        var middle = new PointMm((box.Left + box.Right) / 2, (box.Top + box.Bottom) / 2);
        PointMm In(PointMm p) => new(p.X + ((middle.X - p.X) * share), p.Y + ((middle.Y - p.Y) * share));
        return new(
            [.. region.Outer.Select(In)],
            [.. region.Holes.Select(hole => (System.Collections.Immutable.ImmutableArray<PointMm>)[.. hole.Select(In)])]
        );
    }

    private static Contour Turned(List<PointMm[]> grown, Pole[] poles, Way way, bool alongX)
    {
        var corner = new PointMm(way.OffsetU / 1000.0, way.OffsetV / 1000.0);
        PointMm InFrame(PointMm p)
        {
            var turned = way.Turn.Of(p);
            return (alongX ? turned : new(turned.Y, turned.X)) - corner;
        }

        var rings = grown.ConvertAll(ring => Array.ConvertAll(ring, InFrame));
        var there = Array.ConvertAll(
            poles,
            pole => InFrame(new(pole.X, pole.Y)) is var at ? new Pole(at.X, at.Y, pole.Radius) : pole
        );
        return Contour.Of(rings, there, way.Form.ExtentU / 1000.0, way.Form.ExtentV / 1000.0);
    }
}
