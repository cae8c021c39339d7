using Coldpeel.Craft.Geometry;

namespace Coldpeel.Files.Artwork;

/// <summary>Places of one finding that lie together: they share one line and one badge.</summary>
/// <param name="Number">Number of the finding in the legend, from 1.</param>
/// <param name="Box">Box round the places, in mm of the design's frame.</param>
/// <param name="Places">How many they are.</param>
public sealed record MarkCluster(int Number, BoxMm Box, int Places)
{
    /// <summary>Places nearer than this are one to the eye.</summary>
    private const double TogetherMm = 1.2;

    /// <summary>Each next try joins places that lie so much farther apart.</summary>
    private const double Wider = 1.6;

    /// <summary>More places than this are bundled before they are joined one by one.</summary>
    private const int MostApart = 500;

    /// <summary>Gathers places of the same finding that lie near one another, wider and wider until no more than <paramref name="most"/> are left.</summary>
    /// <param name="marks">Number of the finding and box of every place.</param>
    /// <param name="most">Clusters at most; never fewer than one for each finding.</param>
    public static IReadOnlyList<MarkCluster> Gather(IEnumerable<(int Number, BoxMm Box)> marks, int most)
    {
        ArgumentNullException.ThrowIfNull(marks);
        var clusters = Bundled(marks.Select(m => new MarkCluster(m.Number, m.Box, 1)).ToList());
        var fewest = clusters.Select(c => c.Number).Distinct().Count();
        for (var reach = TogetherMm; ; reach *= Wider)
        {
            Join(clusters, reach);
            if (clusters.Count <= Math.Max(most, fewest))
            {
                return clusters;
            }
        }
    }

    /// <summary>Of very many places those within the same square centimetre go together first: nobody tells them apart.</summary>
    private static List<MarkCluster> Bundled(List<MarkCluster> places) =>
        places.Count <= MostApart
            ? places
            :
            [
                .. places
                    .GroupBy(p => (p.Number, Math.Floor(p.Box.Left / 10), Math.Floor(p.Box.Top / 10)))
                    .Select(g => g.Aggregate((a, b) => a.With(b))),
            ];

    private static void Join(List<MarkCluster> clusters, double reach)
    {
        for (var i = 0; i < clusters.Count; i++)
        {
            // A joined box may meet one that was passed over before: all are looked at again, for it alone.
            for (int k; (k = Neighbour(clusters, i, reach)) >= 0; )
            {
                clusters[i] = clusters[i].With(clusters[k]);
                clusters.RemoveAt(k);
                i -= k < i ? 1 : 0;
            }
        }
    }

    private static int Neighbour(List<MarkCluster> clusters, int i, double reach)
    {
        var (number, near) = (clusters[i].Number, clusters[i].Box.Grow(reach));
        for (var k = 0; k < clusters.Count; k++)
        {
            if (k != i && clusters[k].Number == number && near.Meets(clusters[k].Box))
            {
                return k;
            }
        }

        return -1;
    }

    private MarkCluster With(MarkCluster other) =>
        new(
            Number,
            new(
                Math.Min(Box.Left, other.Box.Left),
                Math.Min(Box.Top, other.Box.Top),
                Math.Max(Box.Right, other.Box.Right),
                Math.Max(Box.Bottom, other.Box.Bottom)
            ),
            Places + other.Places
        );
}
