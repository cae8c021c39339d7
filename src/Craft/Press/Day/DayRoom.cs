using System.Collections.Immutable;

namespace Coldpeel.Craft.Press.Day;

/// <summary>Which presses have room for what, and what cannot be planned for want of it.</summary>
internal sealed class DayRoom
{
    private readonly DayProblem _problem;

    public DayRoom(DayModel model)
    {
        _problem = model.Problem;
        ForPlacement = [.. _problem.Placements.Select(p => PressesFor(p.Id, p.W, p.H))];
        ForSheet = [.. _problem.Sheets.Select(s => PressesFor(s.Id, s.W, s.H))];
        Bonded = [.. _problem.Fixed.Where(f => f.Op == "bond").Select(f => f.Ref)];
        WhyLeftOut = Why(model.SheetOf, model.AfterOf);
    }

    /// <summary>Per placement, the presses that can take it.</summary>
    public ImmutableArray<int>[] ForPlacement { get; }

    /// <summary>Per sheet, the presses that can take it.</summary>
    public ImmutableArray<int>[] ForSheet { get; }

    /// <summary>Sheets whose bonding had begun.</summary>
    public HashSet<string> Bonded { get; }

    /// <summary>Per placement, why it cannot be planned, or null.</summary>
    public string?[] WhyLeftOut { get; }

    private string?[] Why(int[] sheetOf, int[] afterOf)
    {
        var why = new string?[_problem.Placements.Length];
        for (var p = 0; p < why.Length; p++)
        {
            var it = _problem.Placements[p];
            if (ForPlacement[p].IsEmpty)
            {
                why[p] = TooLarge($"Placement {it.Id}", it.W, it.H);
            }
            else if (sheetOf[p] >= 0 && ForSheet[sheetOf[p]].IsEmpty && !Bonded.Contains(it.Sheet!))
            {
                why[p] = $"Placement {it.Id} waits for sheet {it.Sheet}, which no press can bond.";
            }
        }

        // What follows on the same item falls with it, however long the chain.
        for (var round = 0; round < why.Length; round++)
        {
            var more = false;
            for (var p = 0; p < why.Length; p++)
            {
                if (why[p] is null && afterOf[p] >= 0 && why[afterOf[p]] is not null)
                {
                    var it = _problem.Placements[p];
                    why[p] = $"Placement {it.Id} comes after {it.After} on item {it.Item}, which cannot be planned.";
                    more = true;
                }
            }

            if (!more)
            {
                break;
            }
        }

        return why;
    }

    /// <summary>The words for what lies on no plate.</summary>
    public string TooLarge(string what, int w, int h) =>
        _problem.Presses.Any(p => (w <= p.PlateW && h <= p.PlateH) || (h <= p.PlateW && w <= p.PlateH))
            ? $"{what} needs {w} × {h} mm and is banned from every press with such a plate."
        : _problem.Presses.IsEmpty ? $"{what} needs a press and the day has none."
        : $"{what} needs {w} × {h} mm and no press has such a plate (the largest is {LargestPlate()}).";

    private string LargestPlate()
    {
        var largest = _problem.Presses.MaxBy(p => (long)p.PlateW * p.PlateH)!;
        return $"{largest.Id}, {largest.PlateW} × {largest.PlateH} mm";
    }

    private ImmutableArray<int> PressesFor(string id, int w, int h) =>
        [
            .. Enumerable
                .Range(0, _problem.Presses.Length)
                .Where(i => !_problem.Wishes.Bars(_problem.Presses[i].Id, id))
                .Where(i =>
                    (w <= _problem.Presses[i].PlateW && h <= _problem.Presses[i].PlateH)
                    || (h <= _problem.Presses[i].PlateW && w <= _problem.Presses[i].PlateH)
                ),
        ];
}
