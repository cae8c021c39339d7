namespace Coldpeel.Craft.Artwork;

/// <summary>A plane parted into tints, which a screen draws, and all else, which is cut at one half.</summary>
internal sealed class TintedPlane
{
    private readonly WhitePlane _grey;
    private readonly double[] _asked;

    private TintedPlane(WhitePlane grey, double[] asked, byte[]? mask, WhitePlane cut) =>
        (_grey, _asked, Mask, Cut) = (grey, asked, mask, cut);

    /// <summary>Not zero where a tint lies; null when there is none.</summary>
    public byte[]? Mask { get; }

    /// <summary>The plane of one bit a dot: here the screen draws its tints.</summary>
    public WhitePlane Cut { get; }

    public static TintedPlane Of(WhitePlane grey, double? sourceDpi, ToneCurve? curve)
    {
        var asked = Enumerable.Range(0, 256).Select(c => curve?.Ask(c / 255.0) ?? c / 255.0).ToArray();
        var found = Tints.Find(grey, PlaneSurvey.SoftEdge(grey.DotsPerMm, sourceDpi));
        var cut = new byte[grey.Coverage.Length];
        for (var i = 0; i < cut.Length; i++)
        {
            cut[i] = grey.Coverage[i] >= 128 ? (byte)255 : (byte)0;
        }

        return new(grey, asked, found?.Mask, new(grey.Width, grey.Height, cut, grey.DotsPerMm));
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
