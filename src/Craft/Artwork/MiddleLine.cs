namespace Coldpeel.Craft.Artwork;

/// <summary>How long a narrow place is, along its middle.</summary>
/// <remarks>
/// The dots of its ridge are gathered in cells of 5 × 5; the shortest tree that joins the cells' centres runs along the middle, branches
/// included, whichever way the ridge steps. Measured on bars of known length at seven angles: within 4 % and 0.1 mm (see the tests).
/// </remarks>
internal static class MiddleLine
{
    private const int Cell = 5;

    /// <summary>Length in dots; 0 for a place without a middle.</summary>
    /// <param name="place">The place.</param>
    /// <param name="width">Columns of its field.</param>
    public static double Length(NarrowPlace place, int width)
    {
        if (place.Middle.IsEmpty)
        {
            return 0;
        }

        var sums = new Dictionary<(int X, int Y), (double X, double Y, int N)>();
        foreach (var i in place.Middle.Span)
        {
            var (x, y) = (i % width, i / width);
            var sum = sums.GetValueOrDefault((x / Cell, y / Cell));
            sums[(x / Cell, y / Cell)] = (sum.X + x, sum.Y + y, sum.N + 1);
        }

        // The ridge ends half a width before the stroke does, at both ends.
        return Tree(sums) + place.Width;
    }

    /// <summary>Kruskal's shortest tree over neighbouring cells; the order of equal lengths does not change its sum.</summary>
    private static double Tree(Dictionary<(int X, int Y), (double X, double Y, int N)> sums)
    {
        var cells = sums.Keys.ToArray();
        var at = cells.Select((c, k) => (c, k)).ToDictionary(p => p.c, p => p.k);
        var edges = new List<(double Length, int From, int To)>();
        foreach (var (x, y) in cells)
        {
            foreach (var next in new[] { (x + 1, y), (x - 1, y + 1), (x, y + 1), (x + 1, y + 1) })
            {
                if (sums.TryGetValue(next, out var other))
                {
                    var here = sums[(x, y)];
                    var (dx, dy) = ((here.X / here.N) - (other.X / other.N), (here.Y / here.N) - (other.Y / other.N));
                    edges.Add((Math.Sqrt((dx * dx) + (dy * dy)), at[(x, y)], at[next]));
                }
            }
        }

        var parent = Enumerable.Range(0, cells.Length).ToArray();
        var sum = 0.0;
        foreach (var (length, from, to) in edges.OrderBy(e => e.Length))
        {
            var (a, b) = (Root(parent, from), Root(parent, to));
            if (a != b)
            {
                parent[a] = b;
                sum += length;
            }
        }

        return sum;
    }

    private static int Root(int[] parent, int i)
    {
        while (parent[i] != i)
        {
            i = parent[i] = parent[parent[i]];
        }

        return i;
    }
}
