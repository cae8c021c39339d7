using System.Numerics;
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
        var side = Math.Clamp((int)Math.Round(CellMm * dotsPerMm), 1, byte.MaxValue);
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
            // Down the columns first, whole vectors of dots at a time; a cell has at most 255 rows.
            Span<byte> columns = new byte[field.Width];
            for (var y = v * side; y < Math.Min(field.Height, (v + 1) * side); y++)
            {
                Add(field.Shade.AsSpan(y * field.Width, field.Width), columns);
            }

            for (var u = 0; u < w; u++)
            {
                var inked = 0;
                foreach (var dots in columns[(u * side)..Math.Min(columns.Length, (u + 1) * side)])
                {
                    inked += dots;
                }

                open[(v * w) + u] = 2 * inked < side * side ? (byte)1 : (byte)0;
            }
        }
    }

    /// <summary>Counts ink: shade is 0 to 255, and its highest bit says whether it is half or more.</summary>
    private static void Add(ReadOnlySpan<byte> shade, Span<byte> columns)
    {
        unchecked
        {
            var x = 0;
            for (; x <= columns.Length - Vector<byte>.Count; x += Vector<byte>.Count)
            {
                (new Vector<byte>(columns[x..]) + (new Vector<byte>(shade[x..]) >> 7)).CopyTo(columns[x..]);
            }

            for (; x < columns.Length; x++)
            {
                columns[x] += (byte)(shade[x] >> 7);
            }
        }
    }
}
