using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Sheets.Search.Overlap;

namespace Coldpeel.Craft.Sheets.Search.Exact;

/// <summary>Fills sheets to the last corner, for pieces without a gap whose area is just that of whole sheets.</summary>
/// <remarks>
/// Where nothing may be left over, the first free point of a sheet (least along, then least across) is a corner of what lies there or of the
/// sheet, and the piece that takes it has a corner there and a side along the free angle's first edge. So few pieces come into question at each
/// step, and a search that takes steps back (depth first) finds the fit, or none within its steps.
/// </remarks>
internal sealed class ExactFit
{
    private const double Whole = 1e-7;

    private readonly CornerShape[][] _shapes;
    private readonly int[] _left;
    private readonly Slices _slices = new();
    private readonly long _lengthU;
    private readonly long _lengthV;
    private readonly List<List<(CornerShape Shape, int Piece, long U, long V)>> _sheets = [];
    private readonly double[] _area;
    private readonly double _sheetArea;
    private double _filled;

    private ExactFit(SheetProblem problem, FormBook book, IReadOnlyList<int> copies)
    {
        _left = [.. copies];
        _shapes =
        [
            .. problem.Pieces.Select((p, i) => Array.ConvertAll(book.Ways[i], w => CornerShape.Of(p.Outline, w))),
        ];
        _area = [.. problem.Pieces.Select(p => Rings.Area(p.Outline) * 1e6)];
        (_lengthU, _lengthV) = Trial.Printable(problem, 0);
        _sheetArea = (double)_lengthU * _lengthV;
    }

    /// <summary>Whether the pieces could fill whole sheets without a rest.</summary>
    public static bool Possible(SheetProblem problem, IReadOnlyList<int> copies)
    {
        if (
            problem.Gap.InMillimetres > 0
            || problem.StripHeight is not null
            || problem.Sheets.Length != 1
            || problem.Pieces.Any(p => !p.Outline.Holes.IsDefaultOrEmpty)
        )
        {
            return false;
        }

        var area = problem.Pieces.Select((p, i) => copies[i] * Rings.Area(p.Outline)).Sum();
        var (u, v) = Trial.Printable(problem, 0);
        var sheets = area / (u * (double)v / 1e6);
        return sheets > 0.5
            && Math.Abs(sheets - Math.Round(sheets)) < Whole
            && Math.Round(sheets) <= (problem.Sheets[0].Count ?? int.MaxValue);
    }

    /// <summary>The fit, or null where none was found.</summary>
    /// <param name="problem">A job for which a fit is <see cref="Possible"/>.</param>
    /// <param name="book">Its forms.</param>
    /// <param name="copies">How many copies of each piece are laid.</param>
    /// <param name="trial">Opens and scores sheets.</param>
    /// <param name="budget">Pieces to lay, steps back included.</param>
    public static TrialResult? Find(
        SheetProblem problem,
        FormBook book,
        IReadOnlyList<int> copies,
        Trial trial,
        Budget budget
    )
    {
        var fit = new ExactFit(problem, book, copies);
        if (!fit.Fill(budget))
        {
            return null;
        }

        var sheets = fit._sheets.ConvertAll(laid =>
        {
            var sheet = trial.Open(0);
            laid.ForEach(l => sheet.Put(new(l.Piece, l.Shape.Way, l.U, l.V)));
            return sheet;
        });
        return new(sheets, [], trial.Score(sheets, 0));
    }

    /// <summary>Lays the next piece, and all after it; false, with nothing changed, where that does not go.</summary>
    private bool Fill(Budget budget)
    {
        if (Array.TrueForAll(_left, n => n == 0))
        {
            return true;
        }

        var opened = _sheets.Count == 0 || _filled > _sheetArea * (1 - Whole);
        var before = _filled;
        if (opened)
        {
            _sheets.Add([]);
            _filled = 0;
        }

        if (FirstFree() is { } free)
        {
            foreach (var (piece, shape, corner) in Fitting(free))
            {
                if (budget.Spent)
                {
                    break;
                }

                budget.Count();
                var u = (long)Math.Round(free.At.X - shape.Ring[corner].X);
                var v = (long)Math.Round(free.At.Y - shape.Ring[corner].Y);
                if (!Clear(shape, u, v))
                {
                    continue;
                }

                _sheets[^1].Add((shape, piece, u, v));
                _left[piece]--;
                _filled += _area[piece];
                if (Fill(budget))
                {
                    return true;
                }

                _filled -= _area[piece];
                _left[piece]++;
                _sheets[^1].RemoveAt(_sheets[^1].Count - 1);
            }
        }

        if (opened)
        {
            _sheets.RemoveAt(_sheets.Count - 1);
            _filled = before;
        }

        return false;
    }

    /// <summary>Pieces with a corner for the free point, the largest first; equal forms are tried once.</summary>
    private IEnumerable<(int Piece, CornerShape Shape, int Corner)> Fitting(
        (PointMm At, double From, double Angle) free
    )
    {
        var room = (_sheetArea * (1 + Whole)) - _filled;
        var tried = new HashSet<(int, int)>();
        foreach (
            var piece in Enumerable.Range(0, _left.Length).Where(p => _left[p] > 0).OrderByDescending(p => _area[p])
        )
        {
            if (_area[piece] > room)
            {
                continue;
            }

            foreach (var shape in _shapes[piece])
            {
                for (var corner = 0; corner < shape.Ring.Length; corner++)
                {
                    var off = Math.Abs(Math.IEEERemainder(shape.Leaving(corner) - free.From, 2 * Math.PI));
                    if (
                        off < Angles.Same
                        && shape.Inner(corner) < free.Angle + Angles.Same
                        && tried.Add((shape.Way.Form.Index, corner))
                    )
                    {
                        yield return (piece, shape, corner);
                    }
                }
            }
        }
    }

    private bool Clear(CornerShape shape, long u, long v)
    {
        var form = shape.Way.Form;
        if (u < 0 || v < 0 || u + form.ExtentU > _lengthU || v + form.ExtentV > _lengthV)
        {
            return false;
        }

        foreach (var laid in _sheets[^1])
        {
            foreach (var (from, to) in _slices.Forbidden(laid.Shape.Way.Form, form, v - laid.V))
            {
                // Rounded corners may share the micrometre they were rounded by.
                if (u - laid.U > from + 1 && u - laid.U < to - 1)
                {
                    return false;
                }
            }
        }

        return true;
    }

    /// <summary>The first point of the sheet round which something is free, with the free angle's first direction and its size.</summary>
    private (PointMm At, double From, double Angle)? FirstFree()
    {
        var laid = _sheets[^1];
        var corners = laid.SelectMany(l => l.Shape.Ring.Select(p => new PointMm(p.X + l.U, p.Y + l.V)))
            .Concat([new(0, 0), new(0, _lengthV), new(_lengthU, 0), new(_lengthU, _lengthV)])
            .OrderBy(p => Math.Round(p.X / Angles.TouchUm))
            .ThenBy(p => p.Y);
        foreach (var at in corners)
        {
            if (FreeRound(at, laid) is { } free)
            {
                return (at, free.From, free.Angle);
            }
        }

        return null;
    }

    private (double From, double Angle)? FreeRound(
        PointMm at,
        List<(CornerShape Shape, int Piece, long U, long V)> laid
    )
    {
        var covered = new List<(double From, double Angle)>(8);
        foreach (var (shape, _, u, v) in laid)
        {
            var form = shape.Way.Form;
            var there = new PointMm(at.X - u, at.Y - v);
            if (there.X > -2 && there.Y > -2 && there.X < form.ExtentU + 2 && there.Y < form.ExtentV + 2)
            {
                if (shape.Round(there) is { } sector)
                {
                    covered.Add(sector);
                }
            }
        }

        // Outside the sheet nothing is free.
        AddIf(at.X < Angles.TouchUm, Math.PI / 2);
        AddIf(at.X > _lengthU - Angles.TouchUm, -Math.PI / 2);
        AddIf(at.Y < Angles.TouchUm, Math.PI);
        AddIf(at.Y > _lengthV - Angles.TouchUm, 0);
        if (covered.Count == 0)
        {
            return null;
        }

        // Each covered sector's end may be where the free angle begins: it does where no other sector goes on.
        foreach (var (from, angle) in covered.OrderBy(c => Angles.Turned(-Math.PI / 2, c.From + c.Angle)))
        {
            var end = from + angle;
            var next = covered.Min(c =>
                Math.Abs(Math.IEEERemainder(c.From - end, 2 * Math.PI)) < Angles.Same ? 0 : Angles.Turned(end, c.From)
            );
            var within = covered.Any(c =>
                Angles.Turned(c.From, end) is var t && t > Angles.Same && t < c.Angle - Angles.Same
            );
            if (!within && next > Angles.Same)
            {
                return (Math.IEEERemainder(end, 2 * Math.PI), next);
            }
        }

        return null;

        void AddIf(bool border, double from)
        {
            if (border)
            {
                covered.Add((from, Math.PI));
            }
        }
    }
}
