namespace Coldpeel.Craft.Geometry;

/// <summary>A region cut across at every corner: slabs from one y to the next, each a row of trapezoids from left to right.</summary>
/// <remarks>
/// Rings may cross themselves and each other: the region is where the winding number is above zero. Exact but for the
/// rounding of doubles; slabs thinner than <see cref="Thin"/> of the unit in use are merged into their neighbours.
/// </remarks>
internal sealed class Slabs
{
    /// <summary>Two cuts nearer than this are one (in micrometres when the rings are: a tenth of a nanometre).</summary>
    public const double Thin = 1e-4;

    private Slabs(double[] top, double[] bottom, int[] first, Trapezoid[] trapezoids) =>
        (Top, Bottom, First, Trapezoids) = (top, bottom, first, trapezoids);

    /// <summary>Upper y of each slab, ascending.</summary>
    public double[] Top { get; }

    /// <summary>Lower y of each slab.</summary>
    public double[] Bottom { get; }

    /// <summary>Index of each slab's first trapezoid; one entry more than slabs.</summary>
    public int[] First { get; }

    /// <summary>All trapezoids, slab by slab, left to right.</summary>
    public Trapezoid[] Trapezoids { get; }

    /// <summary>The covered area, in square units.</summary>
    public double Area
    {
        get
        {
            var sum = 0.0;
            for (var s = 0; s < Top.Length; s++)
            {
                for (var t = First[s]; t < First[s + 1]; t++)
                {
                    var z = Trapezoids[t];
                    sum += (Bottom[s] - Top[s]) * (z.RightTop - z.LeftTop + z.RightBottom - z.LeftBottom) / 2;
                }
            }

            return sum;
        }
    }

    /// <summary>The slabs of the region of winding above zero.</summary>
    public static Slabs Of(IReadOnlyList<PointMm[]> rings)
    {
        var sides = Sides(rings);
        var cuts = Cuts(sides);
        var (top, bottom, first) = (new List<double>(), new List<double>(), new List<int> { 0 });
        var trapezoids = new List<Trapezoid>();
        var ends = new List<(int Left, int Right)>();
        var (row, previous) = (new List<(double Middle, int Closing, int Side)>(), new List<(int Left, int Right)>());
        var next = 0;
        var active = new List<int>();
        for (var c = 0; c + 1 < cuts.Count; c++)
        {
            var (y0, y1) = (cuts[c], cuts[c + 1]);
            var middle = (y0 + y1) / 2;
            while (next < sides.Length && sides[next].Top < middle)
            {
                active.Add(next++);
            }

            active.RemoveAll(i => sides[i].Bottom <= middle);
            row.Clear();
            foreach (var i in active)
            {
                // Of two sides in one line the opening one first, or a crack would run through the region.
                row.Add((sides[i].At(middle), -sides[i].Winding, i));
            }

            row.Sort();
            ends.Clear();
            var (winding, left) = (0, -1);
            foreach (var (_, _, side) in row)
            {
                var before = winding;
                winding += sides[side].Winding;
                if (before <= 0 && winding > 0)
                {
                    left = side;
                }
                else if (before > 0 && winding <= 0)
                {
                    ends.Add((left, side));
                }
            }

            if (ends.Count == 0)
            {
                previous.Clear();
                continue;
            }

            if (top.Count > 0 && bottom[^1] == y0 && ends.SequenceEqual(previous))
            {
                // The same sides go on: one taller slab.
                bottom[^1] = y1;
                trapezoids.RemoveRange(first[^2], ends.Count);
            }
            else
            {
                top.Add(y0);
                bottom.Add(y1);
                first.Add(0);
            }

            var (freeTop, freeBottom) = (double.NegativeInfinity, double.NegativeInfinity);
            foreach (var (l, r) in ends)
            {
                // Where lines meet, rounding may put neighbours a hair over each other: held apart, so that rows stay in order.
                var (lt, lb) = (Math.Max(freeTop, sides[l].At(top[^1])), Math.Max(freeBottom, sides[l].At(y1)));
                freeTop = Math.Max(lt, sides[r].At(top[^1]));
                freeBottom = Math.Max(lb, sides[r].At(y1));
                trapezoids.Add(new(lt, freeTop, lb, freeBottom));
            }

            first[^1] = trapezoids.Count;
            previous.Clear();
            previous.AddRange(ends);
        }

        return new([.. top], [.. bottom], [.. first], [.. trapezoids]);
    }

    private static Side[] Sides(IReadOnlyList<PointMm[]> rings)
    {
        var sides = new List<Side>();
        foreach (var ring in rings)
        {
            for (var i = 0; i < ring.Length; i++)
            {
                var (a, b) = (ring[i], ring[(i + 1) % ring.Length]);
                if (Math.Abs(a.Y - b.Y) > Thin)
                {
                    // With positive area and material on the positive side, the left end of a row runs upward (y falling).
                    sides.Add(a.Y > b.Y ? new(b.X, b.Y, a.X, a.Y, 1) : new(a.X, a.Y, b.X, b.Y, -1));
                }
            }
        }

        return [.. sides.OrderBy(s => s.Top).ThenBy(s => s.TopX)];
    }

    private static List<double> Cuts(Side[] sides)
    {
        var cuts = new List<double>(sides.Length * 2);
        for (var i = 0; i < sides.Length; i++)
        {
            var a = sides[i];
            cuts.Add(a.Top);
            cuts.Add(a.Bottom);
            for (var j = i + 1; j < sides.Length && sides[j].Top < a.Bottom; j++)
            {
                var b = sides[j];
                var (y0, y1) = (b.Top, Math.Min(a.Bottom, b.Bottom));
                var (d0, d1) = (a.At(y0) - b.At(y0), a.At(y1) - b.At(y1));
                if ((d0 < 0 && d1 > 0) || (d0 > 0 && d1 < 0))
                {
                    cuts.Add(y0 + ((y1 - y0) * (d0 / (d0 - d1))));
                }
            }
        }

        cuts.Sort();
        var kept = new List<double>(cuts.Count);
        foreach (var y in cuts)
        {
            if (kept.Count == 0 || y - kept[^1] > Thin)
            {
                kept.Add(y);
            }
        }

        return kept;
    }

    /// <summary>One trapezoid: its left and right end at the slab's upper and lower y.</summary>
    internal readonly record struct Trapezoid(double LeftTop, double RightTop, double LeftBottom, double RightBottom);

    private readonly record struct Side(double TopX, double Top, double BottomX, double Bottom, int Winding)
    {
        private double Slope => (BottomX - TopX) / (Bottom - Top);

        public double At(double y) =>
            y >= Bottom ? BottomX
            : y <= Top ? TopX
            : TopX + ((y - Top) * Slope);
    }
}
