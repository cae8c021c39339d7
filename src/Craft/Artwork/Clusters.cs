namespace Coldpeel.Craft.Artwork;

/// <summary>Sees to it that nothing that a screen prints is finer than the process carries, where a border cut it or tints run steep.</summary>
internal static class Clusters
{
    // Of what is this much narrower than its limit nothing is left; at a right corner a disc so small leaves but a fortieth of its square.
    private const double Narrow = 0.35;
    private const double Corner = 0.1;

    /// <summary>Drops slivers, closes slits, then drops spots that are too small or makes them up to the smallest dot, whichever keeps the sum of toner nearer to what it was.</summary>
    /// <param name="plane">One bit a dot; changed in place.</param>
    /// <param name="mask">Not zero where the screen drew: spots away from it belong to the artwork and stay.</param>
    /// <param name="dotMm">Diameter of the smallest dot.</param>
    /// <param name="lineMm">Thinnest stroke.</param>
    /// <param name="gapMm">Narrowest gap.</param>
    public static void Hold(WhitePlane plane, byte[] mask, double dotMm, double lineMm, double gapMm)
    {
        double sum = Turn(plane, mask, lineMm, 255) + Turn(plane, mask, gapMm, 0);
        var least = (int)Math.Ceiling(Math.PI / 4 * Math.Pow(dotMm * plane.DotsPerMm, 2) + 1e-6);
        var parts = Components.Label(plane.Coverage, plane.Width, plane.Height);
        var small = new Dictionary<int, List<int>>();
        for (var k = 0; k < parts.Parts.Count; k++)
        {
            if (parts.Parts[k].Area < least)
            {
                small.Add(k, []);
            }
        }

        if (small.Count == 0)
        {
            return;
        }

        foreach (var (row, left, right, part) in parts.Runs())
        {
            if (small.TryGetValue(part, out var dots))
            {
                dots.AddRange(Enumerable.Range((row * plane.Width) + left, right - left));
            }
        }

        foreach (
            var dots in small
                .OrderBy(s => s.Key)
                .Select(s => s.Value)
                .Where(d => d.Exists(i => Touches(plane, mask, i)))
        )
        {
            // A crumb of the artwork's own edge, cut off from it by the screen, can only go.
            var grown =
                dots.Exists(i => mask[i] == 0) || Math.Abs(sum - dots.Count) <= Math.Abs(sum + least - dots.Count)
                    ? null
                    : Grow(plane, mask, dots, least);
            foreach (var i in grown ?? dots)
            {
                plane.Coverage[i] = grown is null ? (byte)0 : (byte)255;
            }

            sum += grown is null ? -dots.Count : grown.Count;
        }
    }

    /// <summary>Whether the screen drew the dot or one beside it.</summary>
    private static bool Touches(WhitePlane plane, byte[] mask, int dot)
    {
        var (x, y) = (dot % plane.Width, dot / plane.Width);
        for (var v = Math.Max(0, y - 1); v <= Math.Min(plane.Height - 1, y + 1); v++)
        {
            for (var u = Math.Max(0, x - 1); u <= Math.Min(plane.Width - 1, x + 1); u++)
            {
                if (mask[(v * plane.Width) + u] != 0)
                {
                    return true;
                }
            }
        }

        return false;
    }

    /// <summary>Turns what is far too narrow, of toner (255) or of ground (0), into the other; tells the dots won or lost.</summary>
    private static int Turn(WhitePlane plane, byte[] mask, double limitMm, byte shade)
    {
        var (w, h) = (plane.Width, plane.Height);
        var limit = limitMm * plane.DotsPerMm;
        var marks = new byte[plane.Coverage.Length];
        for (var i = 0; i < marks.Length; i++)
        {
            marks[i] = plane.Coverage[i] == shade ? (byte)1 : (byte)0;
        }

        var wide = Morphology.Open(marks, w, h, Math.Min(Narrow * limit, NearDistances.Farthest));
        for (var i = 0; i < marks.Length; i++)
        {
            marks[i] = marks[i] != wide[i] && mask[i] != 0 ? (byte)1 : (byte)0;
        }

        var parts = Components.Label(marks, w, h);
        var turned = 0;
        foreach (var (row, left, right, part) in parts.Runs())
        {
            if (parts.Parts[part].Area > Corner * limit * limit)
            {
                plane.Coverage.AsSpan((row * w) + left, right - left).Fill((byte)(255 - shade));
                turned += right - left;
            }
        }

        return shade == 255 ? -turned : turned;
    }

    /// <summary>Empty dots of the mask that make a spot up to its least area, nearest to its middle first; null when there are too few.</summary>
    private static List<int>? Grow(WhitePlane plane, byte[] mask, List<int> dots, int least)
    {
        var w = plane.Width;
        var (x, y) = (dots.Average(i => (double)(i % w)), dots.Average(i => (double)(i / w)));
        // A quarter of a disc, in a corner of the tint, needs twice the radius.
        var reach = (int)Math.Ceiling(2.2 * Math.Sqrt(least / Math.PI)) + 2;
        var near = new List<(double Far, int Dot)>();
        for (var v = Math.Max(0, (int)y - reach); v <= Math.Min(plane.Height - 1, (int)y + reach); v++)
        {
            for (var u = Math.Max(0, (int)x - reach); u <= Math.Min(w - 1, (int)x + reach); u++)
            {
                var i = (v * w) + u;
                if (mask[i] != 0 && plane.Coverage[i] == 0)
                {
                    near.Add((((u - x) * (u - x)) + ((v - y) * (v - y)), i));
                }
            }
        }

        var wanted = least - dots.Count;
        return near.Count < wanted ? null : Joined(near, dots, wanted, w);
    }

    /// <summary>Takes dots by distance, each only when it meets the spot as it is by then.</summary>
    private static List<int>? Joined(List<(double Far, int Dot)> near, List<int> dots, int wanted, int width)
    {
        near.Sort();
        var spot = dots.ToHashSet();
        var added = new List<int>(wanted);
        var waiting = near.ConvertAll(n => n.Dot);
        for (var found = true; found && added.Count < wanted; )
        {
            found = false;
            for (var k = 0; k < waiting.Count && added.Count < wanted; k++)
            {
                var i = waiting[k];
                // Left and right neighbours across the plane's border would be another row's: their column tells.
                var meets =
                    spot.Contains(i - width)
                    || spot.Contains(i + width)
                    || (i % width > 0 && spot.Contains(i - 1))
                    || (i % width < width - 1 && spot.Contains(i + 1));
                if (meets)
                {
                    spot.Add(i);
                    added.Add(i);
                    waiting.RemoveAt(k--);
                    found = true;
                }
            }
        }

        return added.Count < wanted ? null : added;
    }
}
