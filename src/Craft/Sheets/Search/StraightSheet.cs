namespace Coldpeel.Craft.Sheets.Search;

/// <summary>
/// A sheet that edge-to-edge cuts can take apart: free rectangles, each use of one cut off by a straight cut right across it.
/// Boxes carry the gap on their far sides, and so does the sheet.
/// </summary>
internal sealed class StraightSheet : OpenSheet
{
    private readonly List<Free> _free = [];
    private readonly long _gap;
    private int _chosen;
    private int _split;
    private bool _stale;

    /// <param name="stock">Which kind of sheet.</param>
    /// <param name="lengthU">Printable length.</param>
    /// <param name="lengthV">Printable width.</param>
    /// <param name="gap">Gap between boxes.</param>
    public StraightSheet(int stock, long lengthU, long lengthV, long gap)
        : base(stock, lengthU, lengthV)
    {
        _gap = gap;
        _free.Add(new(0, 0, lengthU + gap, lengthV + gap));
    }

    /// <inheritdoc/>
    protected override (int Way, long U, long V)? Find(ReadOnlySpan<Way> ways, Taste taste)
    {
        if (_stale)
        {
            CutAnew();
        }

        (int Way, long U, long V)? best = null;
        var bestScore = (double.PositiveInfinity, long.MaxValue);
        _split = taste.Split;
        for (var w = 0; w < ways.Length; w++)
        {
            var (u, v) = (ways[w].Form.ExtentU + _gap, ways[w].Form.ExtentV + _gap);
            for (var f = 0; f < _free.Count; f++)
            {
                var free = _free[f];
                if (u <= free.LengthU && v <= free.LengthV)
                {
                    var score = (free.U + (taste.Reach * u), Math.Min(free.LengthU - u, free.LengthV - v));
                    if (score.CompareTo(bestScore) < 0)
                    {
                        bestScore = score;
                        best = (w, free.U, free.V);
                        _chosen = f;
                    }
                }
            }
        }

        return best;
    }

    /// <inheritdoc/>
    protected override void Laid(Spot spot)
    {
        var free = _free[_chosen];
        _free.RemoveAt(_chosen);
        var (u, v) = (spot.Way.Form.ExtentU + _gap, spot.Way.Form.ExtentV + _gap);
        var (leftU, leftV) = (free.LengthU - u, free.LengthV - v);
        var acrossV = _split switch
        {
            0 => true,
            1 => leftU < leftV,
            2 => (leftU * free.LengthV) >= (leftV * free.LengthU),
            _ => false,
        };
        // First cut right across v (a whole band of length u stays), or right along u.
        Add(acrossV ? new(free.U + u, free.V, leftU, free.LengthV) : new(free.U + u, free.V, leftU, v));
        Add(acrossV ? new(free.U, free.V + v, u, leftV) : new(free.U, free.V + v, free.LengthU, leftV));
    }

    /// <summary>Takes a copy that lies there already; where straight cuts leave room is looked at anew when room is asked for next.</summary>
    public override void Put(Spot spot)
    {
        Note(spot);
        _stale = true;
    }

    private void CutAnew()
    {
        _stale = false;
        _free.Clear();
        var whole = new Free(0, 0, LengthU + _gap, LengthV + _gap);
        Cut(whole, [.. Spots.Select(s => new Free(s.U, s.V, s.Way.Form.ExtentU + _gap, s.Way.Form.ExtentV + _gap))]);
    }

    private void Cut(Free room, List<Free> boxes)
    {
        if (boxes.Count == 0)
        {
            Add(room);
            return;
        }

        if (boxes.Count == 1)
        {
            var box = boxes[0];
            Add(new(room.U, room.V, box.U - room.U, room.LengthV));
            Add(new(box.U + box.LengthU, room.V, room.U + room.LengthU - box.U - box.LengthU, room.LengthV));
            Add(new(box.U, room.V, box.LengthU, box.V - room.V));
            Add(new(box.U, box.V + box.LengthV, box.LengthU, room.V + room.LengthV - box.V - box.LengthV));
            return;
        }

        var byU = boxes.OrderBy(b => b.U).ToList();
        var byV = boxes.OrderBy(b => b.V).ToList();
        var (endU, endV) = (long.MinValue, long.MinValue);
        for (var i = 0; i + 1 < boxes.Count; i++)
        {
            endU = Math.Max(endU, byU[i].U + byU[i].LengthU);
            endV = Math.Max(endV, byV[i].V + byV[i].LengthV);
            if (byU[i + 1].U >= endU)
            {
                Cut(new(room.U, room.V, endU - room.U, room.LengthV), byU[..(i + 1)]);
                Cut(new(endU, room.V, room.U + room.LengthU - endU, room.LengthV), byU[(i + 1)..]);
                return;
            }

            if (byV[i + 1].V >= endV)
            {
                Cut(new(room.U, room.V, room.LengthU, endV - room.V), byV[..(i + 1)]);
                Cut(new(room.U, endV, room.LengthU, room.V + room.LengthV - endV), byV[(i + 1)..]);
                return;
            }
        }
    }

    private void Add(Free free)
    {
        if (free.LengthU > 0 && free.LengthV > 0)
        {
            _free.Add(free);
        }
    }

    private readonly record struct Free(long U, long V, long LengthU, long LengthV);
}
