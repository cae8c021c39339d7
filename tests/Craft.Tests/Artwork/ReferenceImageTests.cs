using Coldpeel.Craft.Artwork;
using CsCheck;
using OpenCvSharp;

namespace Coldpeel.Craft.Tests.Artwork;

/// <summary>
/// Distances, openings and connected parts against OpenCV 4.13 through its C# binding: another hand's code on the same planes. It runs
/// on Linux x64 with the libraries of a desktop; elsewhere these tests are skipped.
/// </summary>
public sealed class ReferenceImageTests(ITestOutputHelper output)
{
    private const int Planes = 200;

    /// <summary>To 1e-4 dots, whatever the distance: against the definition in whole numbers, and against the library, which is itself held to the definition.</summary>
    [Fact]
    public void Distances_equal_the_exact_ones_and_those_of_a_reference_library()
    {
        var (ours, theirs) = (0.0, 0.0);
        OnPlanes(
            (w, h, marks) =>
            {
                if (Array.TrueForAll(marks, m => m == 0))
                {
                    return;
                }

                // The library measures from every dot to the nearest zero.
                using var free = Grid(w, h, marks, m => m == 0);
                using var map = new Mat();
                Cv2.DistanceTransform(free, map, DistanceTypes.L2, DistanceTransformMasks.Precise);
                Assert.True(map.GetArray(out float[] far));
                var squares = ExactSquares(w, h, marks);
                var distances = DistanceMap.To(marks, w, h);
                var near = new ushort[marks.Length];
                NearDistances.Squared(marks, w, h, 9, 1, near);
                for (var i = 0; i < distances.Length; i++)
                {
                    var exact = Math.Sqrt(squares[i]);
                    Assert.Equal(exact, distances[i], 1e-4);
                    Assert.Equal(Math.Min(100, squares[i]), near[i]);
                    Assert.Equal(exact, far[i], 1e-4);
                    Assert.Equal(far[i], distances[i], 1e-4);
                    ours = Math.Max(ours, Math.Abs(exact - distances[i]));
                    theirs = Math.Max(theirs, Math.Abs(exact - far[i]));
                }
            }
        );
        output.WriteLine(
            $"farthest from the exact distance: ours {ours:0.0e+0} dots, the library's {theirs:0.0e+0} dots"
        );
    }

    /// <summary>Squared distances by the definition in two steps, in whole numbers (Pythagoras): the nearest mark of every column, then the least over all columns.</summary>
    private static int[] ExactSquares(int w, int h, byte[] marks)
    {
        const int None = 100_000;
        var down = new int[w * h];
        for (var x = 0; x < w; x++)
        {
            for (var y = 0; y < h; y++)
            {
                var least = None;
                for (var v = 0; v < h; v++)
                {
                    least = marks[(v * w) + x] == 0 ? least : Math.Min(least, Math.Abs(v - y));
                }

                down[(y * w) + x] = least;
            }
        }

        var squares = new int[w * h];
        for (var i = 0; i < squares.Length; i++)
        {
            var least = int.MaxValue;
            for (var u = 0; u < w; u++)
            {
                var (across, along) = (u - (i % w), down[(i / w * w) + u]);
                least = along == None ? least : Math.Min(least, (across * across) + (along * along));
            }

            squares[i] = least;
        }

        return squares;
    }

    [Fact]
    public void Openings_and_closings_equal_those_of_a_reference_library() =>
        OnPlanes(
            (w, h, marks) =>
            {
                foreach (var radius in new[] { 1.0, 1.5, 2.3, 4, 7.2 })
                {
                    using var disc = Disc(radius);
                    using var ink = Grid(w, h, marks, m => m != 0);
                    Assert.Equal(Theirs(ink, disc, MorphTypes.Open), Morphology.Open(marks, w, h, radius));
                    Assert.Equal(Theirs(ink, disc, MorphTypes.Close), Morphology.Close(marks, w, h, radius));
                }
            }
        );

    [Fact]
    public void Connected_parts_equal_those_of_a_reference_library() =>
        OnPlanes(
            (w, h, marks) =>
            {
                foreach (var ground in new[] { false, true })
                {
                    using var shape = Grid(w, h, marks, m => m != 0 != ground);
                    using Mat labels = new(),
                        stats = new(),
                        centres = new();
                    var meet = ground ? PixelConnectivity.Connectivity4 : PixelConnectivity.Connectivity8;
                    var count = Cv2.ConnectedComponentsWithStats(shape, labels, stats, centres, meet);
                    var theirs = Enumerable.Range(1, count - 1).Select(k => Part(stats, k));
                    var ours = Components.Label(marks, w, h, ground).Parts;
                    Assert.Equal(theirs.Order(), ours.Select(Part).Order());
                }
            }
        );

    private static (int Area, int Left, int Top, int Width, int Height) Part(Mat stats, int k) =>
        (stats.At<int>(k, 4), stats.At<int>(k, 0), stats.At<int>(k, 1), stats.At<int>(k, 2), stats.At<int>(k, 3));

    private static (int Area, int Left, int Top, int Width, int Height) Part(Component c) =>
        (c.Area, c.Left, c.Top, c.Right - c.Left, c.Bottom - c.Top);

    private static byte[] Theirs(Mat ink, Mat disc, MorphTypes kind)
    {
        using var result = new Mat();
        Cv2.MorphologyEx(ink, result, kind, disc);
        Assert.True(result.GetArray(out byte[] dots));
        return [.. dots.Select(d => (byte)(d == 0 ? 0 : 1))];
    }

    private static Mat Disc(double radius)
    {
        var r = (int)radius;
        var disc = new Mat((2 * r) + 1, (2 * r) + 1, MatType.CV_8UC1, Scalar.Black);
        for (var v = -r; v <= r; v++)
        {
            for (var u = -r; u <= r; u++)
            {
                disc.Set(v + r, u + r, (u * u) + (v * v) <= radius * radius ? (byte)1 : (byte)0);
            }
        }

        return disc;
    }

    private static Mat Grid(int w, int h, byte[] marks, Func<byte, bool> set)
    {
        var grid = new Mat(h, w, MatType.CV_8UC1);
        grid.SetArray([.. marks.Select(m => set(m) ? (byte)255 : (byte)0)]);
        return grid;
    }

    /// <summary>Random planes from lone dots to nearly solid, in blocks of one to eight dots; sizes cross the widths of vectors and strips.</summary>
    private static void OnPlanes(Action<int, int, byte[]> check)
    {
        try
        {
            Cv2.GetVersionString();
        }
        catch (Exception e) when (e is DllNotFoundException or TypeInitializationException or OpenCvSharpException)
        {
            Assert.Skip("The reference library does not run here: " + e.Message);
        }

        Gen.Select(Gen.Int[1, 130], Gen.Int[1, 230], Gen.Int[1, 8], Gen.Double[0.001, 0.999])
            .SelectMany(
                (w, h, block, share) =>
                    Gen.Double[0, 1]
                        .Array[((w / block) + 1) * ((h / block) + 1)]
                        .Select(cells =>
                            (
                                w,
                                h,
                                Enumerable
                                    .Range(0, w * h)
                                    .Select(i =>
                                        cells[(i / w / block * ((w / block) + 1)) + (i % w / block)] < share
                                            ? (byte)1
                                            : (byte)0
                                    )
                                    .ToArray()
                            )
                        )
            )
            .Sample((w, h, marks) => check(w, h, marks), iter: Planes, threads: 1);
    }
}
