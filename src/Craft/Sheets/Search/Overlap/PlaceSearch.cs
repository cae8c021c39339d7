using System.Numerics;
using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>Looks for the place on the board where one copy overlaps others least, counted by weights.</summary>
/// <remarks>
/// Places all over the sheets and round the copy's own are tried by chance; the best few distinct ones are improved by steps along the
/// axes and diagonals that lengthen where they help and halve where they do not. A place is given up as soon as it is worse than
/// the best known. Nothing is allocated.
/// </remarks>
internal sealed class PlaceSearch(Board board, float[] weights, Rng rng)
{
    private const int Kept = 3;
    private const int LittleTurns = 6;
    private const double FirstStep = 0.25;
    private const double MiddleStep = 0.02;
    private const double LastStep = 0.001;

    // What is beyond a limit by this much is so whatever way it is rounded.
    private const double OverLimit = 1.0001;

    private readonly Candidate[] _best = new Candidate[Kept];
    private int _kept;

    /// <summary>A search in which every pair weighs the same.</summary>
    public static PlaceSearch Unweighted(Board board, Rng rng)
    {
        var weights = new float[board.Copies.Count * board.Copies.Count];
        weights.AsSpan().Fill(1);
        return new(board, weights, rng);
    }

    private record struct Candidate(int Sheet, int Way, double X, double Y, double Cost);

    /// <summary>The best place found, if it costs less than the copy's present one.</summary>
    /// <param name="copy">The copy, which lies on the board.</param>
    /// <param name="anywhere">How many places are tried all over.</param>
    /// <param name="near">How many round its own.</param>
    public Lie? Better(int copy, int anywhere, int near)
    {
        var own = board[copy];
        var ways = Tried(copy);
        var here = new Candidate(own.Sheet, own.Way, own.U / 1000.0, own.V / 1000.0, 0);
        here.Cost = Cost(copy, here, double.PositiveInfinity);
        _kept = 0;
        Keep(here);
        for (var k = 0; k < near; k++)
        {
            var contour = board.Copies.Contour(copy, own.Way);
            var reach = 0.5 * Math.Max(contour.ExtentX, contour.ExtentY);
            Try(copy, own.Sheet, WayNear(ways, own.Way), here.X + Normal(reach), here.Y + Normal(reach));
        }

        if (ways > board.Copies.Quarters(copy))
        {
            TurnALittle(copy, here);
        }

        for (var k = 0; k < anywhere && _best[0].Cost > 0; k++)
        {
            var sheet = board.SheetCount == 1 ? 0 : rng.Below(board.SheetCount);
            var way = rng.Below(ways);
            var contour = board.Copies.Contour(copy, way);
            Try(
                copy,
                sheet,
                way,
                rng.Unit() * board.MostX(contour, sheet),
                rng.Unit() * (board.WidthY(sheet) - contour.ExtentY)
            );
        }

        for (var k = 0; k < _kept && _best[0].Cost > 0; k++)
        {
            Improve(copy, ref _best[k], FirstStep, MiddleStep);
        }

        ref var chosen = ref _best[Cheapest()];
        if (chosen.Cost > 0)
        {
            Improve(copy, ref chosen, MiddleStep, LastStep);
        }

        if (chosen.Cost >= here.Cost)
        {
            return null;
        }

        return Held(copy, chosen);
    }

    /// <summary>The best place for a copy wherever it fits, on any sheet.</summary>
    /// <exception cref="InvalidOperationException">The copy fits no sheet at all: see <see cref="FitsSomewhere(int)"/>.</exception>
    public Lie Insert(int copy, int anywhere)
    {
        if (!FitsSomewhere(copy))
        {
            throw new InvalidOperationException($"Copy {copy} fits no sheet.");
        }

        _kept = 0;
        var ways = Tried(copy);
        for (var k = 0; k < anywhere || _kept == 0; k++)
        {
            var sheet = rng.Below(board.SheetCount);
            var way = rng.Below(ways);
            var contour = board.Copies.Contour(copy, way);
            Try(
                copy,
                sheet,
                way,
                rng.Unit() * Math.Max(0, board.MostX(contour, sheet)),
                rng.Unit() * Math.Max(0, board.WidthY(sheet) - contour.ExtentY)
            );
        }

        for (var k = 0; k < _kept; k++)
        {
            Improve(copy, ref _best[k], FirstStep, MiddleStep);
        }

        return Held(copy, _best[Cheapest()]);
    }

    /// <summary>
    /// Makes a sheet shorter: copies that would stick out move in, those too long for it go elsewhere. False, and nothing changes, when
    /// one fits nowhere.
    /// </summary>
    public bool Shorten(int sheet, double length)
    {
        var before = board.LengthX(sheet);
        var tooLong = board.On(sheet).ToArray().Where(c => board.ContourOf(c).ExtentX > length).Order().ToArray();
        board.Resize(sheet, length, tooLong);
        if (Array.Exists(tooLong, c => !FitsSomewhere(c)))
        {
            board.Resize(sheet, before, []);
            return false;
        }

        foreach (var copy in tooLong)
        {
            board.Put(copy, Insert(copy, 40 * board.SheetCount));
        }

        return true;
    }

    /// <summary>Whether any way of a copy fits any sheet.</summary>
    public bool FitsSomewhere(int copy) => FitsSomewhere(copy, board.Copies.Ways(copy));

    // The first ways that are tried: what fits by a slanting one alone keeps all of its own.
    private int Tried(int copy)
    {
        var (all, quarters) = (board.Copies.Ways(copy), board.Copies.Quarters(copy));
        return board.Copies.QuartersOnly && quarters < all && FitsSomewhere(copy, quarters) ? quarters : all;
    }

    private bool FitsSomewhere(int copy, int ways)
    {
        for (var way = 0; way < ways; way++)
        {
            for (var sheet = 0; sheet < board.SheetCount; sheet++)
            {
                if (board.Fits(board.Copies.Contour(copy, way), sheet))
                {
                    return true;
                }
            }
        }

        return false;
    }

    /// <summary>Which of the kept places costs least, now that they were improved.</summary>
    private int Cheapest()
    {
        var best = 0;
        for (var k = 1; k < _kept; k++)
        {
            best = _best[k].Cost < _best[best].Cost ? k : best;
        }

        return best;
    }

    /// <summary>The place in whole micrometres.</summary>
    private Lie Held(int copy, Candidate place)
    {
        var (u, v) = board.Held(board.Copies.Contour(copy, place.Way), place.Sheet, place.X, place.Y);
        return new(place.Sheet, place.Way, u, v);
    }

    /// <summary>Tries the copy's own place, turned a step further and a step back about its middle.</summary>
    private void TurnALittle(int copy, Candidate here)
    {
        var own = board.Copies.Contour(copy, here.Way);
        var reach = 0.1 * Math.Max(own.ExtentX, own.ExtentY);
        for (var k = 0; k < LittleTurns; k++)
        {
            var turned = board.Copies.Turned(copy, here.Way, (k & 1) == 0 ? 1 : -1);
            var contour = board.Copies.Contour(copy, turned);
            Try(
                copy,
                here.Sheet,
                turned,
                here.X + ((own.ExtentX - contour.ExtentX) / 2) + Normal(reach),
                here.Y + ((own.ExtentY - contour.ExtentY) / 2) + Normal(reach)
            );
        }
    }

    private int WayNear(int ways, int own) => rng.Below(4) > 0 ? own : rng.Below(ways);

    // A bell without tails: the sum of three even draws.
    private double Normal(double reach) => (rng.Unit() + rng.Unit() + rng.Unit() - 1.5) * reach;

    private void Try(int copy, int sheet, int way, double x, double y)
    {
        var contour = board.Copies.Contour(copy, way);
        if (!board.Fits(contour, sheet))
        {
            return;
        }

        var place = new Candidate(
            sheet,
            way,
            board.HeldX(x, board.MostX(contour, sheet)),
            Math.Clamp(y, 0, board.WidthY(sheet) - contour.ExtentY),
            0
        );
        var worst = _kept < Kept ? double.PositiveInfinity : _best[_kept - 1].Cost;
        place.Cost = Cost(copy, place, worst);
        if (place.Cost < worst)
        {
            Keep(place);
        }
    }

    /// <summary>Keeps the best few, cheapest first, no two of them at nearly the same place.</summary>
    private void Keep(Candidate place)
    {
        for (var k = 0; k < _kept; k++)
        {
            var other = _best[k];
            if (
                other.Sheet == place.Sheet
                && other.Way == place.Way
                && Math.Abs(other.X - place.X) + Math.Abs(other.Y - place.Y) < 0.5
            )
            {
                if (place.Cost >= other.Cost)
                {
                    return;
                }

                for (var m = k; m + 1 < _kept; m++)
                {
                    _best[m] = _best[m + 1];
                }

                _kept--;
                break;
            }
        }

        var at = Math.Min(_kept, Kept - 1);
        _kept = Math.Min(_kept + 1, Kept);
        while (at > 0 && _best[at - 1].Cost > place.Cost)
        {
            _best[at] = _best[at - 1];
            at--;
        }

        _best[at] = place;
    }

    private void Improve(int copy, ref Candidate place, double first, double last)
    {
        var contour = board.Copies.Contour(copy, place.Way);
        var size = Math.Min(contour.ExtentX, contour.ExtentY);
        var (mostX, mostY) = (board.MostX(contour, place.Sheet), board.WidthY(place.Sheet) - contour.ExtentY);
        var (stepX, stepY, end) = (first * size, first * size, last * size);
        while (Math.Max(stepX, stepY) > end && place.Cost > 0)
        {
            var axis = rng.Below(4);
            var (dx, dy) = axis switch
            {
                0 => (stepX, 0.0),
                1 => (0.0, stepY),
                2 => (stepX * 0.7, stepY * 0.7),
                _ => (stepX * 0.7, -stepY * 0.7),
            };
            var there = place;
            for (var sign = -1; sign <= 1; sign += 2)
            {
                var next = place with
                {
                    X = board.HeldX(place.X + (sign * dx), mostX),
                    Y = Math.Clamp(place.Y + (sign * dy), 0, mostY),
                };
                next.Cost = Cost(copy, next, there.Cost);
                there = next.Cost < there.Cost ? next : there;
            }

            var factor = there.Cost < place.Cost ? 1.1 : 0.5;
            stepX *= axis == 1 ? 1 : factor;
            stepY *= axis == 0 ? 1 : factor;
            place = there;
        }
    }

    /// <summary>The weighted overlap at a place; once it reaches <paramref name="limit"/>, any figure not below that.</summary>
    private double Cost(int copy, Candidate place, double limit)
    {
        var sum = 0.0;
        for (var image = -board.Images; image <= board.Images && sum < limit; image++)
        {
            sum = Cost(copy, place, place.X + (image * board.PeriodU / 1000.0), sum, limit);
        }

        return sum;
    }

    private double Cost(int copy, Candidate place, double x, double sum, double limit)
    {
        unchecked
        {
            var copies = board.Copies;
            var contour = copies.Contour(copy, place.Way);
            var slots = board.On(place.Sheet);
            var (left, right) = ((float)(x + contour.Left), (float)(x + contour.Right));
            var (top, bottom) = ((float)(place.Y + contour.Top), (float)(place.Y + contour.Bottom));
            var row = copy * copies.Count;
            for (var first = 0; first < slots.Count; first += Contour.Lanes)
            {
                var bits = slots.Meeting(first, left, top, right, bottom);
                while (bits != 0)
                {
                    var other = slots.Copy(first + BitOperations.TrailingZeroCount(bits));
                    bits &= bits - 1;
                    if (other == copy)
                    {
                        continue;
                    }

                    var (lie, weight) = (board[other], weights[row + other]);
                    var overlap = PairOverlap.Of(
                        contour,
                        copies.Contour(other, lie.Way),
                        (float)((lie.U / 1000.0) - x),
                        (float)((lie.V / 1000.0) - place.Y),
                        (float)((limit - sum) / weight * OverLimit)
                    );
                    if (overlap > 0)
                    {
                        sum += overlap * weight;
                        if (sum >= limit)
                        {
                            return sum;
                        }
                    }
                }
            }

            return sum;
        }
    }
}
