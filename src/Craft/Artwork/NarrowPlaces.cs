namespace Coldpeel.Craft.Artwork;

/// <summary>A narrow place: its width, and its box in dots of the field.</summary>
internal readonly record struct NarrowPlace(double Width, int Left, int Top, int Right, int Bottom);

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

    private readonly InkField _field;
    private readonly bool _ground;
    private readonly float _limit;
    private readonly float _half;
    private readonly float[] _distance;
    private readonly Components _parts;
    private readonly float[] _widest;
    private readonly int[] _seeds;

    private NarrowPlaces(InkField field, bool ground, double limit, Components parts)
    {
        (_field, _ground, _limit, _parts) = (field, ground, (float)limit, parts);
        // A distance between dots' centres overstates half a width by at most half a dot, or falls short of it by a blur.
        _half = (_limit / 2) + 1;
        // Of what is wider nobody asks how much: corners are looked for up to six dots beyond the ridge.
        _distance = DistanceMap.To(ground ? field.Ink : Inverse(field.Ink), field.Width, field.Height, _half + 8);
        _widest = new float[parts.Parts.Count];
        _seeds = new int[parts.Parts.Count];
    }

    /// <summary>The places, narrowest first.</summary>
    /// <param name="field">What is measured.</param>
    /// <param name="ground">Whether gaps are looked for instead of strokes.</param>
    /// <param name="limit">The limit in dots.</param>
    /// <param name="parts">The connected parts of what is measured.</param>
    /// <param name="skip">Parts that are judged by other means.</param>
    public static List<NarrowPlace> Find(
        InkField field,
        bool ground,
        double limit,
        Components parts,
        bool[]? skip = null
    ) => new NarrowPlaces(field, ground, limit, parts).Find(skip);

    private List<NarrowPlace> Find(bool[]? skip)
    {
        Widest();
        var ridge = Ridge(skip);
        var widths = new float[ridge.Count];
        Parallel.For(
            0,
            (ridge.Count + 255) / 256,
            block =>
            {
                var chord = new Chord(_field.Shade, _field.Width, _field.Height, _ground);
                for (var i = block * 256; i < Math.Min(ridge.Count, (block + 1) * 256); i++)
                {
                    var (x, y) = (ridge[i] % _field.Width, ridge[i] / _field.Width);
                    var width = chord.Shortest(x, y, _limit + 2);
                    widths[i] = width < _limit + 1 && IsCorner(x, y) ? float.NaN : width;
                }
            }
        );
        var kept = Enumerable.Range(0, ridge.Count).Where(i => !float.IsNaN(widths[i])).ToList();
        ridge = [.. kept.Select(i => ridge[i])];
        widths = [.. kept.Select(i => widths[i])];
        return Places(ridge, Smooth(ridge, widths));
    }

    /// <summary>
    /// Whether the dot lies in a corner: towards one side, and not towards the other, the distance rises as steeply as between walls
    /// 45° or more apart. The gradient alone cannot tell within two dots of the edge.
    /// </summary>
    private bool IsCorner(int x, int y)
    {
        unchecked
        {
            const int Reach = 4;
            var (w, h) = (_field.Width, _field.Height);
            var here = _distance[(y * w) + x];
            var (steepest, sx, sy) = (0.37f, 0, 0);
            for (var v = Math.Max(-Reach, -y); v <= Math.Min(Reach, h - 1 - y); v++)
            {
                for (var u = Math.Max(-Reach, -x); u <= Math.Min(Reach, w - 1 - x); u++)
                {
                    var rise = _distance[((y + v) * w) + x + u] - here;
                    if (rise >= 0.7f && rise > steepest * MathF.Sqrt((u * u) + (v * v)))
                    {
                        (steepest, sx, sy) = (rise / MathF.Sqrt((u * u) + (v * v)), u, v);
                    }
                }
            }

            if ((sx, sy) == (0, 0))
            {
                return false;
            }

            for (var v = Math.Max(-Reach, -y); v <= Math.Min(Reach, h - 1 - y); v++)
            {
                for (var u = Math.Max(-Reach, -x); u <= Math.Min(Reach, w - 1 - x); u++)
                {
                    // Ink or ground that goes on for two dots and more straight behind, not just along the edge.
                    var back = -((u * sx) + (v * sy));
                    var reach = MathF.Sqrt((u * u) + (v * v));
                    var across = reach >= 2 && back > 0.8f * reach * MathF.Sqrt((sx * sx) + (sy * sy));
                    if (across && _distance[((y + v) * w) + x + u] >= here - 0.1f)
                    {
                        return false;
                    }
                }
            }

            return true;
        }
    }

    /// <summary>Finds the widest dot of every part, so that no part is missed.</summary>
    private void Widest()
    {
        foreach (var (y, left, right, part) in _parts.Runs())
        {
            for (var x = left; x < right; x++)
            {
                var i = (y * _field.Width) + x;
                if (_distance[i] > _widest[part])
                {
                    (_widest[part], _seeds[part]) = (_distance[i], i);
                }
            }
        }
    }

    private List<int> Ridge(bool[]? skip)
    {
        var (w, h) = (_field.Width, _field.Height);
        var rows = new List<int>?[h];
        Parallel.For(
            1,
            h - 1,
            y =>
            {
                unchecked
                {
                    var d = _distance.AsSpan();
                    for (var (i, end) = ((y * w) + 1, (y * w) + w - 1); i < end; i++)
                    {
                        var here = d[i];
                        if (here <= 0 || here > _half)
                        {
                            continue;
                        }

                        var (gx, gy) = (d[i + 1] - d[i - 1], d[i + w] - d[i - w]);
                        if ((gx * gx) + (gy * gy) < 4 * 0.36f)
                        {
                            (rows[y] ??= []).Add(i);
                        }
                    }
                }
            }
        );
        var small = _seeds.Where((_, part) => _widest[part] <= _half);
        var ridge = rows.Where(r => r is not null).SelectMany(r => r!).Concat(small).Distinct();
        return skip is null ? [.. ridge] : [.. ridge.Where(i => !skip[Part(i)])];
    }

    private int Part(int i) => _parts.At(i % _field.Width, i / _field.Width);

    private float[] Smooth(List<int> ridge, float[] widths)
    {
        var at = new Dictionary<int, int>(ridge.Count);
        for (var i = 0; i < ridge.Count; i++)
        {
            at[ridge[i]] = i;
        }

        var smooth = new float[widths.Length];
        Parallel.For(
            0,
            ridge.Count,
            i =>
            {
                if (widths[i] >= _limit + 1)
                {
                    smooth[i] = widths[i];
                    return;
                }

                float sum = 0;
                var n = 0;
                for (var v = -3; v <= 3; v++)
                {
                    for (var u = -3; u <= 3; u++)
                    {
                        if (
                            at.TryGetValue(ridge[i] + (v * _field.Width) + u, out var k)
                            && Math.Abs(widths[k] - widths[i]) < 2
                        )
                        {
                            sum += widths[k];
                            n++;
                        }
                    }
                }

                smooth[i] = sum / n;
            }
        );
        return smooth;
    }

    private List<NarrowPlace> Places(List<int> ridge, float[] widths)
    {
        var cells = new Dictionary<(int Part, int X, int Y), List<int>>();
        for (var i = 0; i < ridge.Count; i++)
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

    private NarrowPlace? Place(List<int> members, List<int> ridge, float[] widths, int part)
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
            members.Exists(m => ridge[m] == _seeds[part])
            || extent >= 2 * _limit
            || (extent >= _limit && high - low < 0.3 * extent)
            || members.Exists(m => IsNeck(ridge[m]));
        var grow = (int)Math.Ceiling(low / 2);
        return counts ? new(low, left - grow, top - grow, right + grow + 1, bottom + grow + 1) : null;
    }

    /// <summary>Whether it widens on two sides that lie across from each other.</summary>
    private bool IsNeck(int i)
    {
        const int Ways = 16;
        var (x, y) = (i % _field.Width, i / _field.Width);
        var wide = Math.Max(_distance[i] + 0.8f, Math.Min(_half, _distance[i] + 2));
        Span<bool> widens = stackalloc bool[Ways];
        for (var k = 0; k < Ways; k++)
        {
            widens[k] = Widens(x, y, Math.Cos(2 * Math.PI * k / Ways), Math.Sin(2 * Math.PI * k / Ways), wide);
        }

        for (var k = 0; k < Ways; k++)
        {
            for (var apart = 5; apart <= Ways / 2; apart++)
            {
                if (widens[k] && widens[(k + apart) % Ways])
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

            var d = _distance[(v * _field.Width) + u];
            if (d <= 0 || d >= wide)
            {
                return d > 0;
            }
        }

        return false;
    }

    private static byte[] Inverse(byte[] ink)
    {
        var inverse = new byte[ink.Length];
        for (var i = 0; i < ink.Length; i++)
        {
            inverse[i] = (byte)(1 - ink[i]);
        }

        return inverse;
    }
}
