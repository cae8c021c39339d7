using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Sheets.Search.Overlap;

namespace Coldpeel.Craft.Sheets.Search.Lattice;

/// <summary>Tries handfuls of several sizes and gives the rounds to those that fill the film best.</summary>
internal static class TileRace
{
    private const int LargestHandful = 16;

    // Share of the runners that goes on, and rounds of each, leg by leg.
    private static readonly (double Share, int Rounds)[] Legs = [(1, 160), (0.4, 500), (0.2, 1300)];

    /// <summary>The best tiles, the fullest first.</summary>
    /// <param name="start">Makes the search for a handful.</param>
    /// <param name="motif">Pieces of the smallest handful; larger ones hold it several times.</param>
    /// <param name="across">How many copies stand side by side at most.</param>
    /// <param name="rng">Chance.</param>
    /// <param name="workers">How many run at once; the answer is the same.</param>
    /// <param name="budget">Rounds that a leg of so many may spend.</param>
    public static List<Tile> Run(
        Func<IReadOnlyList<int>, Rng, TileSearch> start,
        IReadOnlyList<int> motif,
        int across,
        Rng rng,
        int workers,
        Func<int, Budget> budget
    )
    {
        var most = Math.Clamp((2 * across) + 1, 1, LargestHandful) / motif.Count;
        var runners = Enumerable
            .Range(1, Math.Max(1, most))
            .Select(m => start([.. Enumerable.Repeat(motif, m).SelectMany(x => x)], rng.Split()))
            .ToList();
        foreach (var (share, rounds) in Legs)
        {
            var run = runners.Where(r => r.Open).Take((int)Math.Ceiling(share * most)).ToList();
            Parallel.ForEach(
                run,
                new ParallelOptions { MaxDegreeOfParallelism = workers },
                runner => runner.Run(budget(rounds))
            );
            runners = [.. runners.OrderByDescending(r => r.Best?.AreaPerMm ?? 0)];
        }

        return [.. runners.Select(r => r.Best).OfType<Tile>()];
    }
}
