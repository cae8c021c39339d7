using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Press.Day;

/// <summary>Improves a layout by moving blocks in the list it is laid from (simulated annealing, Kirkpatrick and others 1983).</summary>
internal sealed class ListSearch
{
    private readonly ShopModel _shop;
    private readonly DayObjective _goal;
    private readonly ListDecoder _decoder;
    private readonly ListMoves _moves;
    private readonly Rng _rng;
    private int[] _order;
    private int[] _machine;
    private double _cost;

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

    /// <summary>Tries so many changes; the heat falls from one share to another of the best plan's cost.</summary>
    public void Run(int trials, double hot, double cold, CancellationToken stop)
    {
        if (_order.Length < 2)
        {
            return;
        }

        var scale = Math.Max(1, _goal == DayObjective.Makespan ? Best.MakespanS : Best.WeightedLatenessS + (Best.MakespanS / 4.0));
        for (var t = 0; t < trials; t++)
        {
            if ((t & 15) == 0 && stop.IsCancellationRequested)
            {
                return;
            }

            var heat = scale * hot * Math.Pow(cold / hot, (double)t / trials);
            var limit = _cost - (heat * Math.Log(1 - _rng.Unit()));
            var from = _moves.Change(_order, _machine, _decoder.Start, _rng);
            Tried++;
            if (from < 0)
            {
                continue;
            }

            var makespan = _goal == DayObjective.Makespan;
            if (
                _decoder.Decode(
                    _moves.Order,
                    _moves.Machine,
                    from,
                    makespan ? (int)Math.Min(int.MaxValue, limit) : int.MaxValue,
                    makespan ? long.MaxValue : (long)limit
                )
                && Cost() <= limit
            )
            {
                Accept(_moves.Machine);
            }
        }
    }

    private double Cost()
    {
        var mean = (double)_decoder.Ends / Math.Max(1, _shop.Blocks.Length);
        return _goal == DayObjective.Makespan
            ? _decoder.Last + (Spread * mean)
            : _decoder.Lateness + (0.05 * _decoder.Last) + (Spread * mean);
    }

    internal static double Spread = 0.02;

    private void Accept(int[] machine)
    {
        _decoder.Keep();
        _cost = Cost();
        _order = [.. _decoder.Order];
        _machine = [.. machine];
        var (makespan, lateness) = (_decoder.Last - _shop.Now, _decoder.Lateness);
        if (
            _goal == DayObjective.Makespan
                ? (makespan, lateness).CompareTo((Best.MakespanS, Best.WeightedLatenessS)) < 0
                : (lateness, makespan).CompareTo((Best.WeightedLatenessS, Best.MakespanS)) < 0
        )
        {
            Best = new DayLayout([.. _decoder.Start], [.. _decoder.Machine], makespan, lateness);
        }
    }
}
