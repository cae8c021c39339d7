using Coldpeel.Craft.Artwork;
using CsCheck;

namespace Coldpeel.Craft.Tests.Artwork;

public sealed class ComponentsTests
{
    /// <summary>Against a flood fill from every dot, the textbook definition of connectedness.</summary>
    [Fact]
    public void Parts_are_those_of_a_flood_fill() =>
        Gen.Select(Gen.Int[1, 25], Gen.Int[1, 25], Gen.Bool)
            .SelectMany((w, h, ground) => Gen.Byte[0, 1].Array[w * h].Select(m => (w, h, ground, m)))
            .Sample(
                (w, h, ground, marked) =>
                {
                    var parts = Components.Label(marked, w, h, ground);
                    var fill = Flood(marked, w, h, ground, out var areas);
                    return parts.Parts.Select(p => p.Area).SequenceEqual(areas)
                        && Enumerable.Range(0, w * h).All(i => parts.At(i % w, i / w) == fill[i]);
                },
                iter: 500
            );

    [Fact]
    public void A_diagonal_joins_ink_and_parts_ground()
    {
        byte[] diagonal = [1, 0, 0, 1];
        Assert.Equal([new Component(2, 0, 0, 2, 2)], Components.Label(diagonal, 2, 2).Parts);
        Assert.Equal(2, Components.Label(diagonal, 2, 2, ground: true).Parts.Count);
    }

    private static int[] Flood(byte[] marked, int w, int h, bool ground, out List<int> areas)
    {
        var label = new int[w * h];
        Array.Fill(label, -1);
        areas = [];
        for (var i = 0; i < label.Length; i++)
        {
            if (marked[i] == 0 != ground || label[i] >= 0)
            {
                continue;
            }

            var open = new Queue<int>([i]);
            label[i] = areas.Count;
            var area = 0;
            while (open.TryDequeue(out var k))
            {
                area++;
                for (var n = 0; n < 9; n++)
                {
                    var (x, y) = ((k % w) + (n % 3) - 1, (k / w) + (n / 3) - 1);
                    var diagonal = n % 2 == 0;
                    if (x >= 0 && y >= 0 && x < w && y < h && !(ground && diagonal))
                    {
                        var j = (y * w) + x;
                        if (marked[j] == 0 == ground && label[j] < 0)
                        {
                            label[j] = label[i];
                            open.Enqueue(j);
                        }
                    }
                }
            }

            areas.Add(area);
        }

        return label;
    }
}
