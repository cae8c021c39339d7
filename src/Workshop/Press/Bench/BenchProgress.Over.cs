namespace Coldpeel.Workshop.Press.Bench;

/// <content>Presses that were opened far over their time: asked once whether what lay in them is good, and answered by whoever looked.</content>
public sealed partial class BenchProgress
{
    private readonly Dictionary<string, LateOpening> _asked = new(StringComparer.Ordinal);
    private readonly Dictionary<string, BenchEvent> _keptGood = new(StringComparer.Ordinal);

    /// <summary>What was opened far over its time and nobody has answered for yet, in the order of its opening.</summary>
    public IReadOnlyCollection<LateOpening> Asked => _asked.Values;

    /// <summary>Tasks of plates that were opened far over their time and found good, with who said so.</summary>
    public IReadOnlyDictionary<string, BenchEvent> KeptGood => _keptGood;

    private void Ask(BenchTask task)
    {
        if (
            task.Work != BenchWork.Plate
            || task.After.IsEmpty
            || !_done.TryGetValue(task.After[0], out var closed)
            || !_done.TryGetValue(task.Id, out var opened)
        )
        {
            return;
        }

        // In whole milliseconds: the screens reckon in no others.
        var overMs = opened.At.ToUnixTimeMilliseconds() - closed.At.ToUnixTimeMilliseconds() - (task.Seconds * 1000L);
        if (overMs >= FarOver.AfterS(task.Seconds) * 1000L)
        {
            _asked[task.Id] = new(task, (int)Math.Min(int.MaxValue, overMs / 1000));
        }
    }

    // Spoilt answers it, and so does whoever inspects the item: it was looked at.
    private void Answer(string item)
    {
        foreach (var asked in _asked.Values.Where(a => a.Plate.Item == item).ToArray())
        {
            _asked.Remove(asked.Plate.Id);
        }
    }

    // Pieces of a sheet that lie on no item yet are as bad as it is, trimmed or not: all tasks of theirs. Of what was made again the last copy counts: the
    // pieces before it are gone already.
    private IEnumerable<BenchTask> PiecesOf(string sheet)
    {
        var own = _tasks.Where(t => t.Item == sheet).Select(t => t.Id).ToHashSet(StringComparer.Ordinal);
        return _tasks
            .Where(t => t.Item != sheet)
            .GroupBy(BenchRest.ChainOf)
            .GroupBy(chain => chain.First().Ref)
            .Select(copies => copies.Last())
            .Where(chain =>
                chain.Any(t => t.After.Any(own.Contains)) && !chain.Any(t => t.Op == "load" && _done.ContainsKey(t.Id))
            )
            .SelectMany(chain => chain);
    }
}
