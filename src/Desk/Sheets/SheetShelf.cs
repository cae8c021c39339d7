using System.Collections.Immutable;
using Coldpeel.Craft.Sheets;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Sheets;

/// <summary>The workshop's sheets and what is left of started ones, while a job takes from them.</summary>
internal sealed class SheetShelf(WorkshopBook book)
{
    private readonly (SheetStock Sheet, string? Process)[] _kinds =
    [
        .. book.Sheets.Select(s => (s, (string?)null)),
        .. book.Remnants.Select(r => (r.Sheet, r.Process)),
    ];

    /// <summary>The kinds of sheet that a process can use, with what is left of each.</summary>
    public ImmutableArray<SheetStock> For(string process) => [.. Of(process).Select(k => _kinds[k].Sheet)];

    /// <summary>Takes the sheets of a plan off the shelf.</summary>
    public void Take(string process, SheetPlan plan)
    {
        int[] kinds = [.. Of(process)];
        foreach (var sheet in plan.Sheets)
        {
            ref var kind = ref _kinds[kinds[sheet.Stock]];
            kind.Sheet = kind.Sheet with { Count = kind.Sheet.Count - 1 };
        }
    }

    private IEnumerable<int> Of(string process) =>
        Enumerable.Range(0, _kinds.Length).Where(k => _kinds[k].Process is null || _kinds[k].Process == process);
}
