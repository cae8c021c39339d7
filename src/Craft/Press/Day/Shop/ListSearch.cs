using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Press.Day;

/// <summary>Improves a layout by moving blocks in the list it is laid from (simulated annealing, Kirkpatrick and others 1983).</summary>
internal sealed class ListSearch
{
    private const int Beat = 16;
    private const int Ahead = 60;
    private const double HotS = 6;
    private const double ColdS = 0.5;
    private const double HotShare = 0.001;
    private const double ColdShare = 0.0001;
    private const double Spread = 0.02;

    /// <summary>Seconds of cost for each second that a pinned block is late: more than moving anything else is worth.</summary>
    private const double OffCost = 1000;
    private readonly ShopModel _shop;
    private readonly DayObjective _goal;
    private readonly ListDecoder _decoder;
    private readonly ListMoves _moves;
    private readonly Rng _rng;
    private int[] _order;
    private int[] _machine;
    private double _cost;
    private double _wished;
    private double _sought;

    public ListSearch(ShopModel shop, DayObjective goal, DayLayout first, ulong seed)
    {
        _shop = shop;
        _goal = goal;
        _rng = new Rng(seed);
        _decoder = new ListDecoder(shop);
        _moves = new ListMoves(shop);
        _order = [];
        _machine = [];
        Best = first;
        Adopt(first);
    }

    /// <summary>The best layout seen.</summary>
    public DayLayout Best { get; private set; }

    /// <summary>How many lists were laid out, whole or in part.</summary>
    public long Tried { get; private set; }

    /// <summary>Goes on from another layout.</summary>
    public void Adopt(DayLayout layout)
    {
        _order = ListMoves.ByStart(_shop, layout);
        _machine = [.. layout.Press];
        _decoder.Decode(_order, _machine, 0, int.MaxValue, long.MaxValue);
        Accept(_machine);
    }

    /// <summary>Tries changes for one stretch of the search; the heat falls with what is gone of the whole.</summary>
    /// <param name="trials">How many, when no clock is asked.</param>
    /// <param name="from">What is gone of the whole search at the start of the stretch, 0 to 1.</param>
    /// <param name="to">What is gone at its end.</param>
    /// <param name="gone">A host's clock that says how much is gone; without it the trials decide.</param>
    /// <param name="stop">Ends the stretch early.</param>
    public void Run(int trials, double from, double to, Func<double>? gone, CancellationToken stop)
    {
        if (_order.Length < 2)
        {
            return;
        }

        var heat = 0.0;
        for (var t = 0; gone is not null || t < trials; t++)
        {
            if (t % Beat == 0)
            {
                var part = gone?.Invoke() ?? from + ((to - from) * t / trials);
                if (stop.IsCancellationRequested || part >= to)
                {
                    return;
                }

                heat = Heat(part);
            }

            var limit = _cost - (heat * Math.Log(1 - _rng.Unit()));
            var first = _moves.Change(_order, _machine, _decoder.Start, _rng);
            Tried++;
            if (first < 0)
            {
                continue;
            }

            var makespan = _goal == DayObjective.Makespan;
            if (
                _decoder.Decode(
                    _moves.Order,
                    _moves.Machine,
                    first,
                    makespan ? (int)Math.Min(int.MaxValue, limit) : int.MaxValue,
                    makespan ? long.MaxValue : (long)limit,
                    _moves.LastChanged + Ahead,
                    Math.Max(0, limit - _cost) + heat
                )
                && Cost() <= limit
            )
            {
                Accept(_moves.Machine);
            }
        }
    }

    // Seconds of cost that a change may lose: measured best from a few seconds down to half of one where the end of the day counts, and
    // a small share of the lateness where that counts.
    private double Heat(double part)
    {
        var (hot, cold) =
            _goal == DayObjective.Makespan
                ? (HotS, ColdS)
                : (HotS + (HotShare * _sought), ColdS + (ColdShare * _sought));
        return hot * Math.Pow(cold / hot, part);
    }

    private double Cost()
    {
        var mean = (double)_decoder.Ends / Math.Max(1, _shop.Blocks.Length);
        _wished =
            (_shop.Wanted.Length == 0 ? 0 : _shop.CalmS * ShopMeasure.Moved(_shop, _decoder.Start, _decoder.Machine))
            + (ShopMeasure.Binds(_shop) ? OffCost * ShopMeasure.Off(_shop, _decoder.Start) : 0);
        return _goal == DayObjective.Makespan
            ? _decoder.Last + (Spread * mean) + _wished
            : _decoder.Lateness + (0.05 * _decoder.Last) + (Spread * mean) + _wished;
    }

    private void Accept(int[] machine)
    {
        _decoder.Keep();
        _cost = Cost();
        _sought = _cost - _wished;
        _decoder.Order.CopyTo(_order, 0);
        machine.CopyTo(_machine, 0);
        var (makespan, lateness) = (_decoder.Last - _shop.Now, _decoder.Lateness);
        var now = ShopMeasure.Of(_shop, _decoder.Start, _decoder.Machine, makespan, lateness);
        if (ShopMeasure.Rank(now, _goal).CompareTo(ShopMeasure.Rank(Best, _goal)) < 0)
        {
            Best = now with { Start = [.. _decoder.Start], Press = [.. _decoder.Machine] };
        }
    }
}
