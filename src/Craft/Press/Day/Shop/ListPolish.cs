using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Press.Day;

/// <summary>Among layouts that are as good in all that was sought, seeks one with fewer set-point changes, then with fewer walks between presses.</summary>
internal sealed class ListPolish
{
    private readonly ShopModel _shop;
    private readonly DayObjective _goal;
    private readonly Func<DayLayout, int> _walks;
    private readonly Rng _rng;
    private (int SetUps, int Walks) _ties;

    /// <param name="shop">The shop.</param>
    /// <param name="goal">What was sought first.</param>
    /// <param name="best">The layout found.</param>
    /// <param name="walks">Counts the walks of a layout.</param>
    /// <param name="seed">Seed of the changes tried.</param>
    public ListPolish(ShopModel shop, DayObjective goal, DayLayout best, Func<DayLayout, int> walks, ulong seed)
    {
        (_shop, _goal, Best, _walks, _rng) = (shop, goal, best, walks, new Rng(seed));
        _ties = (ShopMeasure.SetPointChanges(shop, best), walks(best));
    }

    /// <summary>The best layout seen; never worse in what was sought.</summary>
    public DayLayout Best { get; private set; }

    /// <summary>Tries so many changes, or fewer when the time is gone; how many were tried.</summary>
    public int Run(int trials, Func<double>? gone, CancellationToken stop)
    {
        var order = ListMoves.ByStart(_shop, Best);
        var machine = (int[])Best.Press.Clone();
        if (order.Length < 2 || _ties == (0, 0))
        {
            return 0;
        }

        var (decoder, moves) = (new ListDecoder(_shop), new ListMoves(_shop));
        decoder.Decode(order, machine, 0, int.MaxValue, long.MaxValue);
        var rank = ShopMeasure.Rank(Best, _goal);
        if (ShopMeasure.Rank(Laid(), _goal).CompareTo(rank) > 0)
        {
            return 0; // laid out by the solver in a way that no list gives back
        }

        Accept();
        var (latest, latestSum) =
            _goal == DayObjective.Makespan
                ? (_shop.Now + Best.MakespanS + (int)Best.MovedS, long.MaxValue)
                : (int.MaxValue, Best.WeightedLatenessS + Best.MovedS);
        var tried = 0;
        for (; tried < trials && (gone is null || gone() < 1) && !stop.IsCancellationRequested; tried++)
        {
            var first = moves.Change(order, machine, decoder.Start, _rng);
            if (first < 0 || !decoder.Decode(moves.Order, moves.Machine, first, latest, latestSum))
            {
                continue;
            }

            var laid = Laid();
            if (ShopMeasure.Rank(laid, _goal).CompareTo(rank) <= 0 && Better(laid))
            {
                rank = ShopMeasure.Rank(laid, _goal);
                Best = laid with { Start = [.. laid.Start], Press = [.. laid.Press] };
                Accept();
                moves.Machine.CopyTo(machine, 0);
            }
        }

        return tried;

        DayLayout Laid() =>
            ShopMeasure.Of(_shop, decoder.Start, decoder.Machine, decoder.Last - _shop.Now, decoder.Lateness);

        void Accept()
        {
            decoder.Keep();
            decoder.Order.CopyTo(order, 0);
        }
    }

    // As good in ties is good enough: the next change starts from elsewhere.
    private bool Better(DayLayout laid)
    {
        var setUps = ShopMeasure.SetPointChanges(_shop, laid);
        if (setUps > _ties.SetUps)
        {
            return false;
        }

        var ties = (setUps, _walks(laid));
        if (ties.CompareTo(_ties) > 0)
        {
            return false;
        }

        _ties = ties;
        return true;
    }
}
