namespace Coldpeel.Files.Artwork.Codes;

/// <summary>Whether a picture may hold a code of bars: many edges close together that stand at the same places a little further down.</summary>
/// <remarks>
/// A look that costs a hundredth of reading. The shortest codes that are read have 25 bars and gaps in a row (Code 128 with one sign, ISO/IEC 15417)
/// or 43 (EAN-8, ISO/IEC 15420), none wider than four elements; lettering has neither as many nor at the same places.
/// </remarks>
internal static class BarPattern
{
    private const int Edges = 22;

    /// <summary>Of so many edges in a row so many must be met again.</summary>
    private const int Met = 18;

    /// <summary>The widest bar of four elements against the mean of two, with room for what printing and drawing do.</summary>
    private const double Widest = 4;

    /// <summary>How far the bars may lean from one row to the next, in pixels.</summary>
    private const int Lean = 6;

    /// <summary>Rows between two looks, and down to the row that is held against, in pixels.</summary>
    private const int Step = 8;

    /// <summary>Looks along the rows.</summary>
    public static bool IsAlongRows(byte[] grey, int width, int height)
    {
        var (here, below) = (new List<int>(), new List<int>());
        for (var y = 0; y + Step < height; y += Step)
        {
            Cross(grey.AsSpan(y * width, width), here);
            if (here.Count < Edges)
            {
                continue;
            }

            Cross(grey.AsSpan((y + Step) * width, width), below);
            if (below.Count >= Met && Any(here, below))
            {
                return true;
            }
        }

        return false;
    }

    private static bool Any(List<int> here, List<int> below)
    {
        for (var k = 0; k + Edges <= here.Count; k++)
        {
            var width = here[k + Edges - 1] - here[k];
            var widest = 0;
            for (var e = k + 1; e < k + Edges; e++)
            {
                widest = Math.Max(widest, here[e] - here[e - 1]);
            }

            if (widest * (Edges - 1) <= Widest * width && Again(here, k, below))
            {
                return true;
            }
        }

        return false;
    }

    private static bool Again(List<int> here, int first, List<int> below)
    {
        for (var lean = -Lean; lean <= Lean; lean++)
        {
            var met = 0;
            for (var k = first; k < first + Edges; k++)
            {
                met += Near(below, here[k] + lean) ? 1 : 0;
            }

            if (met >= Met)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>
    /// Whether what was read along a line goes on to its sides, as bars do: the same edges at two more rows. A row through a field of dots may
    /// read as a code by chance (one in ten passes the check figure of ISO/IEC 15420); the next rows then differ.
    /// </summary>
    /// <param name="grey">Brightness.</param>
    /// <param name="width">Pixels of a row.</param>
    /// <param name="height">Rows.</param>
    /// <param name="from">One end of the line that was read.</param>
    /// <param name="to">Its other end; on the same row, or in the same column where bars lie on their side.</param>
    public static bool GoesOn(byte[] grey, int width, int height, (float X, float Y) from, (float X, float Y) to)
    {
        var upright = Math.Abs(to.X - from.X) >= Math.Abs(to.Y - from.Y);
        var (along, across) = upright ? (width, height) : (height, width);
        var (first, last) = upright ? (from.X, to.X) : (from.Y, to.Y);
        (first, last) = (Math.Min(first, last), Math.Max(first, last));
        var row = (int)Math.Round(upright ? (from.Y + to.Y) / 2 : (from.X + to.X) / 2);
        var (start, end) = (Math.Max(0, (int)first - Step), Math.Min(along, (int)last + Step + 1));
        var line = new byte[Math.Max(0, end - start)];
        List<int>? EdgesAt(int at)
        {
            if (at < 0 || at >= across)
            {
                return null;
            }

            for (var k = 0; k < line.Length; k++)
            {
                line[k] = upright ? grey[(at * width) + start + k] : grey[((start + k) * width) + at];
            }

            var edges = new List<int>();
            Cross(line, edges);
            return edges;
        }

        var here = EdgesAt(row);
        return here is { Count: > 0 } && new[] { -Step, -Step / 2, 0 }.Any(top => Same(here, row + top));

        // The row itself and two more, half a step apart.
        bool Same(List<int> edges, int top) =>
            new[] { top, top + (Step / 2), top + Step }.All(at =>
                at == row || (EdgesAt(at) is { } other && AllAgain(edges, other))
            );
    }

    private static bool AllAgain(List<int> here, List<int> other) =>
        Enumerable
            .Range(-Lean, (2 * Lean) + 1)
            .Any(lean => here.Count(e => Near(other, e + lean)) * Edges >= here.Count * Met);

    private static bool Near(List<int> edges, int place)
    {
        var at = edges.BinarySearch(place - 1);
        at = at < 0 ? ~at : at;
        return at < edges.Count && edges[at] <= place + 1;
    }

    /// <summary>Where a row crosses the middle between its darkest and its brightest.</summary>
    private static void Cross(ReadOnlySpan<byte> row, List<int> edges)
    {
        edges.Clear();
        var (low, high) = (byte.MaxValue, byte.MinValue);
        foreach (var shade in row)
        {
            (low, high) = (Math.Min(low, shade), Math.Max(high, shade));
        }

        if (high - low < 32)
        {
            return;
        }

        var middle = (low + high) / 2;
        for (var x = 1; x < row.Length; x++)
        {
            if (row[x] > middle != row[x - 1] > middle)
            {
                edges.Add(x);
            }
        }
    }
}
