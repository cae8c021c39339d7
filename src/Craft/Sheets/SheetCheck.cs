using System.Globalization;
using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Sheets;

/// <summary>The judge of sheet plans: own arithmetic, nothing shared with the planner.</summary>
/// <remarks>Lengths may be off by <see cref="ToleranceMm"/>, angles by a millionth of a degree.</remarks>
public static class SheetCheck
{
    /// <summary>What a length may be off by, in mm: half a hair's hundredth, and the step of a shift.</summary>
    public const double ToleranceMm = 0.001;

    /// <summary>Everything that is wrong with the plan, a sentence each; empty when it is sound.</summary>
    public static IReadOnlyList<string> Faults(SheetProblem problem, SheetPlan plan)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(plan);
        var faults = new List<string>();
        Counted(problem, plan, faults);
        Stocked(problem, plan, faults);
        var shapes = new List<Shape>[plan.Sheets.Length];
        for (var s = 0; s < shapes.Length; s++)
        {
            shapes[s] = [];
        }

        foreach (var placed in plan.Placed)
        {
            if (placed.Sheet < 0 || placed.Sheet >= plan.Sheets.Length || !Known(problem, placed.Piece))
            {
                faults.Add(
                    Say($"Piece {placed.Piece} copy {placed.Copy} lies on sheet {placed.Sheet}, which is not there.")
                );
                continue;
            }

            Turned(problem, placed, faults);
            var shape = Shape.Of(problem.Pieces[placed.Piece], placed, problem.InRings);
            shapes[placed.Sheet].Add(shape);
            Inside(plan.Sheets[placed.Sheet], shape, faults);
        }

        foreach (var sheet in shapes)
        {
            Apart(problem, sheet, faults);
            if (problem.Trim == Trim.Straight && !CanBeCut(sheet, problem.Gap.InMillimetres))
            {
                faults.Add(Say($"The pieces with {sheet[0].Name} cannot be cut apart edge to edge."));
            }
        }

        return faults;
    }

    private static void Counted(SheetProblem problem, SheetPlan plan, List<string> faults)
    {
        var seen = new Dictionary<(int, int), int>();
        foreach (
            var key in plan.Placed.Select(p => (p.Piece, p.Copy)).Concat(plan.LeftOut.Select(p => (p.Piece, p.Copy)))
        )
        {
            seen[key] = seen.GetValueOrDefault(key) + 1;
            if (!Known(problem, key.Piece) || key.Copy < 0 || key.Copy >= problem.Pieces[key.Piece].Quantity)
            {
                faults.Add(Say($"Piece {key.Piece} copy {key.Copy} was never asked for."));
            }
        }

        for (var i = 0; i < problem.Pieces.Length; i++)
        {
            for (var copy = 0; copy < problem.Pieces[i].Quantity; copy++)
            {
                var times = seen.GetValueOrDefault((i, copy));
                if (times != 1)
                {
                    faults.Add(Say($"{problem.Pieces[i].Id} copy {copy} stands in the plan {times} times."));
                }
            }
        }

        foreach (var left in plan.LeftOut.Where(left => string.IsNullOrWhiteSpace(left.Why)))
        {
            faults.Add(Say($"Piece {left.Piece} copy {left.Copy} is left out without a reason."));
        }
    }

    private static void Stocked(SheetProblem problem, SheetPlan plan, List<string> faults)
    {
        foreach (var sheet in plan.Sheets)
        {
            if (sheet.Stock < 0 || sheet.Stock >= problem.Sheets.Length)
            {
                faults.Add(Say($"Sheet kind {sheet.Stock} is not there."));
                continue;
            }

            var stock = problem.Sheets[sheet.Stock];
            var right = problem.StripHeight is { } height
                ? sheet.Height == height && sheet.Margin == stock.Margin
                : sheet.Width == stock.Width && sheet.Height == stock.Height && sheet.Margin == stock.Margin;
            if (!right)
            {
                faults.Add(Say($"A sheet of kind {sheet.Stock} has another size than the stock."));
            }
        }

        for (var k = 0; k < problem.Sheets.Length; k++)
        {
            var used = plan.Sheets.Count(s => s.Stock == k);
            if (used > (problem.StripHeight is null ? problem.Sheets[k].Count ?? int.MaxValue : 1))
            {
                faults.Add(
                    Say($"{used} sheets of kind {k} are used, and there are only {problem.Sheets[k].Count ?? 1}.")
                );
            }
        }

        for (var s = 0; s < plan.Sheets.Length; s++)
        {
            if (!plan.Placed.Any(p => p.Sheet == s))
            {
                faults.Add(Say($"Sheet {s} is empty."));
            }
        }
    }

    private static bool Known(SheetProblem problem, int piece) => piece >= 0 && piece < problem.Pieces.Length;

    private static void Turned(SheetProblem problem, Placed placed, List<string> faults)
    {
        var piece = problem.Pieces[placed.Piece];
        var turns = piece.Turns ?? problem.Turns;
        var allowed =
            turns.Free || turns.Degrees.Any(d => Math.Abs(Math.IEEERemainder(d - placed.Turn.Degrees, 360)) < 1e-6);
        if (!allowed)
        {
            faults.Add(
                Say($"{piece.Id} copy {placed.Copy} is turned by {placed.Turn.Degrees}°, which is not allowed.")
            );
        }
    }

    private static void Inside(UsedSheet sheet, Shape shape, List<string> faults)
    {
        var margin = (sheet.Margin.Micrometres / 1000.0) - ToleranceMm;
        var right = (sheet.Width.Micrometres / 1000.0) - margin;
        var bottom = (sheet.Height.Micrometres / 1000.0) - margin;
        if (!(shape.X0 >= margin && shape.Y0 >= margin && shape.X1 <= right && shape.Y1 <= bottom))
        {
            faults.Add(Say($"{shape.Name} reaches beyond the printable area."));
        }
    }

    private static void Apart(SheetProblem problem, List<Shape> sheet, List<string> faults)
    {
        var gap = problem.Gap.Micrometres / 1000.0;
        for (var i = 0; i < sheet.Count; i++)
        {
            for (var j = i + 1; j < sheet.Count; j++)
            {
                var (a, b) = (sheet[i], sheet[j]);
                var boxes = Math.Max(Math.Max(a.X0 - b.X1, b.X0 - a.X1), Math.Max(a.Y0 - b.Y1, b.Y0 - a.Y1));
                if (boxes >= gap)
                {
                    continue;
                }

                if (a.Overlaps(b) || b.Overlaps(a))
                {
                    faults.Add(Say($"{a.Name} and {b.Name} overlap."));
                }
                else if (gap > 0 && a.Distance(b, gap) is var d && d < gap - ToleranceMm)
                {
                    faults.Add(Say($"{a.Name} and {b.Name} are {d:0.####} mm apart; the gap is {gap:0.###} mm."));
                }
            }
        }
    }

    // Boxes come apart when some straight cut with the gap around it meets none of them, and so on on either side.
    private static bool CanBeCut(List<Shape> boxes, double gap)
    {
        if (boxes.Count < 2)
        {
            return true;
        }

        foreach (var across in (ReadOnlySpan<bool>)[true, false])
        {
            var sorted = boxes.OrderBy(b => across ? b.X0 : b.Y0).ToList();
            var end = double.NegativeInfinity;
            for (var i = 0; i + 1 < sorted.Count; i++)
            {
                end = Math.Max(end, across ? sorted[i].X1 : sorted[i].Y1);
                if ((across ? sorted[i + 1].X0 : sorted[i + 1].Y0) - end >= gap - ToleranceMm)
                {
                    // A cut that can be made never stands in the way of another: take the first.
                    return CanBeCut(sorted[..(i + 1)], gap) && CanBeCut(sorted[(i + 1)..], gap);
                }
            }
        }

        return false;
    }

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    /// <summary>A copy where it lies, as bare numbers.</summary>
    private sealed class Shape
    {
        private readonly List<(double X, double Y)[]> _rings = [];

        public required string Name { get; init; }

        public double X0 { get; private set; } = double.PositiveInfinity;

        public double Y0 { get; private set; } = double.PositiveInfinity;

        public double X1 { get; private set; } = double.NegativeInfinity;

        public double Y1 { get; private set; } = double.NegativeInfinity;

        public static Shape Of(Piece piece, Placed placed, bool open)
        {
            var shape = new Shape { Name = Say($"{piece.Id} copy {placed.Copy}") };
            var angle = placed.Turn.Degrees / 180 * Math.PI;
            var (cos, sin) = (Math.Cos(angle), Math.Sin(angle));
            (double X, double Y) Land(PointMm p) =>
                ((cos * p.X) - (sin * p.Y) + placed.Shift.X, (sin * p.X) + (cos * p.Y) + placed.Shift.Y);
            shape._rings.Add([.. piece.Outline.Outer.Select(Land)]);
            if (open)
            {
                shape._rings.AddRange(piece.Outline.Holes.Select(hole => hole.Select(Land).ToArray()));
            }

            foreach (var (x, y) in shape._rings[0])
            {
                shape.X0 = Math.Min(shape.X0, x);
                shape.Y0 = Math.Min(shape.Y0, y);
                shape.X1 = Math.Max(shape.X1, x);
                shape.Y1 = Math.Max(shape.Y1, y);
            }

            return shape;
        }

        /// <summary>Whether a corner or a middle of a side of the other lies deeper in this than the tolerance, or sides cross so.</summary>
        public bool Overlaps(Shape other)
        {
            foreach (var ring in other._rings)
            {
                for (var i = 0; i < ring.Length; i++)
                {
                    var (a, b) = (ring[i], ring[(i + 1) % ring.Length]);
                    if (Beyond(a, b, 0))
                    {
                        continue;
                    }

                    // A side is looked at between the points where it meets this shape's sides: each stretch is in or out.
                    var stops = new List<double> { 0, 1 };
                    foreach (var line in _rings)
                    {
                        for (var k = 0; k < line.Length; k++)
                        {
                            if (Meet(a, b, line[k], line[(k + 1) % line.Length]) is { } t)
                            {
                                stops.Add(t);
                            }
                        }
                    }

                    stops.Sort();
                    for (var k = 0; k + 1 < stops.Count; k++)
                    {
                        var t = (stops[k] + stops[k + 1]) / 2;
                        if (Holds((a.X + ((b.X - a.X) * t), a.Y + ((b.Y - a.Y) * t))))
                        {
                            return true;
                        }
                    }
                }
            }

            return Alike(other);
        }

        /// <summary>The distance to the other; infinite when it is not below <paramref name="gap"/>.</summary>
        public double Distance(Shape other, double gap)
        {
            var best = double.PositiveInfinity;
            foreach (var ring in _rings)
            {
                foreach (var line in other._rings)
                {
                    for (var i = 0; i < ring.Length; i++)
                    {
                        if (other.Beyond(ring[i], ring[(i + 1) % ring.Length], gap))
                        {
                            continue;
                        }

                        for (var k = 0; k < line.Length; k++)
                        {
                            best = Math.Min(best, FromSide(ring[i], line[k], line[(k + 1) % line.Length]));
                            best = Math.Min(best, FromSide(line[k], ring[i], ring[(i + 1) % ring.Length]));
                        }
                    }
                }
            }

            return best;
        }

        // Whether a side keeps clear of this shape's whole box.
        private bool Beyond((double X, double Y) a, (double X, double Y) b, double by) =>
            Math.Min(a.X, b.X) - X1 > by
            || X0 - Math.Max(a.X, b.X) > by
            || Math.Min(a.Y, b.Y) - Y1 > by
            || Y0 - Math.Max(a.Y, b.Y) > by;

        // Two copies exactly on one another share every side, and no side runs inside: look at one inner point.
        private bool Alike(Shape other)
        {
            var ring = other._rings[0];
            for (var i = 0; i < ring.Length; i++)
            {
                var (a, b, c) = (ring[i], ring[(i + 1) % ring.Length], ring[(i + 2) % ring.Length]);
                var middle = ((a.X + b.X + c.X) / 3, (a.Y + b.Y + c.Y) / 3);
                if (other.Holds(middle))
                {
                    return Holds(middle);
                }
            }

            return false;
        }

        private bool Holds((double X, double Y) p)
        {
            var crossings = 0;
            var near = double.PositiveInfinity;
            foreach (var ring in _rings)
            {
                for (var i = 0; i < ring.Length; i++)
                {
                    var (a, b) = (ring[i], ring[(i + 1) % ring.Length]);
                    near = Math.Min(near, FromSide(p, a, b));
                    if (a.Y <= p.Y != b.Y <= p.Y && a.X + ((p.Y - a.Y) / (b.Y - a.Y) * (b.X - a.X)) > p.X)
                    {
                        crossings++;
                    }
                }
            }

            return crossings % 2 == 1 && near > ToleranceMm;
        }

        private static double FromSide((double X, double Y) p, (double X, double Y) a, (double X, double Y) b)
        {
            var (dx, dy) = (b.X - a.X, b.Y - a.Y);
            var square = (dx * dx) + (dy * dy);
            var t = square > 0 ? Math.Min(1, Math.Max(0, (((p.X - a.X) * dx) + ((p.Y - a.Y) * dy)) / square)) : 0;
            return Math.Sqrt(Math.Pow(a.X + (t * dx) - p.X, 2) + Math.Pow(a.Y + (t * dy) - p.Y, 2));
        }

        // How far along a–b the line c–d is met, or null.
        private static double? Meet(
            (double X, double Y) a,
            (double X, double Y) b,
            (double X, double Y) c,
            (double X, double Y) d
        )
        {
            var (rx, ry, sx, sy) = (b.X - a.X, b.Y - a.Y, d.X - c.X, d.Y - c.Y);
            var cross = (rx * sy) - (ry * sx);
            if (cross == 0)
            {
                return null;
            }

            var t = (((c.X - a.X) * sy) - ((c.Y - a.Y) * sx)) / cross;
            var u = (((c.X - a.X) * ry) - ((c.Y - a.Y) * rx)) / cross;
            return t is > 0 and < 1 && u is >= 0 and <= 1 ? t : null;
        }
    }
}
