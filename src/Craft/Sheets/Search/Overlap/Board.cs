namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>Where a copy lies: sheet, way and the corner of its form in whole micrometres, as far as the search has come.</summary>
internal readonly record struct Lie(int Sheet, int Way, long U, long V);

/// <summary>Copies on sheets, overlapping or not, with how badly every two of them overlap.</summary>
/// <remarks>
/// Copies never leave their sheet's printable area: places are held within it. Figures are kept as moves are made. A board may stand for
/// film that repeats (<see cref="PeriodU"/>): then every copy lies there again a period further on, and again, in both directions.
/// </remarks>
internal sealed class Board
{
    private readonly Dictionary<Contour, bool> _clearOfItself = [];
    private readonly float[] _overlap;
    private readonly double[] _lengthX;
    private readonly double[] _widthY;
    private readonly SheetSlots[] _sheets;
    private readonly Lie[] _lies;
    private readonly int[] _slot;

    /// <summary>An empty board.</summary>
    /// <param name="copies">What is laid.</param>
    /// <param name="sizes">Printable length and width of each sheet, in mm.</param>
    public Board(Copies copies, IReadOnlyList<(double X, double Y)> sizes)
    {
        Copies = copies;
        var n = copies.Count;
        _overlap = new float[n * n];
        _lies = new Lie[n];
        _slot = new int[n];
        _lengthX = [.. sizes.Select(s => s.X)];
        _widthY = [.. sizes.Select(s => s.Y)];
        _sheets = [.. sizes.Select(_ => new SheetSlots(n))];
        _slot.AsSpan().Fill(-1);
    }

    public Copies Copies { get; }

    /// <summary>An empty board of the same copies and sheets.</summary>
    public Board Twin()
    {
        var twin = new Board(Copies, [.. _lengthX.Select((x, s) => (x, _widthY[s]))]);
        (twin.PeriodU, twin.Images) = (PeriodU, Images);
        return twin;
    }

    /// <summary>How far on everything repeats, in whole micrometres, on a board of one sheet; zero where nothing does.</summary>
    public long PeriodU { get; private set; }

    /// <summary>How many repeats to either side can meet a copy; zero where nothing repeats.</summary>
    public int Images { get; private set; }

    public int SheetCount => _sheets.Length;

    /// <summary>The sum of all overlaps; zero when the board is sound.</summary>
    public double Total { get; private set; }

    public Lie this[int copy] => _lies[copy];

    /// <summary>The contour that a copy shows now.</summary>
    public Contour ContourOf(int copy) => Copies.Contour(copy, _lies[copy].Way);

    public SheetSlots On(int sheet) => _sheets[sheet];

    public double LengthX(int sheet) => _lengthX[sheet];

    public double WidthY(int sheet) => _widthY[sheet];

    /// <summary>How badly two copies overlap now.</summary>
    public float Overlap(int a, int b) => _overlap[(a * Copies.Count) + b];

    /// <summary>How badly a copy overlaps others now.</summary>
    public double OverlapOf(int copy)
    {
        var sum = 0.0;
        foreach (var value in _overlap.AsSpan(copy * Copies.Count, Copies.Count))
        {
            sum += value;
        }

        return sum;
    }

    /// <summary>Whether the copy overlaps anything.</summary>
    public bool Collides(int copy) => _overlap.AsSpan(copy * Copies.Count, Copies.Count).IndexOfAnyExcept(0f) >= 0;

    /// <summary>Whether a way fits a sheet at all; where all repeats, whether it keeps clear of itself.</summary>
    public bool Fits(Contour contour, int sheet) =>
        contour.ExtentY <= _widthY[sheet]
        && (PeriodU > 0 ? ClearOfItself(contour) : contour.ExtentX <= _lengthX[sheet]);

    /// <summary>How far along a sheet a way's corner can lie.</summary>
    public double MostX(Contour contour, int sheet) =>
        PeriodU > 0 ? PeriodU / 1000.0 : _lengthX[sheet] - contour.ExtentX;

    /// <summary>The place along, held within the sheet; where all repeats, the same place in the first period.</summary>
    public double HeldX(double x, double most) =>
        PeriodU > 0 ? x - (most * Math.Floor(x / most)) : Math.Clamp(x, 0, most);

    /// <summary>The place held within the sheet, in whole micrometres.</summary>
    public (long U, long V) Held(Contour contour, int sheet, double x, double y) =>
        (
            PeriodU > 0
                ? (long)Math.Round(HeldX(x, PeriodU / 1000.0) * 1000) % PeriodU
                : Held(x, _lengthX[sheet] - contour.ExtentX),
            Held(y, _widthY[sheet] - contour.ExtentY)
        );

    /// <summary>Lets all repeat at another distance; places keep their share of it.</summary>
    public void Repeat(long periodU)
    {
        var share = PeriodU > 0 ? (double)periodU / PeriodU : 1;
        PeriodU = periodU;
        var widest = Enumerable
            .Range(0, Copies.Count)
            .Max(c => Enumerable.Range(0, Copies.Ways(c)).Max(w => Copies.Contour(c, w).Width));
        Images = 1 + (int)(widest * 1000 / periodU);
        _clearOfItself.Clear();
        for (var copy = 0; copy < Copies.Count; copy++)
        {
            if (_slot[copy] >= 0)
            {
                var lie = _lies[copy];
                Put(copy, lie with { U = (long)(lie.U * share) % periodU });
            }
        }
    }

    /// <summary>Lays a copy, or moves it, and counts its overlaps afresh.</summary>
    public void Put(int copy, Lie lie)
    {
        unchecked
        {
            Take(copy);
            _lies[copy] = lie;
            var contour = Copies.Contour(copy, lie.Way);
            var (x, y) = (lie.U / 1000.0, lie.V / 1000.0);
            var sheet = _sheets[lie.Sheet];
            var n = Copies.Count;
            for (var k = 0; k < sheet.Count; k++)
            {
                var other = sheet.Copy(k);
                var at = _lies[other];
                var value = 0f;
                for (var image = -Images; image <= Images; image++)
                {
                    value += PairOverlap.Of(
                        contour,
                        Copies.Contour(other, at.Way),
                        (float)(((at.U + (image * PeriodU)) / 1000.0) - x),
                        (float)((at.V / 1000.0) - y)
                    );
                }

                _overlap[(copy * n) + other] = value;
                _overlap[(other * n) + copy] = value;
                Total += value;
            }

            _slot[copy] = sheet.Add(copy, contour, x, y);
        }
    }

    /// <summary>Takes a copy off the board, if it lies there.</summary>
    public void Take(int copy)
    {
        if (_slot[copy] < 0)
        {
            return;
        }

        var sheet = _sheets[_lies[copy].Sheet];
        if (sheet.Remove(_slot[copy]) is >= 0 and var moved)
        {
            _slot[moved] = _slot[copy];
        }

        _slot[copy] = -1;
        var n = Copies.Count;
        for (var other = 0; other < n; other++)
        {
            ref var value = ref _overlap[(copy * n) + other];
            if (value != 0)
            {
                Total -= value;
                value = 0;
                _overlap[(other * n) + copy] = 0;
            }
        }

        // What is left of many small sums is rounding: an empty list of overlaps is exactly nothing.
        Total = Total < 1e-9 ? 0 : Total;
    }

    /// <summary>How far along a sheet its copies reach, in mm.</summary>
    public double Used(int sheet)
    {
        var used = 0.0;
        for (var k = 0; k < _sheets[sheet].Count; k++)
        {
            var copy = _sheets[sheet].Copy(k);
            used = Math.Max(used, (_lies[copy].U / 1000.0) + ContourOf(copy).ExtentX);
        }

        return used;
    }

    /// <summary>Two copies change places, each with its middle where the other's was.</summary>
    public void Swap(int a, int b)
    {
        var (lieA, lieB, middleA, middleB) = (_lies[a], _lies[b], Middle(a), Middle(b));
        Centre(a, lieA.Way, lieB.Sheet, middleB);
        Centre(b, lieB.Way, lieA.Sheet, middleA);
    }

    /// <summary>Another length of a sheet; copies that would stick out are moved in, but for those that the caller moves himself.</summary>
    public void Resize(int sheet, double lengthX, int[] leave)
    {
        _lengthX[sheet] = lengthX;
        foreach (var copy in _sheets[sheet].ToArray().Except(leave))
        {
            var lie = _lies[copy];
            var (u, v) = Held(ContourOf(copy), sheet, lie.U / 1000.0, lie.V / 1000.0);
            if ((u, v) != (lie.U, lie.V))
            {
                Put(copy, lie with { U = u, V = v });
            }
        }
    }

    /// <summary>All places, to go back to.</summary>
    public Lie[] Snapshot() => [.. _lies];

    /// <summary>Lays every copy as a snapshot says.</summary>
    public void Restore(ReadOnlySpan<Lie> lies)
    {
        for (var copy = 0; copy < lies.Length; copy++)
        {
            if (_slot[copy] < 0 || _lies[copy] != lies[copy])
            {
                Put(copy, lies[copy]);
            }
        }

        Total = Sum();
    }

    /// <summary>Becomes the same as another board of the same copies and sheets.</summary>
    public void CopyFrom(Board other)
    {
        other._overlap.CopyTo(_overlap, 0);
        other._lies.CopyTo(_lies, 0);
        other._slot.CopyTo(_slot, 0);
        other._lengthX.CopyTo(_lengthX, 0);
        other._widthY.CopyTo(_widthY, 0);
        for (var s = 0; s < _sheets.Length; s++)
        {
            _sheets[s].CopyFrom(other._sheets[s]);
        }

        Total = other.Total;
        if (PeriodU != other.PeriodU)
        {
            (PeriodU, Images) = (other.PeriodU, other.Images);
            _clearOfItself.Clear();
        }
    }

    private bool ClearOfItself(Contour contour)
    {
        if (!_clearOfItself.TryGetValue(contour, out var clear))
        {
            clear = true;
            for (var image = 1; image <= Images && clear; image++)
            {
                clear = PairOverlap.Of(contour, contour, (float)(image * PeriodU / 1000.0), 0) == 0;
            }

            _clearOfItself.Add(contour, clear);
        }

        return clear;
    }

    private (double X, double Y) Middle(int copy) =>
        (
            (_lies[copy].U / 1000.0) + (ContourOf(copy).ExtentX / 2),
            (_lies[copy].V / 1000.0) + (ContourOf(copy).ExtentY / 2)
        );

    private void Centre(int copy, int way, int sheet, (double X, double Y) at)
    {
        var contour = Copies.Contour(copy, way);
        var (u, v) = Held(contour, sheet, at.X - (contour.ExtentX / 2), at.Y - (contour.ExtentY / 2));
        Put(copy, new(sheet, way, u, v));
    }

    private double Sum()
    {
        var sum = 0.0;
        foreach (var value in _overlap)
        {
            sum += value;
        }

        return sum / 2;
    }

    private static long Held(double mm, double most) =>
        (long)Math.Round(Math.Clamp(mm, 0, Math.Max(0, Math.Floor((most * 1000) + 1e-6) / 1000)) * 1000);
}
