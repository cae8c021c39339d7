namespace Coldpeel.Craft.Artwork;

/// <summary>A narrow place.</summary>
/// <param name="Width">Its width in dots.</param>
/// <param name="Left">First column of the field.</param>
/// <param name="Top">First row.</param>
/// <param name="Right">Column after the last.</param>
/// <param name="Bottom">Row after the last.</param>
/// <param name="Middle">Indices of the dots along its middle.</param>
internal readonly record struct NarrowPlace(
    double Width,
    int Left,
    int Top,
    int Right,
    int Bottom,
    ReadOnlyMemory<int> Middle
);

/// <summary>Finds where ink, or the ground between ink, is narrower than a limit.</summary>
/// <remarks>
/// The ridge of the distance map runs along the middle of every stroke and gap. Along it the width is measured (<see cref="Chord"/>)
/// and smoothed over neighbours. Narrow ridge dots that touch make one place. A place counts when it is a neck (wider on both sides),
/// when a whole part of the plane is narrow, when it runs on for the limit's length with sides about parallel, or for twice
/// that length however it tapers. So corners, the square ends of strokes and tips wider than about 28° pass: they only lose a rounding.
/// </remarks>
internal sealed class NarrowPlaces
{
    /// <summary>Measured widths may err by this many dots without a report.</summary>
    private const float Doubt = 0.2f;

    /// <summary>Directions in which a place is looked at for whether it widens.</summary>
    private static readonly (double X, double Y)[] Ways =
    [
        .. Enumerable.Range(0, 16).Select(k => (Math.Cos(2 * Math.PI * k / 16), Math.Sin(2 * Math.PI * k / 16))),
    ];

    private readonly InkField _field;
    private readonly bool _ground;
    private readonly float _limit;
    private readonly float _half;
    private readonly Components _parts;
    private readonly RidgeDots _ridge;

    private NarrowPlaces(InkField field, bool ground, double limit, Components parts, bool[]? skip, ushort[] room)
    {
        (_field, _ground, _limit, _parts) = (field, ground, (float)limit, parts);
        // A distance between dots' centres overstates half a width by at most half a dot, or falls short of it by a blur.
        _half = (_limit / 2) + 1;
        _ridge = RidgeDots.Find(field, ground, _half, parts, skip, room);
    }

    /// <summary>The places, narrowest first.</summary>
    /// <param name="field">What is measured.</param>
    /// <param name="ground">Whether gaps are looked for instead of strokes.</param>
    /// <param name="limit">The limit in dots.</param>
    /// <param name="parts">The connected parts of what is measured.</param>
    /// <param name="skip">Parts that are judged by other means; null for none.</param>
    /// <param name="room">Room for two bytes a dot, which several searches may share one after the other.</param>
    public static List<NarrowPlace> Find(
        InkField field,
        bool ground,
        double limit,
        Components parts,
        bool[]? skip,
        ushort[] room
    ) => new NarrowPlaces(field, ground, limit, parts, skip, room).Find();

    private List<NarrowPlace> Find()
    {
        var dots = _ridge.Dots;
        var widths = new float[dots.Length];
        Parallel.For(
            0,
            (dots.Length + 255) / 256,
            block =>
            {
                var chord = new Chord(_field.Shade, _field.Width, _field.Height, _ground);
                for (var i = block * 256; i < Math.Min(dots.Length, (block + 1) * 256); i++)
                {
                    var width = chord.Shortest(dots[i] % _field.Width, dots[i] / _field.Width, _limit + 2);
                    widths[i] = width < _limit + 1 && _ridge.IsCorner(dots[i]) ? float.NaN : width;
                }
            }
        );
        return Places(dots, Smooth(dots, widths));
    }

    private int Part(int i) => _parts.At(i % _field.Width, i / _field.Width);

    /// <summary>Every width as the mean over the ridge's dots within three dots that measure about the same; corners stay out.</summary>
    private float[] Smooth(int[] dots, float[] widths)
    {
        var smooth = new float[widths.Length];
        Parallel.For(
            0,
            (dots.Length + 255) / 256,
            block =>
            {
                for (var i = block * 256; i < Math.Min(dots.Length, (block + 1) * 256); i++)
                {
                    smooth[i] = widths[i] < _limit + 1 ? Mean(dots, widths, i) : widths[i];
                }
            }
        );
        return smooth;
    }

    private float Mean(int[] dots, float[] widths, int i)
    {
        const int Reach = 3;
        var (x, y, sum, n) = (dots[i] % _field.Width, dots[i] / _field.Width, 0f, 0);
        for (var v = -Reach; v <= Reach; v++)
        {
            var last = dots[i] + (v * _field.Width) + Reach;
            for (var k = _ridge.From(x - Reach, y + v); k < dots.Length && dots[k] <= last; k++)
            {
                if (Math.Abs(widths[k] - widths[i]) < 2)
                {
                    sum += widths[k];
                    n++;
                }
            }
        }

        return sum / n;
    }

    private List<NarrowPlace> Places(int[] ridge, float[] widths)
    {
        var cells = new Dictionary<(int Part, int X, int Y), List<int>>();
        for (var i = 0; i < ridge.Length; i++)
        {
            if (widths[i] < _limit - Doubt)
            {
                var key = (Part(ridge[i]), ridge[i] % _field.Width / 3, ridge[i] / _field.Width / 3);
                if (!cells.TryGetValue(key, out var list))
                {
                    cells.Add(key, list = []);
                }

                list.Add(i);
            }
        }

        var places = new List<NarrowPlace>();
        var seen = new HashSet<(int Part, int X, int Y)>();
        foreach (var start in cells.Keys)
        {
            if (seen.Add(start) && Place(Cluster(start, cells, seen), ridge, widths, start.Part) is { } place)
            {
                places.Add(place);
            }
        }

        return [.. places.OrderBy(p => p.Width).ThenBy(p => p.Top).ThenBy(p => p.Left)];
    }

    private static List<int> Cluster(
        (int Part, int X, int Y) start,
        Dictionary<(int Part, int X, int Y), List<int>> cells,
        HashSet<(int Part, int X, int Y)> seen
    )
    {
        var members = new List<int>();
        var open = new Stack<(int Part, int X, int Y)>();
        open.Push(start);
        while (open.TryPop(out var cell))
        {
            members.AddRange(cells[cell]);
            for (var v = -1; v <= 1; v++)
            {
                for (var u = -1; u <= 1; u++)
                {
                    var next = (cell.Part, cell.X + u, cell.Y + v);
                    if (cells.ContainsKey(next) && seen.Add(next))
                    {
                        open.Push(next);
                    }
                }
            }
        }

        return members;
    }

    private NarrowPlace? Place(List<int> members, int[] ridge, float[] widths, int part)
    {
        var (left, top, right, bottom) = (int.MaxValue, int.MaxValue, 0, 0);
        // Of many measurements the thinnest sixteenth is passed over: stray dots at a stroke's ends, which one bit cannot draw square.
        var sorted = members.Select(m => widths[m]).Order().ToArray();
        var (low, high) = (sorted[sorted.Length / 16], sorted[^1]);
        foreach (var m in members)
        {
            var (x, y) = (ridge[m] % _field.Width, ridge[m] / _field.Width);
            (left, top, right, bottom) = (Math.Min(left, x), Math.Min(top, y), Math.Max(right, x), Math.Max(bottom, y));
        }

        var extent = Math.Sqrt(Math.Pow(right - left + 1, 2) + Math.Pow(bottom - top + 1, 2));
        var counts =
            members.Exists(m => ridge[m] == _ridge.Seeds[part])
            || extent >= 2 * _limit
            || (extent >= _limit && high - low < 0.3 * extent)
            || members.Exists(m => IsNeck(ridge[m]));
        var grow = (int)Math.Ceiling(low / 2);
        return counts
            ? new(
                low,
                left - grow,
                top - grow,
                right + grow + 1,
                bottom + grow + 1,
                members.Select(m => ridge[m]).ToArray()
            )
            : null;
    }

    /// <summary>Whether it widens on two sides that lie across from each other.</summary>
    private bool IsNeck(int i)
    {
        var (x, y) = (i % _field.Width, i / _field.Width);
        var wide = Math.Max(_ridge.Distance(i) + 0.8f, Math.Min(_half, _ridge.Distance(i) + 2));
        Span<bool> widens = stackalloc bool[Ways.Length];
        for (var k = 0; k < Ways.Length; k++)
        {
            widens[k] = Widens(x, y, Ways[k].X, Ways[k].Y, wide);
        }

        for (var k = 0; k < Ways.Length; k++)
        {
            for (var apart = 5; apart <= Ways.Length / 2; apart++)
            {
                if (widens[k] && widens[(k + apart) % Ways.Length])
                {
                    return true;
                }
            }
        }

        return false;
    }

    private bool Widens(int x, int y, double dx, double dy, float wide)
    {
        for (var t = 1.0; t <= 2 * _half; t++)
        {
            var (u, v) = ((int)Math.Round(x + (dx * t)), (int)Math.Round(y + (dy * t)));
            if (u < 0 || v < 0 || u >= _field.Width || v >= _field.Height)
            {
                return _ground;
            }

            var d = _ridge.Distance((v * _field.Width) + u);
            if (d <= 0 || d >= wide)
            {
                return d > 0;
            }
        }

        return false;
    }
}
