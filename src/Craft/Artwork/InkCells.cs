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
    private readonly int _dotsPerCell;
    private readonly int _margin;

    private InkCells(
        byte[] ink,
        int width,
        int height,
        double dotsPerMm,
        (int Left, int Top, int Right, int Bottom) dots,
        int dotsPerCell,
        int margin
    )
    {
        (Ink, Width, Height, CellMm) = (ink, width, height, dotsPerCell / dotsPerMm);
        (Dots, _dotsPerCell, _margin) = (dots, dotsPerCell, margin);
        (_originX, _originY) = (
            (dots.Left / dotsPerMm) - (margin * CellMm),
            (dots.Top / dotsPerMm) - (margin * CellMm)
        );
    }

    /// <summary>The box round all dots with toner; right and bottom are one beyond the last.</summary>
    public (int Left, int Top, int Right, int Bottom) Dots { get; }

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

        return new(ink, width, height, scale, box, dots, margin);
    }

    /// <summary>What a shape holds beside ink, and the ink cells next to that, as boxes of dots (right and bottom one beyond).</summary>
    /// <remarks>An ink cell may be ink in one corner only; whole, it holds on to the bridge beside it.</remarks>
    public IEnumerable<(int Left, int Top, int Right, int Bottom)> Bridges(byte[] shape)
    {
        bool Bridge(int i) => shape[i] != 0 && Ink[i] == 0;
        for (var y = 1; y < Height - 1; y++)
        {
            for (var x = 1; x < Width - 1; x++)
            {
                var i = (y * Width) + x;
                if (
                    shape[i] != 0
                    && (
                        Ink[i] == 0
                        || Bridge(i - 1)
                        || Bridge(i + 1)
                        || Bridge(i - Width)
                        || Bridge(i + Width)
                        || Bridge(i - Width - 1)
                        || Bridge(i - Width + 1)
                        || Bridge(i + Width - 1)
                        || Bridge(i + Width + 1)
                    )
                )
                {
                    var (left, top) = (
                        Dots.Left + ((x - _margin) * _dotsPerCell),
                        Dots.Top + ((y - _margin) * _dotsPerCell)
                    );
                    yield return (left, top, left + _dotsPerCell, top + _dotsPerCell);
                }
            }
        }
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
