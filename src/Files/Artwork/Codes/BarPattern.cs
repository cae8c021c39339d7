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
                var at = below.BinarySearch(here[k] + lean - 1);
                at = at < 0 ? ~at : at;
                met += at < below.Count && below[at] <= here[k] + lean + 1 ? 1 : 0;
            }

            if (met >= Met)
            {
                return true;
            }
        }

        return false;
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
