namespace Coldpeel.Craft.Artwork;

/// <summary>A plane parted into tints, which a screen draws, and all else, which is cut at one half.</summary>
internal sealed class TintedPlane
{
    private readonly WhitePlane _grey;
    private readonly double[] _asked;
    private ushort[] _squares = [];
    private double _room;

    private TintedPlane(WhitePlane grey, double[] asked, byte[]? mask, WhitePlane cut) =>
        (_grey, _asked, Mask, Cut) = (grey, asked, mask, cut);

    /// <summary>Not zero where a tint lies; null when there is none.</summary>
    public byte[]? Mask { get; }

    /// <summary>The plane of one bit a dot: here the screen draws its tints.</summary>
    public WhitePlane Cut { get; }

    /// <summary>Parts a plane; solids keep their edges, and light tints keep away from them.</summary>
    /// <param name="grey">The plane with tints, left as it is.</param>
    /// <param name="sourceDpi">As for <see cref="SurvivalCheck.Check"/>.</param>
    /// <param name="curve">What asked tints must be asked as; null for as they are.</param>
    /// <param name="dotMm">Diameter of the smallest dot.</param>
    /// <param name="gapMm">Narrowest gap.</param>
    /// <param name="reachMm">How much more room <see cref="IsFree"/> may be asked for.</param>
    public static TintedPlane Of(
        WhitePlane grey,
        double? sourceDpi,
        ToneCurve? curve,
        double dotMm,
        double gapMm,
        double reachMm
    )
    {
        var asked = Enumerable.Range(0, 256).Select(c => curve?.Ask(c / 255.0) ?? c / 255.0).ToArray();
        var edge = PlaneSurvey.SoftEdge(grey.DotsPerMm, sourceDpi);
        var found = Tints.Find(grey, edge);
        var parted = new TintedPlane(grey, asked, found?.Mask, PlaneMaker.Cut(grey));
        if (parted.Mask is not { } mask)
        {
            return parted;
        }

        var solid = SolidInTints.Of(grey, edge, dotMm);
        for (var i = 0; i < solid.Length; i++)
        {
            mask[i] = solid[i] != 0 ? (byte)0 : mask[i];
        }

        var means = parted.Means(Math.Max(1, (int)(gapMm * grey.DotsPerMm)));
        parted._squares = SolidInTints.KeepApart(solid, mask, parted.Cut, gapMm, means.At, reachMm);
        parted._room = SolidInTints.Room(gapMm, grey.DotsPerMm);
        return parted;
    }

    /// <summary>Whether so many dots round a place are clear of solids and of the room beside them.</summary>
    public bool IsFree(double x, double y, double dots)
    {
        var (u, v) = (Math.Clamp((int)x, 0, Cut.Width - 1), Math.Clamp((int)y, 0, Cut.Height - 1));
        return _squares[(v * Cut.Width) + u] > (_room + dots) * (_room + dots);
    }

    /// <summary>The tint to be asked for at a dot, 0 to 1.</summary>
    public double Tone(int dot) => _asked[_grey.Coverage[dot]];

    /// <summary>Mean tints over blocks of so many dots.</summary>
    public BlockMeans Means(int side)
    {
        var (across, down) = ((_grey.Width + side - 1) / side, (_grey.Height + side - 1) / side);
        var means = new double[across * down];
        Parallel.For(
            0,
            down,
            row =>
            {
                var counts = new int[across];
                var sums = means.AsSpan(row * across, across);
                for (var y = row * side; y < Math.Min(_grey.Height, (row + 1) * side); y++)
                {
                    for (var x = 0; x < _grey.Width; x++)
                    {
                        var i = (y * _grey.Width) + x;
                        if (Mask![i] != 0)
                        {
                            sums[x / side] += Tone(i);
                            counts[x / side]++;
                        }
                    }
                }

                for (var k = 0; k < across; k++)
                {
                    sums[k] = counts[k] == 0 ? double.NaN : sums[k] / counts[k];
                }
            }
        );
        return new(means, across, down, side);
    }

    /// <summary>Mean tints over square blocks; none where a block holds no tint.</summary>
    internal sealed class BlockMeans(double[] means, int across, int down, int side)
    {
        public double? At(double x, double y)
        {
            var (i, j) = ((int)Math.Floor(x / side), (int)Math.Floor(y / side));
            if (i < 0 || j < 0 || i >= across || j >= down)
            {
                return null;
            }

            var mean = means[(j * across) + i];
            return double.IsNaN(mean) ? null : mean;
        }
    }
}
