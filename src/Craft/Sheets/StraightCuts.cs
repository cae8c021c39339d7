using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Sheets;

/// <summary>The order of cuts that takes a sheet apart on a straight cutter: every cut runs from edge to edge, and keeps half the gap to every piece.</summary>
public static class StraightCuts
{
    /// <summary>
    /// What may stay on round a piece beyond half the gap, in mm (common practice, no source: less is not worth a cut, more gets in the way at the press).
    /// </summary>
    public const double FlapMm = 5;

    /// <summary>The cuts of a sheet in the order they are made; none where nothing has to be cut.</summary>
    /// <param name="problem">What was asked: its gap.</param>
    /// <param name="plan">A sound plan, its sheets laid for straight trim.</param>
    /// <param name="sheet">Index of the sheet.</param>
    /// <param name="keep">What the shelf keeps, cut off first; null when nothing is kept.</param>
    /// <exception cref="InvalidOperationException">No straight cut takes the pieces apart: the plan is not sound.</exception>
    public static ImmutableArray<StraightCut> Of(SheetProblem problem, SheetPlan plan, int sheet, BoxMm? keep = null)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(plan);
        var boxes = plan
            .Placed.Index()
            .Where(p => p.Item.Sheet == sheet)
            .ToDictionary(
                p => p.Index,
                p =>
                    BoxMm.Around(
                        problem.Pieces[p.Item.Piece].Outline.Outer.Select(q => p.Item.Turn.Of(q) + p.Item.Shift)
                    )
            );
        var paper = plan.Sheets[sheet];
        var whole = new CutPart(
            1,
            new(0, 0, paper.Width.InMillimetres, paper.Height.InMillimetres),
            [.. boxes.Keys.Order()]
        );
        var cuts = new Cutter(boxes, problem.Gap.InMillimetres / 2);
        cuts.Apart(keep is { } kept ? cuts.Without(whole, kept) : whole);
        return cuts.Made;
    }

    /// <summary>How long all cuts of a sheet are together, mm.</summary>
    /// <param name="boxes">Boxes round the pieces, in mm of the paper.</param>
    /// <param name="paper">The paper.</param>
    /// <param name="gapMm">Gap between pieces.</param>
    internal static double LengthMm(ImmutableArray<BoxMm> boxes, BoxMm paper, double gapMm)
    {
        var cutter = new Cutter(boxes.Index().ToDictionary(b => b.Index, b => b.Item), gapMm / 2);
        cutter.Apart(new(1, paper, [.. Enumerable.Range(0, boxes.Length)]));
        return cutter.Made.Sum(c => c.LengthMm);
    }

    private sealed class Cutter(Dictionary<int, BoxMm> boxes, double halfGap)
    {
        private readonly ImmutableArray<StraightCut>.Builder _made = ImmutableArray.CreateBuilder<StraightCut>();
        private int _parts = 1;

        public ImmutableArray<StraightCut> Made => _made.ToImmutable();

        /// <summary>Cuts off what the shelf keeps: the right or the lower end of the sheet.</summary>
        public CutPart Without(CutPart whole, BoxMm keep) =>
            keep.Left > whole.Box.Left ? Cut(whole, true, keep.Left).First
            : keep.Top > whole.Box.Top ? Cut(whole, false, keep.Top).First
            : whole;

        public void Apart(CutPart part)
        {
            if (part.Holds.IsEmpty)
            {
                return;
            }

            part = WithoutFlaps(part);
            if (part.Holds.Length == 1)
            {
                return;
            }

            // Cuts that can be made never stand in one another's way: all of the direction with more of them, one after the other.
            var (upright, level) = (Between(part.Holds, true), Between(part.Holds, false));
            var across = upright.Count >= level.Count;
            var bands = across ? upright : level;
            if (bands.Count == 0)
            {
                throw new InvalidOperationException("No straight cut takes these pieces apart.");
            }

            var parts = new List<CutPart>();
            foreach (var (end, start) in bands)
            {
                var middle = start - end <= 2 * (halfGap + FlapMm);
                var cut = Cut(part, across, middle ? (start + end) / 2 : end + halfGap);
                parts.Add(cut.First);
                part = cut.Second;
            }

            parts.Add(part);
            parts.ForEach(Apart);
        }

        // Wide borders of a part go at once, rather than piece by piece.
        private CutPart WithoutFlaps(CutPart part)
        {
            var inner = new BoxMm(
                part.Holds.Min(i => boxes[i].Left) - halfGap,
                part.Holds.Min(i => boxes[i].Top) - halfGap,
                part.Holds.Max(i => boxes[i].Right) + halfGap,
                part.Holds.Max(i => boxes[i].Bottom) + halfGap
            );
            part = inner.Left - part.Box.Left > FlapMm ? Cut(part, true, inner.Left).Second : part;
            part = part.Box.Right - inner.Right > FlapMm ? Cut(part, true, inner.Right).First : part;
            part = inner.Top - part.Box.Top > FlapMm ? Cut(part, false, inner.Top).Second : part;
            return part.Box.Bottom - inner.Bottom > FlapMm ? Cut(part, false, inner.Bottom).First : part;
        }

        /// <summary>The stretches without a piece, as wide as the gap or wider, from near to far.</summary>
        private List<(double End, double Start)> Between(ImmutableArray<int> holds, bool upright)
        {
            var sorted = holds
                .Select(i =>
                    upright ? (From: boxes[i].Left, To: boxes[i].Right) : (From: boxes[i].Top, To: boxes[i].Bottom)
                )
                .Order()
                .ToList();
            var bands = new List<(double, double)>();
            var end = sorted[0].To;
            foreach (var (from, to) in sorted.Skip(1))
            {
                if (from - end >= (2 * halfGap) - SheetCheck.ToleranceMm)
                {
                    bands.Add((end, from));
                }

                end = Math.Max(end, to);
            }

            return bands;
        }

        private StraightCut Cut(CutPart part, bool upright, double at)
        {
            var (first, second) = upright
                ? (part.Box with { Right = at }, part.Box with { Left = at })
                : (part.Box with { Bottom = at }, part.Box with { Top = at });
            bool Before(int i) => (upright ? boxes[i].Left + boxes[i].Right : boxes[i].Top + boxes[i].Bottom) < 2 * at;
            var cut = new StraightCut(
                _made.Count + 1,
                part,
                upright,
                at,
                new(++_parts, first, [.. part.Holds.Where(Before)]),
                new(++_parts, second, [.. part.Holds.Where(i => !Before(i))])
            );
            _made.Add(cut);
            return cut;
        }
    }
}
