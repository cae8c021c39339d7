namespace Coldpeel.Craft.Sheets.Search.Lattice;

/// <summary>Fills sheets with repeats of tiles, block after block, or with bands, and what room is left with single copies.</summary>
internal sealed class TileLayout(SheetProblem problem, FormBook book, Trial trial, IReadOnlyList<LikeCopies> shapes)
{
    // How closely the least length of the last sheet is looked for, in micrometres.
    private const long Shorter = 500;

    private static readonly Taste Near = new(1, 0, 0);

    private readonly Dictionary<int, Queue<int>> _left = [];
    private readonly List<OpenSheet> _sheets = [];
    private readonly int[] _used = new int[problem.Sheets.Length];

    /// <summary>The layout, or null where copies are left over.</summary>
    /// <param name="blocks">Tiles in the order in which their copies are laid; shapes in none of them are laid one by one.</param>
    /// <param name="full">For a shape the pattern of a sheet full of it, where one is known.</param>
    public TrialResult? Run(IReadOnlyList<Tile> blocks, IReadOnlyDictionary<int, Spot[]> full)
    {
        Begin();
        foreach (var tile in blocks)
        {
            while (tile.Spots.Any(s => Left(s.Piece) > 0))
            {
                if (!LayFull(tile, full) && !LayTile(tile))
                {
                    break;
                }
            }
        }

        return Rest();
    }

    /// <summary>The layout in bands, or null where copies are left over.</summary>
    /// <param name="banded">The shapes that are laid in bands; others are laid one by one.</param>
    /// <param name="fill">Fills a rectangle, where so many copies of each shape are wanted.</param>
    public TrialResult? Run(IReadOnlyList<int> banded, Func<IReadOnlyDictionary<int, int>, BandFill> fill)
    {
        Begin();
        var laid = new List<Spot>();
        while (banded.Any(s => Left(s) > 0))
        {
            var again =
                laid.Count > 0
                && Next() == _sheets[^1].Stock
                && laid.CountBy(s => s.Piece).All(s => s.Value <= Left(s.Key));
            if (Open() is not { } sheet)
            {
                return null;
            }

            if (!again)
            {
                laid = InBands(sheet, banded, fill);
            }

            foreach (var spot in laid)
            {
                sheet.Put(spot with { Piece = _left[spot.Piece].Dequeue() });
            }

            foreach (var shape in again ? [] : banded)
            {
                while (Left(shape) > 0 && LaySingle(sheet, shape))
                {
                    laid.Add(sheet.Spots[^1] with { Piece = shape });
                }
            }

            if (laid.Count == 0)
            {
                break;
            }
        }

        return Rest();
    }

    /// <summary>What bands hold on a sheet; where they hold all that is left, on as short a part of it as will do.</summary>
    private List<Spot> InBands(
        OpenSheet sheet,
        IReadOnlyList<int> banded,
        Func<IReadOnlyDictionary<int, int>, BandFill> fill
    )
    {
        var wanted = banded.ToDictionary(s => s, Left);
        var bands = fill(wanted);
        var (least, length) = (0L, sheet.LengthU);
        while (bands.HoldsAll(length, sheet.LengthV) && length - least > Shorter)
        {
            var middle = (least + length) / 2;
            (least, length) = bands.HoldsAll(middle, sheet.LengthV) ? (least, middle) : (middle, length);
        }

        return bands.Spots(length, sheet.LengthV);
    }

    /// <summary>Lays what stands in no block, or found no place in its own: first where there is room, then on new sheets.</summary>
    private TrialResult? Rest()
    {
        foreach (var like in shapes)
        {
            while (Left(like.Shape) > 0)
            {
                if (
                    !_sheets.Any(s => LaySingle(s, like.Shape))
                    && (Open() is not { } sheet || !LaySingle(sheet, like.Shape))
                )
                {
                    return null;
                }
            }
        }

        List<OpenSheet> used = [.. _sheets.Where(s => s.Spots.Count > 0)];
        return new(used, [], trial.Score(used, 0));
    }

    /// <summary>One sheet of the first kind with as many repeats of a tile, and single copies beside them, as it takes.</summary>
    public Spot[] OnOneSheet(Tile tile)
    {
        Begin();
        var stock = PatternStock(problem);
        var sheet = trial.Open(stock);
        return LayOn(sheet, tile) > 0 ? [.. sheet.Spots] : [];
    }

    private void Begin()
    {
        _left.Clear();
        _sheets.Clear();
        _used.AsSpan().Clear();
        foreach (var like in shapes)
        {
            _left[like.Shape] = new(like.Pieces);
        }
    }

    private int Left(int shape) => _left[shape].Count;

    /// <summary>A sheet full of the tile's only shape, where so many are left.</summary>
    private bool LayFull(Tile tile, IReadOnlyDictionary<int, Spot[]> full)
    {
        var shape = tile.Spots[0].Piece;
        if (
            tile.Spots.Any(s => s.Piece != shape)
            || !full.TryGetValue(shape, out var spots)
            || spots.Length == 0
            || Left(shape) < spots.Length
            || Next() != PatternStock(problem)
            || Open() is not { } sheet
        )
        {
            return false;
        }

        foreach (var spot in spots)
        {
            sheet.Put(spot with { Piece = _left[shape].Dequeue() });
        }

        return true;
    }

    /// <summary>Goes on with a tile on the last sheet, behind what lies there, or on a new one. False where none of it found a place.</summary>
    private bool LayTile(Tile tile)
    {
        if (_sheets.Count > 0 && LayOn(_sheets[^1], tile) > 0)
        {
            return true;
        }

        while (Open() is { } sheet)
        {
            if (LayOn(sheet, tile) > 0)
            {
                return true;
            }

            // A started sheet may be too small for any of it; if a new one is, no other helps.
            if (sheet.Stock == PatternStock(problem))
            {
                break;
            }
        }

        return false;
    }

    private int LayOn(OpenSheet sheet, Tile tile)
    {
        var start = sheet.Spots.Count == 0 ? 0 : sheet.UsedU + problem.Gap.Micrometres;
        var spots = tile.On(sheet.LengthU - start, Left);
        // A pattern may begin before the last copy of what lies there ends.
        while (start > 0 && trial.FirstClear(sheet.Spots, spots, start) is var nearer && nearer < start)
        {
            (start, spots) = (nearer, tile.On(sheet.LengthU - nearer, Left));
        }

        start = sheet.Spots.Count == 0 ? 0 : trial.FirstClear(sheet.Spots, spots, long.MaxValue);
        var laid = 0;
        foreach (var spot in spots.Where(s => s.U + start + s.Way.Form.ExtentU <= sheet.LengthU))
        {
            // The band of the pattern may be wider than a started sheet.
            if (spot.V + spot.Way.Form.ExtentV > sheet.LengthV)
            {
                continue;
            }

            if (_left[spot.Piece].TryDequeue(out var piece))
            {
                sheet.Put(spot with { Piece = piece, U = spot.U + start });
                laid++;
            }
        }

        // Beside and behind the last repeat there may be room for more of the same.
        foreach (var shape in tile.Spots.Select(s => s.Piece).Distinct())
        {
            while (Left(shape) > 0 && LaySingle(sheet, shape))
            {
                laid++;
            }
        }

        return laid;
    }

    private bool LaySingle(OpenSheet sheet, int shape)
    {
        if (!sheet.TryLay(_left[shape].Peek(), book.Ways[shape], Near))
        {
            return false;
        }

        _left[shape].Dequeue();
        return true;
    }

    /// <summary>The kind of the next sheet, or null where none is left.</summary>
    private int? Next() =>
        Stocks(problem)
            .Select(k => (int?)k)
            .FirstOrDefault(k => _used[k!.Value] < (problem.Sheets[k.Value].Count ?? int.MaxValue));

    private OpenSheet? Open()
    {
        if (Next() is not { } stock)
        {
            return null;
        }

        _used[stock]++;
        _sheets.Add(trial.Open(stock));
        return _sheets[^1];
    }

    /// <summary>The kind of sheet that patterns are made for: cheapest for its area of those of which there are several.</summary>
    public static int PatternStock(SheetProblem problem) =>
        Stocks(problem).OrderBy(k => problem.Sheets[k].Count is 0 or 1 ? 1 : 0).First();

    /// <summary>Kinds of sheets, cheapest for their area first.</summary>
    public static IEnumerable<int> Stocks(SheetProblem problem) =>
        Enumerable
            .Range(0, problem.Sheets.Length)
            .OrderBy(k => Trial.Printable(problem, k) is var (u, v) ? problem.Sheets[k].Cost / ((double)u * v) : 0);
}
