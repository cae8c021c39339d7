using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Artwork;

/// <summary>A plane pooled to square cells: a cell is ink when any dot in it has any toner. Free ground lies all round.</summary>
internal sealed class InkCells
{
    private const double MostCells = 900_000;

    /// <summary>Part of a cell that a hull keeps from ink, so that rounding never cuts.</summary>
    private const double Clear = 0.25;

    private readonly double _originX;
    private readonly double _originY;

    private InkCells(byte[] ink, int width, int height, double cellMm, double originX, double originY) =>
        (Ink, Width, Height, CellMm, _originX, _originY) = (ink, width, height, cellMm, originX, originY);

    public byte[] Ink { get; }

    public int Width { get; }

    public int Height { get; }

    public double CellMm { get; }

    public static InkCells Of(
        WhitePlane plane,
        (int Left, int Top, int Right, int Bottom) box,
        double marginMm,
        double leastMm
    )
    {
        var scale = plane.DotsPerMm;
        var area = (double)(box.Right - box.Left) * (box.Bottom - box.Top) / (scale * scale);
        var side = Math.Max(leastMm, Math.Sqrt(area / MostCells));
        var dots = Math.Max(1, (int)Math.Round(side * scale));
        var margin = (int)Math.Ceiling(marginMm * scale / dots) + 2;
        var width = ((box.Right - box.Left + dots - 1) / dots) + (2 * margin);
        var height = ((box.Bottom - box.Top + dots - 1) / dots) + (2 * margin);
        var ink = new byte[width * height];
        for (var y = box.Top; y < box.Bottom; y++)
        {
            var row = plane.Coverage.AsSpan(y * plane.Width, plane.Width);
            var to = ink.AsSpan((((y - box.Top) / dots) + margin) * width, width);
            for (var (x, cell) = (box.Left, margin); x < box.Right; x += dots, cell++)
            {
                if (to[cell] == 0 && row[x..Math.Min(x + dots, box.Right)].IndexOfAnyExcept((byte)0) >= 0)
                {
                    to[cell] = 1;
                }
            }
        }

        return new(
            ink,
            width,
            height,
            dots / scale,
            (box.Left / scale) - (margin * dots / scale),
            (box.Top / scale) - (margin * dots / scale)
        );
    }

    /// <summary>A place in the grid, where cell centres lie on whole numbers, in mm of the plane's frame.</summary>
    public PointMm ToMm((float X, float Y) p) =>
        new(_originX + ((p.X + 0.5) * CellMm), _originY + ((p.Y + 0.5) * CellMm));

    /// <summary>The corners of the first and last ink cell of every row, a little outside them: enough for a hull.</summary>
    public IEnumerable<PointMm> Corners()
    {
        for (var y = 0; y < Height; y++)
        {
            var row = Ink.AsSpan(y * Width, Width);
            var (first, last) = (row.IndexOf((byte)1), row.LastIndexOf((byte)1));
            if (first >= 0)
            {
                yield return Corner(first - Clear, y - Clear);
                yield return Corner(first - Clear, y + 1 + Clear);
                yield return Corner(last + 1 + Clear, y - Clear);
                yield return Corner(last + 1 + Clear, y + 1 + Clear);
            }
        }
    }

    /// <summary>The corners of ink cells that stick out: ink on one cell of the four round a corner, which is where a line could cut.</summary>
    public IEnumerable<PointMm> EdgeCorners()
    {
        for (var y = 1; y < Height; y++)
        {
            for (var x = 1; x < Width; x++)
            {
                var i = (y * Width) + x;
                if (Ink[i] + Ink[i - 1] + Ink[i - Width] + Ink[i - Width - 1] == 1)
                {
                    yield return Corner(x, y);
                }
            }
        }
    }

    private PointMm Corner(double x, double y) => new(_originX + (x * CellMm), _originY + (y * CellMm));
}
