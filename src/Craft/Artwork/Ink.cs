using System.Numerics;
using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Artwork;

/// <summary>How much toner a plane takes, and where.</summary>
public static class Ink
{
    /// <summary>Area of toner in mm²; a tint counts by its strength.</summary>
    public static double AreaMm2(WhitePlane plane)
    {
        ArgumentNullException.ThrowIfNull(plane);
        long sum = 0;
        Parallel.For(
            0,
            plane.Height,
            () => 0L,
            (y, _, own) => own + Sum(plane.Coverage.AsSpan(y * plane.Width, plane.Width)),
            own => Interlocked.Add(ref sum, own)
        );

        return sum / 255.0 / (plane.DotsPerMm * plane.DotsPerMm);
    }

    private static long Sum(ReadOnlySpan<byte> row)
    {
        unchecked
        {
            var (sum, x) = (0L, 0);
            // In steps of so many that no 16 bits run over: 2 × 127 × 255 stays below 2¹⁶.
            const int Steps = 127;
            while (x <= row.Length - Vector<byte>.Count)
            {
                var some = Vector<ushort>.Zero;
                for (var k = 0; k < Steps && x <= row.Length - Vector<byte>.Count; k++, x += Vector<byte>.Count)
                {
                    Vector.Widen(new Vector<byte>(row[x..]), out var low, out var high);
                    some += low + high;
                }

                Vector.Widen(some, out var a, out var b);
                sum += Vector.Sum(a + b);
            }

            for (; x < row.Length; x++)
            {
                sum += row[x];
            }

            return sum;
        }
    }

    /// <summary>The smallest box around every dot that gets toner, in mm; null when none does.</summary>
    public static BoxMm? Box(WhitePlane plane)
    {
        ArgumentNullException.ThrowIfNull(plane);
        if (Dots(plane) is not { } d)
        {
            return null;
        }

        var s = plane.DotsPerMm;
        return new BoxMm(d.Left / s, d.Top / s, d.Right / s, d.Bottom / s);
    }

    /// <summary>The box in whole dots, right and bottom excluded.</summary>
    internal static (int Left, int Top, int Right, int Bottom)? Dots(WhitePlane plane)
    {
        var (left, top, right, bottom) = (plane.Width, -1, 0, 0);
        for (var y = 0; y < plane.Height; y++)
        {
            var row = plane.Coverage.AsSpan(checked(y * plane.Width), plane.Width);
            var first = row.IndexOfAnyExcept((byte)0);
            if (first < 0)
            {
                continue;
            }

            top = top < 0 ? y : top;
            bottom = y + 1;
            left = Math.Min(left, first);
            right = Math.Max(right, row.LastIndexOfAnyExcept((byte)0) + 1);
        }

        return top < 0 ? null : (left, top, right, bottom);
    }
}
