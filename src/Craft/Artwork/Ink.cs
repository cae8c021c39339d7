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
            (y, _, own) =>
            {
                unchecked
                {
                    var row = 0;
                    foreach (var c in plane.Coverage.AsSpan(y * plane.Width, plane.Width))
                    {
                        row += c;
                    }

                    return own + row;
                }
            },
            own => Interlocked.Add(ref sum, own)
        );

        return sum / 255.0 / (plane.DotsPerMm * plane.DotsPerMm);
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
