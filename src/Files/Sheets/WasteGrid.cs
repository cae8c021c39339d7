using Coldpeel.Craft.Geometry;

namespace Coldpeel.Files.Sheets;

/// <summary>The waste of a sheet on a fine grid: where a box is free, and which piece is nearest.</summary>
/// <remarks>
/// "Free" errs on the safe side: a box that is called free keeps the clearance to every ring exactly, because a cell is blocked
/// as soon as any point of it may lie within the clearance. "Nearest" is a chamfer distance (steps of 1 and √2 cells), good to 8 %:
/// it ranks places, it judges none.
/// </remarks>
internal sealed class WasteGrid
{
    private readonly double _cell;
    private readonly int _across;
    private readonly int _down;
    private readonly short[] _piece; // 0 waste, n the piece n - 1
    private readonly bool[] _blocked;
    private readonly List<BoxMm> _taken = [];
    private int[] _sums = [];
    private float[] _distance = [];
    private short[] _nearest = [];

    public WasteGrid(BoxMm area, double cellMm)
    {
        (Area, _cell) = (area, cellMm);
        _across = Math.Max(1, (int)Math.Ceiling((area.Width / cellMm) - 1e-9));
        _down = Math.Max(1, (int)Math.Ceiling((area.Height / cellMm) - 1e-9));
        _piece = new short[_across * _down];
        _blocked = new bool[_across * _down];
    }

    public BoxMm Area { get; }

    public double CellMm => _cell;

    /// <summary>Takes the inside of a ring, and everything within the clearance of it, out of the waste.</summary>
    public void Block(IReadOnlyList<PointMm> ring, int piece, double clearanceMm)
    {
        var id = (short)(piece + 1);
        Inside(ring, cell => (_piece[cell], _blocked[cell]) = (id, true));
        var half = _cell * Math.Sqrt(0.5);
        Along(ring, half, cell => _piece[cell] = id);
        Along(ring, clearanceMm + half, cell => _blocked[cell] = true);
    }

    /// <summary>Call once when all rings are in, before asking.</summary>
    public void Seal()
    {
        _sums = new int[(_across + 1) * (_down + 1)];
        for (var y = 0; y < _down; y++)
        {
            var row = 0;
            for (var x = 0; x < _across; x++)
            {
                row += _blocked[(y * _across) + x] ? 1 : 0;
                _sums[((y + 1) * (_across + 1)) + x + 1] = _sums[(y * (_across + 1)) + x + 1] + row;
            }
        }
    }

    /// <summary>A mark stands here now: others keep off by <paramref name="gapMm"/>.</summary>
    public void Take(BoxMm box, double gapMm) => _taken.Add(box.Grow(gapMm));

    /// <summary>The piece nearest to a point and about how far it is; -1 when the sheet is empty.</summary>
    public (int Piece, double Mm) Nearest(PointMm p)
    {
        // Half the work of a grid, and who only looks for room never asks.
        if (_nearest.Length == 0)
        {
            Spread();
        }

        var cell = Bordered(Column(p.X), Row(p.Y));
        return (_nearest[cell] - 1, _distance[cell] * _cell);
    }

    /// <summary>The first piece met when walking straight from a point, and how far it is; -1 when none is met within the reach.</summary>
    public (int Piece, double Mm) Meet(PointMm from, PointMm way, double reachMm)
    {
        for (var mm = 0.0; mm <= reachMm; mm += _cell)
        {
            var p = new PointMm(from.X + (way.X * mm), from.Y + (way.Y * mm));
            if (p.X < Area.Left || p.X > Area.Right || p.Y < Area.Top || p.Y > Area.Bottom)
            {
                return (-1, mm);
            }

            if (_piece[(Row(p.Y) * _across) + Column(p.X)] is var id && id > 0)
            {
                return (id - 1, mm);
            }
        }

        return (-1, reachMm);
    }

    /// <summary>The free place of a box with the least cost, within <paramref name="within"/>; null when there is none.</summary>
    /// <param name="width">Width in mm.</param>
    /// <param name="height">Height in mm.</param>
    /// <param name="within">Where to look.</param>
    /// <param name="cost">Infinite where the place will not do.</param>
    /// <param name="step">Every how many cells a place is tried.</param>
    public BoxMm? Cheapest(double width, double height, BoxMm within, Func<BoxMm, double> cost, int step = 1)
    {
        var (best, least) = ((BoxMm?)null, double.PositiveInfinity);
        var tops = Stops(Area.Top, Area.Bottom, within.Top, within.Bottom, height, step);
        var lefts = Stops(Area.Left, Area.Right, within.Left, within.Right, width, step);
        var columns = lefts.Select(l => (Left: l, From: Column(l), To: Column(l + width - 1e-9) + 1)).ToArray();
        foreach (var top in tops)
        {
            var (y0, y1) = (Row(top), Row(top + height - 1e-9) + 1);
            foreach (var (left, x0, x1) in columns)
            {
                // Nearly all places fail here, so this line decides how long the search takes.
                if (Blocked(x0, y0, x1, y1) == 0)
                {
                    var box = new BoxMm(left, top, left + width, top + height);
                    if (!IsTaken(box) && cost(box) is var c && c < least)
                    {
                        (best, least) = (box, c);
                    }
                }
            }
        }

        return best;
    }

    // Grid lines, and the far end of the range itself, so that a mark can lie flush with the printable border.
    private List<double> Stops(double areaFrom, double areaTo, double from, double to, double length, int step)
    {
        var (first, last) = (Math.Max(areaFrom, from), Math.Min(areaTo, to) - length);
        var stops = new List<double>();
        if (last < first)
        {
            return stops;
        }

        for (var i = Math.Ceiling((first - areaFrom) / _cell); areaFrom + (i * _cell) < last; i += step)
        {
            stops.Add(areaFrom + (i * _cell));
        }

        stops.Add(last);
        return stops;
    }

    private int Blocked(int x0, int y0, int x1, int y1)
    {
        var w = _across + 1;
        return _sums[(y1 * w) + x1] - _sums[(y0 * w) + x1] - _sums[(y1 * w) + x0] + _sums[(y0 * w) + x0];
    }

    private bool IsTaken(BoxMm box)
    {
        foreach (var taken in _taken)
        {
            if (taken.Meets(box))
            {
                return true;
            }
        }

        return false;
    }

    private int Column(double x) => Math.Clamp((int)Math.Floor((x - Area.Left) / _cell), 0, _across - 1);

    private int Row(double y) => Math.Clamp((int)Math.Floor((y - Area.Top) / _cell), 0, _down - 1);

    private PointMm Centre(int x, int y) => new(Area.Left + ((x + 0.5) * _cell), Area.Top + ((y + 0.5) * _cell));

    private void Inside(IReadOnlyList<PointMm> ring, Action<int> mark)
    {
        var crossings = new List<double>();
        var box = BoxMm.Around(ring);
        var (first, last) = (Row(box.Top), Row(box.Bottom));
        for (var y = first; y <= last; y++)
        {
            var level = Centre(0, y).Y;
            crossings.Clear();
            for (var i = 0; i < ring.Count; i++)
            {
                var (a, b) = (ring[i], ring[(i + 1) % ring.Count]);
                if ((a.Y <= level) != (b.Y <= level))
                {
                    crossings.Add(a.X + ((level - a.Y) / (b.Y - a.Y) * (b.X - a.X)));
                }
            }

            crossings.Sort();
            for (var i = 0; i + 1 < crossings.Count; i += 2)
            {
                var from = Math.Max(0, (int)Math.Ceiling(((crossings[i] - Area.Left) / _cell) - 0.5));
                var to = Math.Min(_across - 1, (int)Math.Floor(((crossings[i + 1] - Area.Left) / _cell) - 0.5));
                for (var x = from; x <= to; x++)
                {
                    mark((y * _across) + x);
                }
            }
        }
    }

    private void Along(IReadOnlyList<PointMm> ring, double reach, Action<int> mark)
    {
        for (var i = 0; i < ring.Count; i++)
        {
            var (a, b) = (ring[i], ring[(i + 1) % ring.Count]);
            var rows = (From: Row(Math.Min(a.Y, b.Y) - reach), To: Row(Math.Max(a.Y, b.Y) + reach));
            for (var y = rows.From; y <= rows.To; y++)
            {
                var level = Centre(0, y).Y;
                // The part of the edge that this row can feel, so that a long slanting edge does not sweep its whole box.
                var (t0, t1) = (0.0, 1.0);
                if (Math.Abs(b.Y - a.Y) > 1e-12)
                {
                    var (u, v) = ((level - reach - a.Y) / (b.Y - a.Y), (level + reach - a.Y) / (b.Y - a.Y));
                    (t0, t1) = (Math.Clamp(Math.Min(u, v), 0, 1), Math.Clamp(Math.Max(u, v), 0, 1));
                }

                var (p, q) = (a.X + (t0 * (b.X - a.X)), a.X + (t1 * (b.X - a.X)));
                var (from, to) = (Column(Math.Min(p, q) - reach), Column(Math.Max(p, q) + reach));
                for (var x = from; x <= to; x++)
                {
                    if (DistanceToEdge(Centre(x, y), a, b) <= reach)
                    {
                        mark((y * _across) + x);
                    }
                }
            }
        }
    }

    private static double DistanceToEdge(PointMm p, PointMm a, PointMm b)
    {
        var (dx, dy) = (b.X - a.X, b.Y - a.Y);
        var square = (dx * dx) + (dy * dy);
        var t = square > 0 ? Math.Clamp((((p.X - a.X) * dx) + ((p.Y - a.Y) * dy)) / square, 0, 1) : 0;
        return p.DistanceTo(new(a.X + (t * dx), a.Y + (t * dy)));
    }

    // Borgefors, "Distance transformations in digital images", CVGIP 34 (1986): two sweeps carry the nearest piece over the waste.
    private void Spread()
    {
        // A border of cells that know no piece goes round the grid: no neighbour has to be asked whether it is there.
        var stride = _across + 2;
        _distance = new float[stride * (_down + 2)];
        _nearest = new short[_distance.Length];
        Array.Fill(_distance, float.PositiveInfinity);
        for (var y = 0; y < _down; y++)
        {
            for (var x = 0; x < _across; x++)
            {
                if (_piece[(y * _across) + x] is var id && id > 0)
                {
                    var cell = Bordered(x, y);
                    (_distance[cell], _nearest[cell]) = (0, id);
                }
            }
        }

        Sweep(Bordered(0, 0), 1, stride);
        Sweep(Bordered(_across - 1, _down - 1), -1, -stride);
    }

    // Where a cell stands in the maps of distance and nearest piece, which have a border of one.
    private int Bordered(int x, int y) => ((y + 1) * (_across + 2)) + x + 1;

    // From a corner on, each cell learns from the one before it and from the three of the row before.
    private void Sweep(int corner, int step, int row)
    {
        const float Aslant = 1.4142135f;
        var (distance, nearest) = (_distance, _nearest);
        for (var y = 0; y < _down; y++)
        {
            var cell = corner + (y * row);
            for (var x = 0; x < _across; x++, cell += step)
            {
                var least = distance[cell];
                if (least <= 1)
                {
                    continue;
                }

                var by = cell;
                Learn(distance, cell - step, 1, ref least, ref by);
                Learn(distance, cell - row - step, Aslant, ref least, ref by);
                Learn(distance, cell - row, 1, ref least, ref by);
                Learn(distance, cell - row + step, Aslant, ref least, ref by);
                (distance[cell], nearest[cell]) = (least, nearest[by]);
            }
        }
    }

    private static void Learn(float[] distance, int neighbour, float way, ref float least, ref int by)
    {
        var far = distance[neighbour] + way;
        if (far < least)
        {
            (least, by) = (far, neighbour);
        }
    }
}
