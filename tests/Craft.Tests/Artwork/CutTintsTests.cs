using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Tests.Artwork;

/// <summary>Weak tints that a cut at one half takes away are told by their share, counted here window by window.</summary>
public sealed class CutTintsTests
{
    private const double DotsPerMm = 600 / Length.MillimetresPerInch;
    private const int Edge = 3; // 0.12 mm at 600 an inch, rounded up

    private static WhitePlane Plane(int width, int height, Func<int, int, byte> coverage) =>
        new(
            width,
            height,
            [.. Enumerable.Range(0, width * height).Select(i => coverage(i % width, i / width))],
            DotsPerMm
        );

    [Fact]
    public void The_share_of_tints_and_their_place_are_what_a_count_of_windows_says()
    {
        var rng = new Rng(11);
        for (var k = 0; k < 40; k++)
        {
            var (w, h) = (60 + rng.Below(200), 60 + rng.Below(100));
            var (left, top) = (10 + rng.Below(20), 10 + rng.Below(20));
            var (right, bottom) = (w - 10 - rng.Below(20), h - 10 - rng.Below(20));
            var holes = Enumerable.Range(0, 6).Select(_ => (X: rng.Below(w), Y: rng.Below(h))).ToArray();
            var plane = Plane(
                w,
                h,
                (x, y) =>
                    x < left || x >= right || y < top || y >= bottom ? (byte)0
                    : holes.Any(o => Math.Abs(o.X - x) < 5 && Math.Abs(o.Y - y) < 5) ? byte.MaxValue
                    : (byte)120
            );
            var (inside, toned) = (new List<(int X, int Y)>(), 0);
            for (var y = 0; y < h; y++)
            {
                for (var x = 0; x < w; x++)
                {
                    toned += plane.Coverage[(y * w) + x] > 0 ? 1 : 0;
                    if (Window(plane, x, y).All(c => c == 120))
                    {
                        inside.Add((x, y));
                    }
                }
            }

            var told = CutTints.Of(plane, null);
            if (inside.Count == 0)
            {
                Assert.Null(told);
                continue;
            }

            Assert.Equal(100.0 * inside.Count / toned, told!.Value.Percent, 1e-9);
            Assert.Equal(inside.Min(p => p.X) / DotsPerMm, told.Value.At.Left, 1e-9);
            Assert.Equal(inside.Min(p => p.Y) / DotsPerMm, told.Value.At.Top, 1e-9);
            Assert.Equal((inside.Max(p => p.X) + 1) / DotsPerMm, told.Value.At.Right, 1e-9);
            Assert.Equal((inside.Max(p => p.Y) + 1) / DotsPerMm, told.Value.At.Bottom, 1e-9);
        }
    }

    private static IEnumerable<byte> Window(WhitePlane plane, int x, int y)
    {
        for (var v = y - Edge; v <= y + Edge; v++)
        {
            for (var u = x - Edge; u <= x + Edge; u++)
            {
                var within = u >= 0 && v >= 0 && u < plane.Width && v < plane.Height;
                yield return within ? plane.Coverage[(v * plane.Width) + u] : (byte)0;
            }
        }
    }

    [Theory]
    [InlineData(245)] // navy or rich black under "dark"
    [InlineData(140)] // a middle red, which prints full
    [InlineData(255)]
    [InlineData(20)] // a pale ground
    public void What_prints_full_and_what_is_hardly_there_is_not_lost(byte coverage) =>
        Assert.Null(CutTints.Of(Plane(200, 200, (x, y) => x is > 20 and < 180 ? coverage : (byte)0), null));

    [Fact]
    public void The_soft_edges_of_an_enlarged_picture_are_no_tint()
    {
        // Six source pixels in a millimetre: an edge is a ramp of 0.17 mm, four dots.
        var plane = Plane(200, 200, (x, _) => (byte)Math.Clamp((x - 100) * 64, 0, 255));
        Assert.Null(CutTints.Of(plane, 150));
    }
}
