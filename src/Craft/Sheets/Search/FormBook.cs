using System.Globalization;
using System.Text;
using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Sheets.Search;

/// <summary>Every shape at every allowed turn, each kept once: copies, equal designs and symmetric turns share a form.</summary>
internal sealed class FormBook
{
    // Rounding noise of turned coordinates, in micrometres: a box this much too large still counts as fitting.
    private const double Noise = 1e-6;

    private readonly List<Form> _forms = [];
    private readonly Dictionary<string, Form> _byOutline = [];
    private readonly bool _alongX;
    private readonly double _halfGap;

    /// <param name="problem">The pieces and their gap.</param>
    public FormBook(SheetProblem problem)
    {
        _alongX = problem.StripHeight is not null;
        _halfGap = problem.Gap.InMillimetres / 2;
        Ways = [.. problem.Pieces.Select(piece => WaysOf(piece, piece.Turns ?? problem.Turns))];
    }

    /// <summary>The ways to lay each piece.</summary>
    public Way[][] Ways { get; }

    /// <summary>How many forms there are.</summary>
    public int Count => _forms.Count;

    /// <summary>Turns tried where any angle is allowed: quarters, the sides of the hull laid straight, and steps of 30°.</summary>
    internal static IReadOnlyList<double> FreeTurns(Region outline)
    {
        var hull = Rings.ConvexHull(outline.Outer);
        var sides = Enumerable
            .Range(0, hull.Length)
            .Select(i => hull[(i + 1) % hull.Length] - hull[i])
            .OrderByDescending(d => (d.X * d.X) + (d.Y * d.Y))
            .Take(3)
            .Select(d => Math.Round(-SameTrigonometry.Angle(d.Y, d.X) * 180 / Math.PI, 3));
        var turns = new List<double> { 0, 90, 180, 270 };
        foreach (var side in sides.SelectMany(s => (double[])[s, s + 90, s + 180, s + 270]))
        {
            turns.Add(Turn.Clockwise(side).Degrees);
        }

        turns.AddRange([30, 60, 120, 150, 210, 240, 300, 330]);
        return [.. turns.Distinct()];
    }

    private Way[] WaysOf(Piece piece, Turns turns)
    {
        // Quarters first, whatever order they were given in: the searches try them before the others.
        var degrees = (turns.Free ? FreeTurns(piece.Outline) : turns.Degrees).OrderBy(d => d % 90 != 0);
        var rings = Outward.Rings(piece.Outline);
        var depth = Math.Min(0.1, _halfGap * 0.08);
        var grown = Simplified(rings, depth).SelectMany(ring => Outward.Grow(ring, _halfGap)).ToList();
        var ways = new List<Way>();
        foreach (var turn in degrees.Select(Turn.Clockwise).DistinctBy(t => t.Degrees))
        {
            var way = WayOf(rings, grown, turn);
            if (ways.TrueForAll(w => w.Form != way.Form))
            {
                ways.Add(way);
            }
        }

        return [.. ways];
    }

    // Traced artwork has thousands of points; a little film is given up so that the search stays quick.
    private static List<PointMm[]> Simplified(List<PointMm[]> rings, double depth)
    {
        var simple = rings.ConvertAll(ring => Outward.Simplify(ring, depth));
        for (var i = 0; i < 3 && depth > 0 && simple.Sum(ring => ring.Length) > 120; i++)
        {
            depth = Math.Min(0.3, depth * 1.8);
            simple = simple.ConvertAll(ring => Outward.Simplify(ring, depth));
        }

        return simple;
    }

    private Way WayOf(List<PointMm[]> rings, List<PointMm[]> grown, Turn turn)
    {
        var outline = rings.ConvertAll(ring => InFrame(ring, turn, new(0, 0)));
        var box = BoxMm.Around(outline[0]);
        var corner = new PointMm(Math.Floor(box.Left + Noise), Math.Floor(box.Top + Noise));
        var key = Key(outline, corner);
        if (!_byOutline.TryGetValue(key, out var form))
        {
            form = new(
                _forms.Count,
                () => Slabs.Of(grown.ConvertAll(ring => InFrame(ring, turn, corner))),
                (long)Math.Ceiling(box.Right - corner.X - Noise),
                (long)Math.Ceiling(box.Bottom - corner.Y - Noise)
            );
            _forms.Add(form);
            _byOutline.Add(key, form);
        }

        return new(form, turn, (long)corner.X, (long)corner.Y);
    }

    // Swapping x and y turns a ring over, so it is run backwards to keep its material on the positive side.
    private PointMm[] InFrame(PointMm[] ring, Turn turn, PointMm corner)
    {
        var points = new PointMm[ring.Length];
        for (var i = 0; i < ring.Length; i++)
        {
            var p = turn.Of(ring[i]);
            var (u, v) = _alongX ? (p.X, p.Y) : (p.Y, p.X);
            points[_alongX ? i : ring.Length - 1 - i] = new((u * 1000) - corner.X, (v * 1000) - corner.Y);
        }

        return points;
    }

    // The same outline, whatever point it starts from, to a thousandth of a micrometre.
    private static string Key(List<PointMm[]> rings, PointMm corner)
    {
        var text = new StringBuilder();
        foreach (var ring in rings)
        {
            var points = Array.ConvertAll(
                ring,
                p => (X: Math.Round(p.X - corner.X, 3) + 0.0, Y: Math.Round(p.Y - corner.Y, 3) + 0.0)
            );
            var start = 0;
            for (var i = 1; i < points.Length; i++)
            {
                start = points[i].CompareTo(points[start]) < 0 ? i : start;
            }

            for (var i = 0; i < points.Length; i++)
            {
                var (x, y) = points[(start + i) % points.Length];
                text.Append(CultureInfo.InvariantCulture, $"{x} {y},");
            }

            text.Append(';');
        }

        return text.ToString();
    }
}
