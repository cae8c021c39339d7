using Coldpeel.Craft.Geometry;

namespace Coldpeel.Files.Sheets;

/// <summary>The inside of one outline on a grid: where a block of words fits, as near the middle as can be.</summary>
internal sealed class InsideGrid
{
    private readonly BoxMm _box;
    private readonly double _cell;
    private readonly int _across;
    private readonly int _down;
    private readonly int[] _outside; // sums over cells that are not wholly inside, from the top left

    private InsideGrid(IReadOnlyList<PointMm> ring, double cellMm)
    {
        _box = BoxMm.Around(ring);
        _cell = Math.Max(cellMm, Math.Sqrt(Math.Max(1, _box.Width * _box.Height) / 8_000));
        (_across, _down) = ((int)Math.Ceiling(_box.Width / _cell), (int)Math.Ceiling(_box.Height / _cell));
        _outside = new int[(_across + 1) * (_down + 1)];
        var lines = new List<double>[_down + 1];
        for (var y = 0; y <= _down; y++)
        {
            lines[y] = Crossings(ring, _box.Top + (y * _cell));
        }

        for (var y = 0; y < _down; y++)
        {
            var row = 0;
            for (var x = 0; x < _across; x++)
            {
                var (left, right) = (_box.Left + (x * _cell), _box.Left + ((x + 1) * _cell));
                row += Within(lines[y], left, right) && Within(lines[y + 1], left, right) ? 0 : 1;
                _outside[((y + 1) * (_across + 1)) + x + 1] = _outside[(y * (_across + 1)) + x + 1] + row;
            }
        }
    }

    public static InsideGrid Of(IReadOnlyList<PointMm> ring, double cellMm) => new(ring, cellMm);

    /// <summary>The top left of the most central place for a block with half a millimetre of air; null when it does not fit.</summary>
    public PointMm? Place(double width, double height)
    {
        const double air = 0.5;
        var (w, h) = (width + (2 * air), height + (2 * air));
        if (w > _box.Width || h > _box.Height)
        {
            return null;
        }

        // The very middle first: most pieces have room there, and nothing is nearer.
        var (cx, cy) = ((_box.Width - w) / 2, (_box.Height - h) / 2);
        if (Fits(cx, cy, w, h))
        {
            return new(_box.Left + cx + air, _box.Top + cy + air);
        }

        var (best, least) = ((PointMm?)null, double.PositiveInfinity);
        for (var y = 0.0; y + h <= _box.Height; y += _cell)
        {
            for (var x = 0.0; x + w <= _box.Width; x += _cell)
            {
                var far = ((x - cx) * (x - cx)) + ((y - cy) * (y - cy));
                if (far < least && Fits(x, y, w, h))
                {
                    (best, least) = (new(_box.Left + x + air, _box.Top + y + air), far);
                }
            }
        }

        return best;
    }

    private bool Fits(double x, double y, double w, double h)
    {
        var (x0, y0) = ((int)(x / _cell), (int)(y / _cell));
        var (x1, y1) = (
            Math.Min(_across, (int)Math.Ceiling((x + w) / _cell)),
            Math.Min(_down, (int)Math.Ceiling((y + h) / _cell))
        );
        var s = _across + 1;
        return _outside[(y1 * s) + x1] - _outside[(y0 * s) + x1] - _outside[(y1 * s) + x0] + _outside[(y0 * s) + x0]
            == 0;
    }

    private static bool Within(List<double> crossings, double left, double right)
    {
        for (var i = 0; i + 1 < crossings.Count; i += 2)
        {
            if (crossings[i] - 1e-6 <= left && right <= crossings[i + 1] + 1e-6)
            {
                return true;
            }
        }

        return false;
    }

    private static List<double> Crossings(IReadOnlyList<PointMm> ring, double level)
    {
        var at = new List<double>();
        for (var i = 0; i < ring.Count; i++)
        {
            var (a, b) = (ring[i], ring[(i + 1) % ring.Count]);
            if ((a.Y <= level) != (b.Y <= level))
            {
                at.Add(a.X + ((level - a.Y) / (b.Y - a.Y) * (b.X - a.X)));
            }
        }

        at.Sort();
        return at;
    }
}
