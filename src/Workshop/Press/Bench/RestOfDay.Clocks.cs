using Coldpeel.Craft.Press.Day;

namespace Coldpeel.Workshop.Press.Bench;

/// <content>When running plates open and items are cold, when presses are free, and where the rest is wanted.</content>
internal sealed partial class RestOfDay
{
    // Seconds from now to the bell; 0 when it has rung or the plate is open.
    private int OpensIn(BenchTask[] tasks, string load, string closed)
    {
        var begin = tasks.First(t => t.Op == load);
        var plate = tasks.FirstOrDefault(t => t.Op == closed);
        return plate is null || Done(plate) || !progress.Done.TryGetValue(begin.Id, out var shut)
            ? 0
            : Math.Max(0, (int)Math.Ceiling((shut.At.AddSeconds(plate.Seconds) - now).TotalSeconds));
    }

    private int ColdIn(BenchTask[] tasks) =>
        tasks.FirstOrDefault(t => t.Op == "lift") is { } lift
        && tasks.FirstOrDefault(t => t.Op == "cool") is { } cool
        && progress.Done.TryGetValue(lift.Id, out var lifted)
            ? Math.Max(0, (int)Math.Ceiling((lifted.At.AddSeconds(cool.Seconds) - now).TotalSeconds))
            : 0;

    // Plates that are closed open when their bell rings, and one after the other where fewer hands are there.
    private void Settle(int history)
    {
        foreach (var (index, coldIn, liftedAt) in _cooling)
        {
            _placements[index] = _placements[index] with { Cool = Math.Max(0, history + coldIn - liftedAt) };
        }

        var hands = Enumerable.Repeat(history, Math.Max(1, day.Hands)).ToArray();
        foreach (var run in _running.OrderBy(r => r.OpensInS))
        {
            var id = run.Sheet ? _sheets[run.Index].Id : _placements[run.Index].Id;
            var loaded = _fixed.First(f => f.Op == run.Op && f.Ref == id).Start + 1;
            var hand = Array.IndexOf(hands, hands.Min());
            var opens = Math.Max(history + run.OpensInS, hands[hand]);
            var ending = 0;
            if (run.Sheet)
            {
                var sheet = _sheets[run.Index] with { Press = opens - loaded };
                (_sheets[run.Index], ending) = (sheet, sheet.Peel);
            }
            else
            {
                var p = _placements[run.Index];
                p = run.Op == "place" ? p with { Press = opens - loaded } : p with { FinishPress = opens - loaded };
                (_placements[run.Index], ending) = (p, run.Op == "place" ? p.Lift : p.Unload);
            }

            hands[hand] = opens + ending;
        }

        for (var i = 0; i < _sheets.Count; i++)
        {
            // A sheet that is printed later stays later; the others are there.
            var at = _sheets[i].AvailableAt;
            _sheets[i] = _sheets[i] with { AvailableAt = at <= 0 ? 0 : Math.Max(0, at - _nowS + history) };
        }
    }

    private IEnumerable<DayPress> Presses(int history)
    {
        var running = _fixed.Where(f => f.Press is not null && f.Press != Over).ToLookup(f => f.Press);
        foreach (var press in day.Presses)
        {
            var last = progress
                .Tasks.Where(t => t.Press == press.Id && t.Celsius is not null && Done(t))
                .MaxBy(t => progress.Done[t.Id].At);
            var free = press.FreeAt - _nowS + history;
            yield return press with
            {
                SetpointC = last?.Celsius ?? press.SetpointC,
                FreeAt = running.Contains(press.Id) ? 0 : Math.Max(0, free),
            };
        }

        if (_fixed.Any(f => f.Press == Over))
        {
            var (w, h) = (day.Presses.Max(p => p.PlateW), day.Presses.Max(p => p.PlateH));
            yield return new DayPress(Over, Math.Max(w, h), Math.Max(w, h), day.Presses[0].SetpointC, 0);
        }
    }

    // What has not begun stays near where it stood.
    private IEnumerable<DayWanted> Wanted(BenchRest at)
    {
        var begun = _fixed.Select(f => (f.Op, f.Ref)).ToHashSet();
        foreach (var task in progress.Tasks.Where(t => !Done(t) && !progress.Dropped.Contains(t.Id)))
        {
            var block = task.Op switch
            {
                "bond.load" => "bond",
                "load" => "place",
                "finish.load" => "finish",
                "trim" or "peel" or "inspect" => task.Op,
                _ => null,
            };
            if (block is not null && !begun.Contains((block, BenchRest.ChainOf(task))))
            {
                yield return new(
                    block,
                    BenchRest.ChainOf(task),
                    task.Press,
                    Math.Max(at.HistoryS, at.ToProblem(task.StartS + progress.LateS))
                );
            }
        }
    }
}
