namespace Coldpeel.Craft.Press.Day;

/// <summary>
/// Tells early whether a change of a list is hopeless: how much later its last blocks begin than they did in the kept list, which the rest
/// of the day will follow, and the lateness up to there.
/// </summary>
internal sealed class ListGlance(ShopModel shop, ListTables tables)
{
    /// <summary>How many blocks are looked at.</summary>
    public const int Glanced = 24;

    private readonly long[] _lateAt = new long[tables.Free.Length + 1];
    private readonly long[] _keptLateAt = new long[tables.Free.Length + 1];
    private readonly long[] _slopeAt = new long[tables.Free.Length + 1];
    private readonly int[] _keptStart = new int[tables.Length.Length];
    private readonly bool[] _seen = new bool[shop.Dues.Length];

    /// <summary>Start of a block in the kept list.</summary>
    public int KeptStart(int b) => _keptStart[b];

    /// <summary>The lateness after so many blocks.</summary>
    public void Note(int count, long lateness) => _lateAt[count] = lateness;

    /// <summary>Up to there the list is the kept one.</summary>
    public void Restore(int count) => Array.Copy(_keptLateAt, _lateAt, count + 1);

    /// <summary>An estimate of what is lost, in seconds of what is sought.</summary>
    public double Lost(int[] order, int[] start, int count, bool byLateness)
    {
        var shift = 0L;
        for (var i = count - Glanced; i < count; i++)
        {
            shift += start[order[i]] - _keptStart[order[i]];
        }

        var mean = (double)shift / Glanced;
        return byLateness ? _lateAt[count] - _keptLateAt[count] + (_slopeAt[count] * mean) : mean;
    }

    /// <summary>What was laid out last becomes what later ones are compared with.</summary>
    /// <param name="order">The list.</param>
    /// <param name="start">Starts of the blocks.</param>
    /// <param name="dueEnd">The end of each promise that is late, else 0.</param>
    public void Keep(int[] order, int[] start, int[] dueEnd)
    {
        start.CopyTo(_keptStart, 0);
        _lateAt.CopyTo(_keptLateAt, 0);
        // For each place of the list: the weight of promises that are late and end after it.
        var slope = 0L;
        Array.Clear(_seen);
        for (var i = order.Length - 1; i >= 0; i--)
        {
            _slopeAt[i + 1] = slope;
            if (tables.DueOf[order[i]] is >= 0 and var d && !_seen[d])
            {
                _seen[d] = true;
                slope += dueEnd[d] > 0 ? shop.Dues[d].Weight : 0;
            }
        }

        _slopeAt[0] = slope;
    }
}
