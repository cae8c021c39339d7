using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Sheets.Search;
using Coldpeel.Craft.Tests.Geometry;
using NetTopologySuite.Geometries;

namespace Coldpeel.Craft.Tests.Sheets;

/// <summary>Copies of one outline as a search lays them, as shapes of an independent library.</summary>
internal static class LaidSpots
{
    private const double ToleranceMm = 0.005;

    /// <summary>The shapes, in mm, of which each pair was seen to keep the gap.</summary>
    public static List<Polygon> KeepingTheGap(Region outline, IEnumerable<Spot> spots, double gap)
    {
        var shapes = spots
            .Select(spot =>
                Outlines.Nts(
                    outline,
                    p =>
                    {
                        // The search's frame lies along the sheet: its u is the paper's y.
                        var turned = spot.Way.Turn.Of(p);
                        return new(
                            turned.X + ((spot.V - spot.Way.OffsetV) / 1000.0),
                            turned.Y + ((spot.U - spot.Way.OffsetU) / 1000.0)
                        );
                    }
                )
            )
            .ToList();
        for (var i = 0; i < shapes.Count; i++)
        {
            for (var j = 0; j < i; j++)
            {
                Assert.True(shapes[i].Distance(shapes[j]) >= gap - ToleranceMm);
            }
        }

        return shapes;
    }
}
