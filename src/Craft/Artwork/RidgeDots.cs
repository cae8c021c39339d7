namespace Coldpeel.Craft.Artwork;

/// <summary>The dots along the middle of narrow strokes or gaps, by rows, and the distances they were found from.</summary>
/// <remarks>
/// In the middle of a stroke the distance map has a ridge: its slope, one everywhere else, falls. Only dots no farther from an edge
/// than half the limit, and a dot of doubt, are looked at; of every part that is no wider the widest dot is one, so none is missed.
/// </remarks>
internal sealed class RidgeDots
{
    private readonly ushort[] _squares;
    private readonly float[] _roots;
    private readonly int _width;
    private readonly int _height;
    private readonly int[] _rows;

    private RidgeDots(ushort[] squares, float[] roots, int width, int height, int[] dots)
    {
        (_squares, _roots, _width, _height, Dots) = (squares, roots, width, height, dots);
        _rows = new int[height + 1];
        for (var (y, k) = (0, 0); y <= height; y++)
        {
            while (k < dots.Length && dots[k] < (long)y * width)
            {
                k++;
            }

            _rows[y] = k;
        }
    }

    /// <summary>Indices of the ridge's dots, rising.</summary>
    public int[] Dots { get; }

    /// <summary>Of every part no wider than the limit the index of its widest dot; −1 for the others.</summary>
    public required int[] Seeds { get; init; }

    /// <summary>Distance in dots from a dot's centre to the nearest dot beyond the edge; no farther than was looked.</summary>
    public float Distance(int i) => _roots[_squares[i]];

    /// <summary>Finds the ridge.</summary>
    /// <param name="field">What is measured.</param>
    /// <param name="ground">Whether gaps are looked for instead of strokes.</param>
    /// <param name="half">The farthest from an edge that the ridge may lie, in dots.</param>
    /// <param name="parts">The connected parts of what is measured.</param>
    /// <param name="skip">Parts that are judged by other means.</param>
    /// <param name="squares">Room for two bytes a dot; taken over until the next search uses it.</param>
    public static RidgeDots Find(
        InkField field,
        bool ground,
        float half,
        Components parts,
        bool[]? skip,
        ushort[] squares
    )
    {
        // Six dots farther than the ridge: as far as the slope beside it is followed.
        var reach = Math.Min((int)Math.Ceiling(half) + 6, NearDistances.Farthest);
        var edge = ground ? (byte)1 : (byte)0;
        NearDistances.Squared(field.Shade, field.Width, field.Height, reach, edge, squares, InkField.Half);
        var roots = new float[((reach + 1) * (reach + 1)) + 1];
        for (var i = 0; i < roots.Length; i++)
        {
            roots[i] = MathF.Sqrt(i);
        }

        var most = (ushort)(half * half);
        var seeds = Widest(squares, field.Width, parts, most);
        var dots = Ridge(squares, roots, field.Width, field.Height, most)
            .Concat(seeds.Where(i => i >= 0))
            .Where(i => skip is null || !skip[parts.At(i % field.Width, i / field.Width)])
            .Distinct()
            .ToArray();
        Array.Sort(dots);
        return new(squares, roots, field.Width, field.Height, dots) { Seeds = seeds };
    }

    /// <summary>The positions in <see cref="Dots"/> from the first in row <paramref name="y"/> not left of <paramref name="x"/>.</summary>
    public int From(int x, int y)
    {
        if (y < 0 || y >= _height)
        {
            return y < 0 ? 0 : Dots.Length;
        }

        var at = Array.BinarySearch(Dots, _rows[y], _rows[y + 1] - _rows[y], (y * _width) + x);
        return at < 0 ? ~at : at;
    }

    /// <summary>
    /// Whether the dot lies in a corner: towards one side, and not towards the other, the distance rises as steeply as between walls
    /// 45° or more apart. The gradient alone cannot tell within two dots of the edge.
    /// </summary>
    public bool IsCorner(int i)
    {
        unchecked
        {
            const int Reach = 4;
            var (x, y, here) = (i % _width, i / _width, Distance(i));
            var (steepest, sx, sy) = (0.37f, 0, 0);
            for (var v = Math.Max(-Reach, -y); v <= Math.Min(Reach, _height - 1 - y); v++)
            {
                for (var u = Math.Max(-Reach, -x); u <= Math.Min(Reach, _width - 1 - x); u++)
                {
                    var rise = Distance(i + (v * _width) + u) - here;
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

            for (var v = Math.Max(-Reach, -y); v <= Math.Min(Reach, _height - 1 - y); v++)
            {
                for (var u = Math.Max(-Reach, -x); u <= Math.Min(Reach, _width - 1 - x); u++)
                {
                    // Ink or ground that goes on for two dots and more straight behind, not just along the edge.
                    var back = -((u * sx) + (v * sy));
                    var reach = MathF.Sqrt((u * u) + (v * v));
                    var across = reach >= 2 && back > 0.8f * reach * MathF.Sqrt((sx * sx) + (sy * sy));
                    if (across && Distance(i + (v * _width) + u) >= here - 0.1f)
                    {
                        return false;
                    }
                }
            }

            return true;
        }
    }

    /// <summary>The widest dot of every part that is nowhere farther from an edge than <paramref name="most"/>, squared.</summary>
    private static int[] Widest(ushort[] squares, int width, Components parts, ushort most)
    {
        var (seeds, widest) = (new int[parts.Parts.Count], new ushort[parts.Parts.Count]);
        foreach (var (y, left, right, part) in parts.Runs())
        {
            if (seeds[part] < 0)
            {
                continue;
            }

            var run = squares.AsSpan((y * width) + left, right - left);
            if (run.IndexOfAnyInRange((ushort)(most + 1), ushort.MaxValue) >= 0)
            {
                seeds[part] = -1;
                continue;
            }

            for (var x = 0; x < run.Length; x++)
            {
                if (run[x] > widest[part])
                {
                    (widest[part], seeds[part]) = (run[x], (y * width) + left + x);
                }
            }
        }

        return seeds;
    }

    private static IEnumerable<int> Ridge(ushort[] squares, float[] roots, int width, int height, ushort most)
    {
        var rows = new List<int>?[height];
        Parallel.For(
            1,
            height - 1,
            y =>
            {
                unchecked
                {
                    for (var (i, end) = ((y * width) + 1, (y * width) + width - 1); i < end; i++)
                    {
                        var next = squares.AsSpan(i, end - i).IndexOfAnyInRange((ushort)1, most);
                        if (next < 0)
                        {
                            break;
                        }

                        for (i += next; i < end && (ushort)(squares[i] - 1) < most; i++)
                        {
                            var gx = roots[squares[i + 1]] - roots[squares[i - 1]];
                            var gy = roots[squares[i + width]] - roots[squares[i - width]];
                            if ((gx * gx) + (gy * gy) < 4 * 0.36f)
                            {
                                (rows[y] ??= []).Add(i);
                            }
                        }
                    }
                }
            }
        );
        return rows.Where(r => r is not null).SelectMany(r => r!);
    }
}
