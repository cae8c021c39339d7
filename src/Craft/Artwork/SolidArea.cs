using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Artwork;

/// <summary>Finds the largest unbroken solid area: the largest circle that fits into the ink.</summary>
/// <remarks>
/// Measured on cells of about 0.25 mm, each solid when at least half of it is inked: slits finer than half a cell do not break it.
/// Good to a cell.
/// </remarks>
internal static class SolidArea
{
    private const double CellMm = 0.25;

    /// <summary>Its diameter in mm, and its box in the plane's frame.</summary>
    public static (double DiameterMm, BoxMm At) Largest(InkField field, double dotsPerMm)
    {
        var side = Math.Max(1, (int)Math.Round(CellMm * dotsPerMm));
        var (w, h) = (((field.Width - 1) / side) + 1, ((field.Height - 1) / side) + 1);
        var open = new byte[w * h];
        Parallel.For(0, h, v => Row(field, side, w, v, open));
        var distance = DistanceMap.To(open, w, h);
        var best = 0;
        for (var i = 1; i < distance.Length; i++)
        {
            best = distance[i] > distance[best] ? i : best;
        }

        var radius = Math.Max(0, distance[best] - 0.5) * side / dotsPerMm;
        var x = (((best % w) + 0.5) * side + field.OffsetX) / dotsPerMm;
        var y = (((best / w) + 0.5) * side + field.OffsetY) / dotsPerMm;
        return (2 * radius, new(x - radius, y - radius, x + radius, y + radius));
    }

    /// <summary>Marks the cells of a row that are not solid. The field has free ground all round, so every distance is finite.</summary>
    private static void Row(InkField field, int side, int w, int v, byte[] open)
    {
        unchecked
        {
            Span<int> inked = new int[w];
            for (var y = v * side; y < Math.Min(field.Height, (v + 1) * side); y++)
            {
                var row = field.Ink.AsSpan(y * field.Width, field.Width);
                for (var u = 0; u < w; u++)
                {
                    var cell = row[(u * side)..Math.Min(row.Length, (u + 1) * side)];
                    foreach (var dot in cell)
                    {
                        inked[u] += dot;
                    }
                }
            }

            for (var u = 0; u < w; u++)
            {
                open[(v * w) + u] = 2 * inked[u] < side * side ? (byte)1 : (byte)0;
            }
        }
    }
}
