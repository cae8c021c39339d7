namespace Coldpeel.Craft.Sheets.Search.Lattice;

/// <summary>A few copies that lie on a band of film and again a period further on, and again: none overlaps any other.</summary>
/// <param name="Spots">Their places in the first period, by piece and way.</param>
/// <param name="PeriodU">How far on everything repeats, in whole micrometres.</param>
/// <param name="AreaMm2">Area of the pieces in one period.</param>
internal sealed record Tile(Spot[] Spots, long PeriodU, double AreaMm2)
{
    /// <summary>Area laid per length of film, in mm²/mm.</summary>
    public double AreaPerMm => AreaMm2 / (PeriodU / 1000.0);

    /// <summary>All repeats that lie on a length of film when the pattern is shifted so that most do, the nearest first.</summary>
    /// <param name="lengthU">Length in micrometres.</param>
    /// <param name="wanted">How many are wanted of each kind of shape; the shift with the most of those wins.</param>
    public List<Spot> On(long lengthU, Func<int, int> wanted)
    {
        List<Spot> best = [];
        var most = 0;
        foreach (var phase in Spots.Select(s => s.U).Distinct())
        {
            var all = Repeats(phase, lengthU);
            var useful = all.GroupBy(s => s.Piece).Sum(g => Math.Min(g.Count(), wanted(g.Key)));
            if (useful > most)
            {
                (best, most) = (all, useful);
            }
        }

        return [.. best.OrderBy(s => s.U + s.Way.Form.ExtentU).ThenBy(s => s.V)];
    }

    private List<Spot> Repeats(long phase, long lengthU)
    {
        var all = new List<Spot>();
        foreach (var spot in Spots)
        {
            var u = (spot.U - phase + PeriodU) % PeriodU;
            for (; u + spot.Way.Form.ExtentU <= lengthU; u += PeriodU)
            {
                all.Add(spot with { U = u });
            }
        }

        return all;
    }
}
