namespace Coldpeel.Craft.Sheets.Search;

/// <summary>A sheet filled by true shape: each copy slides along many rows to the first free u, and the best row wins.</summary>
/// <remarks>
/// Rows stand on a grid across the sheet and where boxes would touch. What lies on a sheet only grows, so the first free u
/// of a row never goes back: it is kept for each form, and equal copies start where the last one stopped.
/// </remarks>
internal sealed class TrueShapeSheet(
    int stock,
    long lengthU,
    long lengthV,
    Slices slices,
    long grid,
    bool beside = true
) : OpenSheet(stock, lengthU, lengthV)
{
    private readonly Dictionary<int, Rows> _rows = [];

    /// <inheritdoc/>
    protected override (int Way, long U, long V)? Find(ReadOnlySpan<Way> ways, Taste taste)
    {
        (int Way, long U, long V)? best = null;
        var bestScore = double.PositiveInfinity;
        for (var w = 0; w < ways.Length; w++)
        {
            var form = ways[w].Form;
            if (form.ExtentU > LengthU || form.ExtentV > LengthV)
            {
                continue;
            }

            var rows = RowsOf(form);
            for (var r = 0; r < rows.Count; r++)
            {
                var limit = Math.Min(LengthU - form.ExtentU, bestScore - (taste.Reach * form.ExtentU));
                if (rows.Slide(r, form, Spots, slices, limit))
                {
                    var score = rows.U(r) + (taste.Reach * form.ExtentU);
                    // Of equal reach, the nearer to the edge: equal boxes then stand without a sliver between them.
                    if (score < bestScore || best is not { } b || (score == bestScore && rows.V(r) < b.V))
                    {
                        bestScore = score;
                        best = (w, rows.U(r), rows.V(r));
                    }
                }
            }

            rows.DropFull();
        }

        return best;
    }

    /// <inheritdoc/>
    protected override void Laid(Spot spot)
    {
        if (!beside)
        {
            return;
        }

        foreach (var (_, rows) in _rows)
        {
            rows.AddBeside(spot);
        }
    }

    private Rows RowsOf(Form form)
    {
        if (!_rows.TryGetValue(form.Index, out var rows))
        {
            rows = new(form, LengthU - form.ExtentU, LengthV - form.ExtentV, grid);
            _rows.Add(form.Index, rows);
            foreach (var spot in beside ? Spots : [])
            {
                rows.AddBeside(spot);
            }
        }

        return rows;
    }

    /// <summary>The rows of one form on one sheet.</summary>
    private sealed class Rows
    {
        private readonly Form _form;
        private readonly long _lastU;
        private readonly long _lastV;
        private readonly HashSet<long> _known = [];
        private Row[] _rows;

        public Rows(Form form, long lastU, long lastV, long grid)
        {
            _form = form;
            _lastU = lastU;
            _lastV = lastV;
            _rows = new Row[(int)(lastV / grid) + 8];
            for (long v = 0; v < lastV; v += grid)
            {
                Add(v);
            }

            Add(lastV);
        }

        public int Count { get; private set; }

        public long U(int row) => _rows[row].U;

        public long V(int row) => _rows[row].V;

        // Rows where the grown boxes just touch: what makes equal rectangles line up without loss.
        public void AddBeside(Spot spot)
        {
            Add(spot.V + (long)Math.Ceiling(spot.Way.Form.LastV - _form.FirstV - 1e-6));
            Add(spot.V + (long)Math.Floor(spot.Way.Form.FirstV - _form.LastV + 1e-6));
            Add(spot.V);
        }

        /// <summary>Moves the row's u to the first free one; false when that lies beyond <paramref name="limit"/>.</summary>
        public bool Slide(int r, Form form, IReadOnlyList<Spot> spots, Slices slices, double limit)
        {
            ref var row = ref _rows[r];
            if (row.U > limit)
            {
                return false;
            }

            // Clear counts the spots in turn that do not stand in the way at this u; those before Seen are done already.
            var (clear, at) = (row.Seen, row.Seen);
            while (clear < spots.Count)
            {
                at = at >= spots.Count ? 0 : at;
                var spot = spots[at];
                var moved = false;
                var offsetV = row.V - spot.V;
                var offsetU = row.U - spot.U;
                if (
                    offsetV + form.LastV > spot.Way.Form.FirstV
                    && offsetV + form.FirstV < spot.Way.Form.LastV
                    && offsetU + form.LastU > spot.Way.Form.FirstU
                    && offsetU + form.FirstU < spot.Way.Form.LastU
                )
                {
                    var stretches = slices.Forbidden(spot.Way.Form, form, offsetV);
                    for (var k = 0; k < stretches.Length; k++)
                    {
                        if (offsetU > stretches[k].From && offsetU < stretches[k].To)
                        {
                            offsetU = stretches[k].To;
                            row.U = spot.U + offsetU;
                            moved = true;
                            k = -1;
                        }
                    }
                }

                at++;
                clear = moved ? 1 : clear + 1;
                if (moved && (row.U > limit))
                {
                    row.Seen = 0;
                    return false;
                }
            }

            row.Seen = spots.Count;
            return true;
        }

        public void DropFull()
        {
            var kept = 0;
            for (var r = 0; r < Count; r++)
            {
                if (_rows[r].U <= _lastU)
                {
                    _rows[kept++] = _rows[r];
                }
            }

            Count = kept;
        }

        private void Add(long v)
        {
            if (v < 0 || v > _lastV || !_known.Add(v))
            {
                return;
            }

            if (Count == _rows.Length)
            {
                Array.Resize(ref _rows, _rows.Length * 2);
            }

            _rows[Count++] = new() { V = v };
        }

        private struct Row
        {
            public long V;
            public long U;
            public int Seen;
        }
    }
}
