using System.Collections.Immutable;

namespace Coldpeel.Craft.Artwork;

/// <summary>How dark tints come out, as found with a step wedge: what is asked against what it prints as, both as shares of solid.</summary>
/// <remarks>Straight between its points; it starts at (0, 0) and ends at (1, 1), and never falls.</remarks>
public sealed class ToneCurve
{
    private ToneCurve(ImmutableArray<TonePoint> points) => Points = points;

    /// <summary>The points, from none to solid.</summary>
    public ImmutableArray<TonePoint> Points { get; }

    /// <summary>A curve through points; its ends are added, falls are evened out.</summary>
    /// <param name="points">Asked and printed tints, each 0 to 1; equal asked tints are averaged.</param>
    /// <remarks>Falls are evened by the nearest curve that never falls in the sense of least squares (pool adjacent violators; Barlow, Bartholomew, Bremner and Brunk, 1972).</remarks>
    public static ToneCurve Through(IEnumerable<TonePoint> points)
    {
        ArgumentNullException.ThrowIfNull(points);
        var inner = points
            .Where(p => p.Asked is > 0 and < 1)
            .GroupBy(p => p.Asked)
            .OrderBy(g => g.Key)
            .Select(g => new TonePoint(g.Key, Math.Clamp(g.Average(p => p.Printed), 0, 1)));
        return new([new(0, 0), .. Evened(inner), new(1, 1)]);
    }

    /// <summary>What a tint prints as.</summary>
    public double Prints(double asked) => Between(asked, p => p.Asked, p => p.Printed);

    /// <summary>What must be asked so that a tint comes out.</summary>
    public double Ask(double wanted) => Between(wanted, p => p.Printed, p => p.Asked);

    private double Between(double at, Func<TonePoint, double> from, Func<TonePoint, double> to)
    {
        for (var k = 1; k < Points.Length; k++)
        {
            var (a, b) = (Points[k - 1], Points[k]);
            if (at <= from(b))
            {
                var width = from(b) - from(a);
                // Rounding may pass the end by a hair, and the next stretch would begin below it.
                return width <= 0
                    ? to(b)
                    : Math.Min(to(b), to(a) + ((to(b) - to(a)) * Math.Max(0, (at - from(a)) / width)));
            }
        }

        return 1;
    }

    private static List<TonePoint> Evened(IEnumerable<TonePoint> points)
    {
        var pools = new List<(double Sum, List<double> Asked)>();
        foreach (var p in points)
        {
            pools.Add((p.Printed, [p.Asked]));
            while (pools.Count > 1 && Mean(pools[^2]) >= Mean(pools[^1]))
            {
                pools[^2] = (pools[^2].Sum + pools[^1].Sum, [.. pools[^2].Asked, .. pools[^1].Asked]);
                pools.RemoveAt(pools.Count - 1);
            }
        }

        return [.. pools.SelectMany(pool => pool.Asked.Select(a => new TonePoint(a, Mean(pool))))];

        static double Mean((double Sum, List<double> Asked) pool) => pool.Sum / pool.Asked.Count;
    }
}

/// <summary>One step of a wedge: the tint that was asked and the one that it printed as, shares of solid.</summary>
public readonly record struct TonePoint(double Asked, double Printed);
