namespace Coldpeel.Craft.Artwork;

/// <summary>Brings strengths from a picture's pixels to the printer's dots.</summary>
/// <remarks>
/// Where dots are coarser than pixels each dot takes the mean over its area, exactly. Where they are finer the cubic of Mitchell and
/// Netravali (Reconstruction filters in computer graphics, SIGGRAPH 1988, B = C = 1/3) gives edges that a cut at one half turns into
/// smooth outlines. Beyond the picture there is nothing: a dot partly outside gets the share that lies inside.
/// </remarks>
internal static class Resampler
{
    /// <summary>Row by row, 0 to 255, rounded to the nearest.</summary>
    /// <param name="map">Strengths of the pixels.</param>
    /// <param name="width">Pixels across.</param>
    /// <param name="height">Pixels down.</param>
    /// <param name="dotsAcross">Dots that the picture spans, not whole in general.</param>
    /// <param name="dotsDown">The same down.</param>
    /// <param name="oneBit">Cut at one half instead of keeping grey.</param>
    public static byte[] To(byte[] map, int width, int height, double dotsAcross, double dotsDown, bool oneBit)
    {
        var across = new Axis(width, dotsAcross);
        var down = new Axis(height, dotsDown);
        var result = new byte[(long)across.Dots * down.Dots];
        Parallel.For(
            0,
            down.Dots,
            () => new float[width],
            (y, _, line) =>
            {
                unchecked
                {
                    Array.Clear(line);
                    for (var k = down.Start[y]; k < down.Start[y + 1]; k++)
                    {
                        var weight = down.Weight[k];
                        var from = map.AsSpan(down.Index[k] * width, width);
                        for (var x = 0; x < line.Length; x++)
                        {
                            line[x] += weight * from[x];
                        }
                    }

                    var to = result.AsSpan((int)((long)y * across.Dots), across.Dots);
                    for (var x = 0; x < to.Length; x++)
                    {
                        float sum = 0;
                        for (var k = across.Start[x]; k < across.Start[x + 1]; k++)
                        {
                            sum += across.Weight[k] * line[across.Index[k]];
                        }

                        to[x] =
                            oneBit ? (sum >= 127.5f ? (byte)255 : (byte)0)
                            : sum <= 0 ? (byte)0
                            : sum >= 254.5f ? (byte)255
                            : (byte)(sum + 0.5f);
                    }
                }

                return line;
            },
            _ => { }
        );
        return result;
    }

    /// <summary>Which pixels make each dot along one axis, and with what weight.</summary>
    private sealed class Axis
    {
        public Axis(int pixels, double dots)
        {
            // A millionth of a dot is rounding of the size, not picture.
            Dots = Math.Max(1, (int)Math.Ceiling(dots - 1e-6));
            Start = new int[Dots + 1];
            var scale = dots / pixels;
            for (var i = 0; i < Dots; i++)
            {
                var inside = Math.Clamp(dots - i, 0, 1);
                inside = inside > 1 - 1e-6 ? 1 : inside;
                if (scale < 1)
                {
                    Mean(i / scale, (i + 1) / scale, pixels);
                }
                else
                {
                    Cubic(((i + 0.5) / scale) - 0.5, pixels, inside);
                }

                Start[i + 1] = Index.Count;
            }
        }

        public int Dots { get; }

        public int[] Start { get; }

        public List<int> Index { get; } = [];

        public List<float> Weight { get; } = [];

        private void Mean(double from, double to, int pixels)
        {
            for (var p = (int)from; p < Math.Min(pixels, to); p++)
            {
                var share = Math.Min(to, p + 1) - Math.Max(from, p);
                if (share > 0)
                {
                    Index.Add(p);
                    Weight.Add((float)(share / (to - from)));
                }
            }
        }

        private void Cubic(double at, int pixels, double inside)
        {
            var first = (int)Math.Floor(at) - 1;
            for (var p = first; p < first + 4; p++)
            {
                Index.Add(Math.Clamp(p, 0, pixels - 1));
                Weight.Add((float)(Mitchell(Math.Abs(at - p)) * inside));
            }
        }

        private static double Mitchell(double x) =>
            x < 1 ? ((7 * x * x * x) - (12 * x * x) + (16.0 / 3)) / 6
            : x < 2 ? ((-7.0 / 3 * x * x * x) + (12 * x * x) - (20 * x) + (32.0 / 3)) / 6
            : 0;
    }
}
