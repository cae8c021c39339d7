using Coldpeel.Craft.Artwork;
using CsCheck;

namespace Coldpeel.Craft.Tests.Artwork;

public sealed class DistanceMapTests
{
    /// <summary>Against the definition itself: the least distance over all marked dots.</summary>
    [Fact]
    public void Every_distance_is_the_least_one_that_brute_force_finds() =>
        Gen.Select(Gen.Int[1, 40], Gen.Int[1, 40], Gen.Int[1, 300])
            .SelectMany(
                (w, h, rare) =>
                    Gen.Int[0, rare].Select(i => i == 0 ? (byte)1 : (byte)0).Array[w * h].Select(m => (w, h, m))
            )
            .Sample(
                (w, h, marked) =>
                {
                    var map = DistanceMap.To(marked, w, h);
                    for (var i = 0; i < map.Length; i++)
                    {
                        var least = double.PositiveInfinity;
                        for (var k = 0; k < marked.Length; k++)
                        {
                            var (dx, dy) = ((k % w) - (i % w), (k / w) - (i / w));
                            least = marked[k] == 0 ? least : Math.Min(least, Math.Sqrt((dx * dx) + (dy * dy)));
                        }

                        if (least != map[i] && !(Math.Abs(least - map[i]) < 1e-4))
                        {
                            return false;
                        }
                    }

                    return true;
                },
                iter: 300
            );

    [Fact]
    public void A_bounded_map_tells_the_same_up_to_its_bound_and_nothing_smaller_beyond() =>
        Gen.Select(Gen.Int[1, 70], Gen.Int[1, 40], Gen.Int[1, 300], Gen.Double[0.5, 20])
            .SelectMany(
                (w, h, rare, most) =>
                    Gen.Int[0, rare].Select(i => i == 0 ? (byte)1 : (byte)0).Array[w * h].Select(m => (w, h, m, most))
            )
            .Sample(
                (w, h, marked, most) =>
                    DistanceMap
                        .To(marked, w, h)
                        .Zip(DistanceMap.To(marked, w, h, most))
                        .All(d => d.First <= most ? d.First == d.Second : d.Second > most),
                iter: 300
            );

    [Fact]
    public void A_single_dot_sees_the_far_corner_of_a_large_plane()
    {
        // 3-4-5 triangle: 3000 across and 4000 down are 5000 away.
        var marked = new byte[3001 * 4001];
        marked[0] = 1;
        Assert.Equal(5000f, DistanceMap.To(marked, 3001, 4001)[^1]);
    }
}
