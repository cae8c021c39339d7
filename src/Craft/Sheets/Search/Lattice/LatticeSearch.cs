using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Sheets.Search.Overlap;

namespace Coldpeel.Craft.Sheets.Search.Lattice;

/// <summary>Layouts in which a handful of copies that stand well together is repeated, for jobs of many copies of few shapes.</summary>
/// <remarks>
/// The rounds of overlap move one copy at a time and never repeat a good pair: with forty copies of one crest they end where chance left
/// them. Here the pattern is found first, on a band that repeats (<see cref="TileSearch"/>), and the sheets are filled with it.
/// </remarks>
internal sealed class LatticeSearch(SheetProblem problem, FormBook book, ContourBook contours, Trial trial)
{
    /// <summary>Fewer copies of a shape than this are laid without a pattern.</summary>
    public const int Many = 8;

    private const int MostShapes = 4;
    private const double WorthOfSheet = 0.2;
    private const double Mostly = 0.5;
    private const int ManyForms = 24;
    private const int MostLayouts = 12;
    private const int LargestMix = 4;
    private const int TilesTried = 3;
    private const int FullRounds = 800;
    private const double Nearly = 0.94;

    // What a copy of one shape is worth more than its area, so that bands of different shapes come on one sheet in different proportions.
    private static readonly double[] Dearer = [1.02, 1.08, 1.15, 1.3, 1.6];

    // Shares of the time: to look for tiles, and with full sheets; the second of each where full sheets are one or two, and so there is little to repeat.
    private static readonly (double Tiles, double All) Time = (0.15, 0.4);
    private static readonly (double Tiles, double All) TimeOfFew = (0.05, 0.1);

    /// <summary>The best layout of tiles, or null where no shape has many copies.</summary>
    /// <param name="copies">How many copies of each piece are laid.</param>
    /// <param name="search">Rounds, time and workers.</param>
    /// <param name="lanes">Where rounds are made.</param>
    /// <param name="rng">Chance.</param>
    /// <param name="few">Whether all lies on few sheets.</param>
    /// <param name="stop">Ends it early.</param>
    public TrialResult? Run(
        IReadOnlyList<int> copies,
        SheetSearch search,
        Lanes lanes,
        Rng rng,
        bool few,
        CancellationToken stop
    )
    {
        var time = few ? TimeOfFew : Time;
        var shapes = LikeCopies.Of(problem, book, copies);
        var stock = TileLayout.PatternStock(problem);
        var (length, width) = Trial.Printable(problem, stock);
        // Less than a good part of a sheet of one shape is better mixed with others, copy by copy.
        var enough = WorthOfSheet * length * width / 1e6;
        var many = shapes
            .Where(s => s.Pieces.Length >= Many && s.Pieces.Length * Area(s.Shape) >= enough)
            .Take(MostShapes)
            .ToList();
        many.RemoveAll(s => !Array.Exists(book.Ways[s.Shape], w => w.Form.ExtentV <= width));
        if (many.Count == 0 || AreaOf(many) < Mostly * AreaOf(shapes))
        {
            return null;
        }

        var motifs = many.ConvertAll(s => (int[])[s.Shape]);
        if (Mix(many) is { } mix)
        {
            motifs.Add(mix);
        }

        var thrift = search.TimeShare is null ? Math.Min(1, search.Rounds / 1000.0) : 1;
        var started = search.TimeShare?.Invoke() ?? 0;
        var tiles = new List<List<Tile>>();
        for (var k = 0; k < motifs.Count; k++)
        {
            var until = started + ((time.Tiles - started) * (k + 1) / motifs.Count);
            var across = motifs[k]
                .Max(p => (int)(width / book.Ways[p].Where(w => w.Form.ExtentV <= width).Min(w => w.Form.ExtentV)));
            tiles.Add(
                TileRace.Run(
                    (pieces, own) => new(problem, book, contours, pieces, width, own),
                    motifs[k],
                    across,
                    rng.Split(),
                    search.Workers,
                    rounds => new((long)Math.Ceiling(rounds * thrift), search.TimeShare, stop, Math.Max(0.01, until))
                )
            );
        }

        // Single copies of many forms are laid on few rows: that is quick, and the rounds move them anyway.
        var filler = book.Count > ManyForms ? new Trial(problem, book, Pace.Quick) : trial;
        var layout = new TileLayout(problem, book, filler, shapes);
        var sheet = (length / 1000.0, width / 1000.0);
        var full = new Dictionary<int, Spot[]>();
        var finder = new BandFinder(book, contours, problem.Gap.Micrometres);
        List<Band> bands = [.. many.SelectMany(s => finder.Of(s.Shape))];
        for (var k = 0; k < many.Count; k++)
        {
            var budget = new Budget(
                (long)Math.Ceiling(FullRounds * thrift),
                search.TimeShare,
                stop,
                time.Tiles + ((time.All - time.Tiles) * (k + 1) / many.Count)
            );
            var (shape, most) = (many[k].Shape, many[k].Pieces.Length);
            var banded = InBands(bands, new Dictionary<int, int> { [shape] = most }).Spots(length, width);
            var spots = tiles[k].Take(TilesTried).Select(layout.OnOneSheet).Append([.. banded]).MaxBy(s => s.Length)!;
            full[many[k].Shape] = FullSheet.More(
                book,
                contours,
                [.. spots.Select(s => s with { Piece = many[k].Shape })],
                many[k].Pieces.Length,
                sheet,
                rng.Split(),
                lanes,
                budget
            );
        }

        var best = Best(layout, many, tiles, full);
        return AsFull(many, tiles, bands, width)
            ? new[] { best, Banded(layout, many, bands) }.OfType<TrialResult>().MinBy(r => r.Score)
            : best;
    }

    /// <summary>Whether bands fill the film about as well as tiles do: where a shape needs three lines that reach into each other, they do not.</summary>
    private bool AsFull(List<LikeCopies> many, List<List<Tile>> tiles, List<Band> bands, long width)
    {
        var (byTiles, byBands) = (0.0, 0.0);
        for (var k = 0; k < many.Count; k++)
        {
            var (shape, area) = (many[k].Shape, Area(many[k].Shape));
            byTiles += many[k].Pieces.Length * area * width / 1000 / (tiles[k].Count > 0 ? tiles[k][0].AreaPerMm : 1);
            byBands +=
                many[k].Pieces.Length
                * bands
                    .Where(b => b.Shape == shape)
                    .Min(b => (double)(b.Width + problem.Gap.Micrometres) * b.Pitch / b.Lines.Length)
                / 1e6;
        }

        return byBands * Nearly < byTiles;
    }

    private BandFill InBands(List<Band> bands, IReadOnlyDictionary<int, int> wanted, int dear = -1, double by = 1) =>
        new(bands, wanted, s => Area(s) * (s == dear ? by : 1), problem.Gap.Micrometres);

    /// <summary>The best layout in bands: with several shapes now one and now another counts for more than its area, so that sheets are mixed in many ways.</summary>
    private TrialResult? Banded(TileLayout layout, List<LikeCopies> many, List<Band> bands)
    {
        int[] shapes = [.. many.Select(s => s.Shape)];
        var dear = many.Count == 1 ? [(-1, 1.0)] : shapes.SelectMany(s => Dearer.Select(by => (s, by)));
        return dear.Select(d => layout.Run(shapes, wanted => InBands(bands, wanted, d.Item1, d.Item2)))
            .OfType<TrialResult>()
            .MinBy(r => r.Score);
    }

    /// <summary>Two or three shapes that are asked for in simple proportion, as one motif.</summary>
    private static int[]? Mix(List<LikeCopies> many)
    {
        if (many.Count is < 2 or > 3)
        {
            return null;
        }

        var least = many.Min(s => s.Pieces.Length);
        var parts = many.ConvertAll(s => (int)Math.Round((double)s.Pieces.Length / least));
        return parts.Sum() <= LargestMix ? [.. many.SelectMany((s, k) => Enumerable.Repeat(s.Shape, parts[k]))] : null;
    }

    private double AreaOf(List<LikeCopies> shapes) => shapes.Sum(s => s.Pieces.Length * Area(s.Shape));

    private double Area(int shape) => Rings.Area(problem.Pieces[shape].Outline);

    private static TrialResult? Best(
        TileLayout layout,
        List<LikeCopies> many,
        List<List<Tile>> tiles,
        Dictionary<int, Spot[]> full
    )
    {
        TrialResult? best = null;
        void Try(IReadOnlyList<Tile> blocks)
        {
            if (layout.Run(blocks, full) is { } next && (best is null || next.Score.CompareTo(best.Score) < 0))
            {
                best = next;
            }
        }

        var single = tiles.Take(many.Count).Where(t => t.Count > 0).Select(t => t.Take(TilesTried).ToList()).ToList();
        foreach (var blocks in Choices(single).Take(MostLayouts))
        {
            Try(blocks);
            if (blocks.Count > 1)
            {
                Try([.. Enumerable.Reverse(blocks)]);
            }
        }

        foreach (var mixed in tiles.Skip(many.Count).SelectMany(t => t.Take(TilesTried)))
        {
            Try([mixed, .. single.Select(t => t[0])]);
        }

        return best;
    }

    /// <summary>Every way to take one tile of each shape.</summary>
    private static List<List<Tile>> Choices(List<List<Tile>> tiles)
    {
        List<List<Tile>> choices =
        [
            [],
        ];
        foreach (var some in tiles)
        {
            choices = [.. choices.SelectMany(c => some.Select(t => (List<Tile>)[.. c, t]))];
        }

        return choices;
    }
}
