namespace Coldpeel.Craft.Artwork;

/// <summary>Square windows over a grid of marks: whether all, or any, of a window is marked. Linear in the number of dots.</summary>
internal static class Window
{
    /// <summary>Marks dots whose window of (2 × reach + 1)² dots is all marked; what lies outside the grid counts as marked.</summary>
    public static byte[] All(byte[] marks, int width, int height, int reach) =>
        Run(marks, width, height, reach, found: 0);

    /// <summary>Marks dots with any mark in their window of (2 × reach + 1)² dots.</summary>
    public static byte[] Any(byte[] marks, int width, int height, int reach) =>
        Run(marks, width, height, reach, found: 1);

    // A window is "all marked" when no unmarked dot is near, "any" when a marked one is: both spread one kind of mark.
    private static byte[] Run(byte[] marks, int width, int height, int reach, byte found)
    {
        var across = new byte[marks.Length];
        var result = new byte[marks.Length];
        Parallel.For(0, height, y => Spread(marks, across, y * width, 1, width, reach, found));
        Parallel.For(0, width, x => Spread(across, result, x, width, height, reach, found));
        return result;
    }

    private static void Spread(byte[] from, byte[] to, int start, int step, int count, int reach, byte found)
    {
        unchecked
        {
            var last = -reach - 1;
            for (var k = 0; k < count; k++)
            {
                last = from[start + (k * step)] == found ? k : last;
                to[start + (k * step)] = k - last <= reach ? found : (byte)(1 - found);
            }

            last = count + reach;
            for (var k = count - 1; k >= 0; k--)
            {
                last = from[start + (k * step)] == found ? k : last;
                if (last - k <= reach)
                {
                    to[start + (k * step)] = found;
                }
            }
        }
    }
}
