using System.Globalization;

namespace Coldpeel.Craft.Sheets;

/// <summary>The judge of sheet plans: own arithmetic, nothing shared with the planner.</summary>
/// <remarks>Lengths may be off by <see cref="ToleranceMm"/>, angles by a millionth of a degree.</remarks>
public static class SheetCheck
{
    /// <summary>What a length may be off by, in mm: half a hair's hundredth, and the step of a shift.</summary>
    public const double ToleranceMm = 0.001;

    /// <summary>Everything that is wrong with the plan, a sentence each; empty when it is sound.</summary>
    public static IReadOnlyList<string> Faults(SheetProblem problem, SheetPlan plan)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(plan);
        var faults = new List<string>();
        Counted(problem, plan, faults);
        Stocked(problem, plan, faults);
        var shapes = new List<LaidShape>[plan.Sheets.Length];
        for (var s = 0; s < shapes.Length; s++)
        {
            shapes[s] = [];
        }

        foreach (var placed in plan.Placed)
        {
            if (placed.Sheet < 0 || placed.Sheet >= plan.Sheets.Length || !Known(problem, placed.Piece))
            {
                faults.Add(
                    Say($"Piece {placed.Piece} copy {placed.Copy} lies on sheet {placed.Sheet}, which is not there.")
                );
                continue;
            }

            Turned(problem, placed, faults);
            var shape = LaidShape.Of(problem.Pieces[placed.Piece], placed, problem.InRings);
            shapes[placed.Sheet].Add(shape);
            Inside(plan.Sheets[placed.Sheet], shape, faults);
        }

        foreach (var sheet in shapes)
        {
            Apart(problem, sheet, faults);
            if (problem.Trim == Trim.Straight && !CanBeCut(sheet, problem.Gap.InMillimetres))
            {
                faults.Add(Say($"The pieces with {sheet[0].Name} cannot be cut apart edge to edge."));
            }
        }

        return faults;
    }

    private static void Counted(SheetProblem problem, SheetPlan plan, List<string> faults)
    {
        var seen = new Dictionary<(int, int), int>();
        foreach (
            var key in plan.Placed.Select(p => (p.Piece, p.Copy)).Concat(plan.LeftOut.Select(p => (p.Piece, p.Copy)))
        )
        {
            seen[key] = seen.GetValueOrDefault(key) + 1;
            if (!Known(problem, key.Piece) || key.Copy < 0 || key.Copy >= problem.Pieces[key.Piece].Quantity)
            {
                faults.Add(Say($"Piece {key.Piece} copy {key.Copy} was never asked for."));
            }
        }

        for (var i = 0; i < problem.Pieces.Length; i++)
        {
            for (var copy = 0; copy < problem.Pieces[i].Quantity; copy++)
            {
                var times = seen.GetValueOrDefault((i, copy));
                if (times != 1)
                {
                    faults.Add(Say($"{problem.Pieces[i].Id} copy {copy} stands in the plan {times} times."));
                }
            }
        }

        foreach (var left in plan.LeftOut.Where(left => string.IsNullOrWhiteSpace(left.Why)))
        {
            faults.Add(Say($"Piece {left.Piece} copy {left.Copy} is left out without a reason."));
        }
    }

    private static void Stocked(SheetProblem problem, SheetPlan plan, List<string> faults)
    {
        foreach (var sheet in plan.Sheets)
        {
            if (sheet.Stock < 0 || sheet.Stock >= problem.Sheets.Length)
            {
                faults.Add(Say($"Sheet kind {sheet.Stock} is not there."));
                continue;
            }

            var stock = problem.Sheets[sheet.Stock];
            var right = problem.StripHeight is { } height
                ? sheet.Height == height && sheet.Margin == stock.Margin
                : sheet.Width == stock.Width && sheet.Height == stock.Height && sheet.Margin == stock.Margin;
            if (!right)
            {
                faults.Add(Say($"A sheet of kind {sheet.Stock} has another size than the stock."));
            }
        }

        for (var k = 0; k < problem.Sheets.Length; k++)
        {
            var used = plan.Sheets.Count(s => s.Stock == k);
            if (used > (problem.StripHeight is null ? problem.Sheets[k].Count ?? int.MaxValue : 1))
            {
                faults.Add(
                    Say($"{used} sheets of kind {k} are used, and there are only {problem.Sheets[k].Count ?? 1}.")
                );
            }
        }

        for (var s = 0; s < plan.Sheets.Length; s++)
        {
            if (!plan.Placed.Any(p => p.Sheet == s))
            {
                faults.Add(Say($"Sheet {s} is empty."));
            }
        }
    }

    private static bool Known(SheetProblem problem, int piece) => piece >= 0 && piece < problem.Pieces.Length;

    private static void Turned(SheetProblem problem, Placed placed, List<string> faults)
    {
        var piece = problem.Pieces[placed.Piece];
        var turns = piece.Turns ?? problem.Turns;
        var allowed =
            turns.Free || turns.Degrees.Any(d => Math.Abs(Math.IEEERemainder(d - placed.Turn.Degrees, 360)) < 1e-6);
        if (!allowed)
        {
            faults.Add(
                Say($"{piece.Id} copy {placed.Copy} is turned by {placed.Turn.Degrees}°, which is not allowed.")
            );
        }
    }

    private static void Inside(UsedSheet sheet, LaidShape shape, List<string> faults)
    {
        var margin = (sheet.Margin.Micrometres / 1000.0) - ToleranceMm;
        var right = (sheet.Width.Micrometres / 1000.0) - margin;
        var bottom = (sheet.Height.Micrometres / 1000.0) - margin;
        if (!(shape.X0 >= margin && shape.Y0 >= margin && shape.X1 <= right && shape.Y1 <= bottom))
        {
            faults.Add(Say($"{shape.Name} reaches beyond the printable area."));
        }
    }

    private static void Apart(SheetProblem problem, List<LaidShape> sheet, List<string> faults)
    {
        var gap = problem.Gap.Micrometres / 1000.0;
        for (var i = 0; i < sheet.Count; i++)
        {
            for (var j = i + 1; j < sheet.Count; j++)
            {
                var (a, b) = (sheet[i], sheet[j]);
                var boxes = Math.Max(Math.Max(a.X0 - b.X1, b.X0 - a.X1), Math.Max(a.Y0 - b.Y1, b.Y0 - a.Y1));
                if (boxes >= gap)
                {
                    continue;
                }

                if (a.Overlaps(b) || b.Overlaps(a))
                {
                    faults.Add(Say($"{a.Name} and {b.Name} overlap."));
                }
                else if (gap > 0 && a.Distance(b, gap) is var d && d < gap - ToleranceMm)
                {
                    faults.Add(Say($"{a.Name} and {b.Name} are {d:0.####} mm apart; the gap is {gap:0.###} mm."));
                }
            }
        }
    }

    // Boxes come apart when some straight cut with the gap around it meets none of them, and so on on either side.
    private static bool CanBeCut(List<LaidShape> boxes, double gap)
    {
        if (boxes.Count < 2)
        {
            return true;
        }

        foreach (var across in (ReadOnlySpan<bool>)[true, false])
        {
            var sorted = boxes.OrderBy(b => across ? b.X0 : b.Y0).ToList();
            var end = double.NegativeInfinity;
            for (var i = 0; i + 1 < sorted.Count; i++)
            {
                end = Math.Max(end, across ? sorted[i].X1 : sorted[i].Y1);
                if ((across ? sorted[i + 1].X0 : sorted[i + 1].Y0) - end >= gap - ToleranceMm)
                {
                    // A cut that can be made never stands in the way of another: take the first.
                    return CanBeCut(sorted[..(i + 1)], gap) && CanBeCut(sorted[(i + 1)..], gap);
                }
            }
        }

        return false;
    }

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
