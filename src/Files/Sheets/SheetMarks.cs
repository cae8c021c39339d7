using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Sheets;

namespace Coldpeel.Files.Sheets;

/// <summary>Finds room in the waste for the marks that print with the pieces and are trimmed away.</summary>
public static class SheetMarks
{
    /// <summary>Least distance from a mark to the outline of any piece, in mm.</summary>
    public const double ClearanceMm = 0.7;

    /// <summary>Farthest that a label stands from its piece, in mm.</summary>
    public const double ReachMm = 6;

    /// <summary>Room beside the pieces in which scale, arrow and header stand, in mm: what the shelf keeps begins beyond it.</summary>
    public const double StripMm = 8;

    private const double BetweenMarksMm = 1;
    private static readonly double[] LabelCapsMm = [2.4, 2.2, 2.1];
    private static readonly PointMm[] Ways = [new(0, -1), new(0, 1), new(-1, 0), new(1, 0)];

    /// <summary>Places the marks of one sheet: the scale first, because it must be there, then feed, header and labels.</summary>
    /// <param name="sheet">The sheet.</param>
    /// <param name="jobName">Stands in the header.</param>
    /// <param name="pages">How many sheets the job has.</param>
    public static SheetMarkings Place(PrintSheet sheet, string jobName, int pages)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(jobName);
        var work = new Work(sheet, WasteOf(sheet));
        work.PlaceScale();
        work.PlaceFeed();
        work.PlaceHeader(jobName, pages);
        for (var i = 0; i < sheet.Pieces.Length; i++)
        {
            work.PlaceLabel(i);
        }

        return work.Done();
    }

    /// <summary>Places the marks of every sheet of a job, side by side.</summary>
    /// <param name="sheets">The sheets.</param>
    /// <param name="jobName">Stands in the headers.</param>
    public static IReadOnlyList<SheetMarkings> PlaceAll(IReadOnlyList<PrintSheet> sheets, string jobName) =>
        [.. sheets.AsParallel().AsOrdered().Select(s => Place(s, jobName, sheets.Count))];

    /// <summary>The sheet within its printable border, in mm from the paper's top left.</summary>
    internal static BoxMm PrintableOf(PrintSheet sheet) =>
        new BoxMm(0, 0, sheet.Width.InMillimetres, sheet.Height.InMillimetres).Grow(-sheet.Margin.InMillimetres);

    /// <summary>The waste within the printable border, the rings of all pieces taken out.</summary>
    internal static WasteGrid WasteOf(PrintSheet sheet)
    {
        var area = PrintableOf(sheet);
        // 0.2 mm on common papers; coarser on large ones, so that the grid stays below 4 million cells.
        var grid = new WasteGrid(area, Math.Max(0.2, Math.Sqrt(area.Width * area.Height / 4e6)));
        for (var i = 0; i < sheet.Pieces.Length; i++)
        {
            grid.Block(sheet.Pieces[i].RingOnSheet(), i, ClearanceMm);
        }

        grid.Seal();
        return grid;
    }

    /// <summary>The outer ring of a piece where it lies, in mm from the paper's top left.</summary>
    internal static PointMm[] RingOnSheet(this LaidPiece piece) =>
        [.. piece.Design.Outline.Outer.Select(p => piece.Turn.Of(p) + piece.Shift)];

    private sealed class Work(PrintSheet sheet, WasteGrid waste)
    {
        private readonly ImmutableArray<SheetMark>.Builder _marks = ImmutableArray.CreateBuilder<SheetMark>();
        private readonly ImmutableArray<int>.Builder _unlabelled = ImmutableArray.CreateBuilder<int>();
        private readonly ImmutableArray<Finding>.Builder _findings = ImmutableArray.CreateBuilder<Finding>();

        public void PlaceScale()
        {
            var lying = MarkShapes.Scale();
            if (
                !Put(MarkKind.Scale, lying, b => waste.Area.Bottom - b.Bottom + (0.01 * (b.Left - waste.Area.Left)))
                && !Put(
                    MarkKind.Scale,
                    lying.Upended(),
                    b => b.Left - waste.Area.Left + (0.01 * (waste.Area.Bottom - b.Bottom))
                )
            )
            {
                _findings.Add(
                    new(
                        "no-check-scale",
                        Severity.Warn,
                        $"Sheet {sheet.Page} has no room for the 100 mm check scale: measure a piece of known size after printing, "
                            + $"or move a piece to another sheet."
                    )
                );
            }
        }

        public void PlaceFeed()
        {
            // Desktop printers take a sheet by its short edge; on a sheet wider than high that is the left one (common practice, no source).
            var left = sheet.Width > sheet.Height;
            double Cost(BoxMm b) =>
                left
                    ? b.Left - waste.Area.Left + (0.05 * (b.Top - waste.Area.Top))
                    : b.Top - waste.Area.Top + (0.05 * (waste.Area.Right - b.Right));
            if (
                !Put(MarkKind.Feed, MarkShapes.Feed(left, withWords: true), Cost)
                && !Put(MarkKind.Feed, MarkShapes.Feed(left, withWords: false), Cost)
            )
            {
                _findings.Add(
                    new(
                        "no-feed-arrow",
                        Severity.Note,
                        $"Sheet {sheet.Page} has no room for the feed arrow: see the trim map for which edge went in first."
                    )
                );
            }
        }

        public void PlaceHeader(string jobName, int pages)
        {
            var page = $"page {sheet.Page}/{pages}";
            var name = jobName.ReplaceLineEndings(" ").Trim();
            var shortened = name.Length > 24 ? name[..23].TrimEnd() + "…" : name;
            double Cost(BoxMm b) => b.Top - waste.Area.Top + (0.1 * (b.Left - waste.Area.Left));
            string[] wordings = name.Length == 0 ? [page] : [$"{name} – {page}", $"{shortened} – {page}", page];
            foreach (var words in wordings.Distinct())
            {
                foreach (var shape in (MarkShape[])[MarkShapes.Words(words, 2.4), MarkShapes.Words(words, 2.1)])
                {
                    if (Put(MarkKind.Header, shape, Cost) || Put(MarkKind.Header, shape.Upended(), Cost))
                    {
                        return;
                    }
                }
            }

            _findings.Add(
                new(
                    "no-sheet-header",
                    Severity.Note,
                    $"Sheet {sheet.Page} has no room for job name and page: write them on the film's edge by hand."
                )
            );
        }

        public void PlaceLabel(int index)
        {
            var piece = sheet.Pieces[index];
            if (piece.Label.Length > 0 && !PutPlainLabel(index) && !PutPointedLabel(index))
            {
                _unlabelled.Add(index);
            }
        }

        public SheetMarkings Done()
        {
            if (_unlabelled.Count > 0)
            {
                var names = string.Join(", ", _unlabelled.Take(8).Select(i => sheet.Pieces[i].Label));
                _findings.Add(
                    new(
                        "label-left-off",
                        Severity.Note,
                        $"Sheet {sheet.Page} has no waste wide enough beside {names}{(_unlabelled.Count > 8 ? (Sentence)$" and more" : Sentence.Nothing)}: "
                            + $"find them by the trim map, or widen the gap."
                    )
                    {
                        Count = _unlabelled.Count,
                    }
                );
            }

            return new(_marks.ToImmutable(), _unlabelled.ToImmutable(), _findings.ToImmutable());
        }

        private bool Put(MarkKind kind, MarkShape shape, Func<BoxMm, double> cost) =>
            Put(kind, null, shape, waste.Cheapest(shape.Width, shape.Height, waste.Area, Apart(cost), step: 2));

        // What the shelf keeps stays blank, unless there is no room elsewhere.
        private Func<BoxMm, double> Apart(Func<BoxMm, double> cost) =>
            sheet.Keep is { } keep ? b => cost(b) + (keep.Meets(b) ? 10_000 : 0) : cost;

        private bool Put(MarkKind kind, int? piece, MarkShape shape, BoxMm? at)
        {
            if (at is not { } box)
            {
                return false;
            }

            // Labels side by side must not read as one.
            waste.Take(box, kind == MarkKind.Label ? 2 * BetweenMarksMm : BetweenMarksMm);
            _marks.Add(new(kind, piece, shape.Text, box, shape.At(box)));
            return true;
        }

        // Beside its own piece and clearly farther from every other: no reader can be in doubt.
        private bool PutPlainLabel(int index)
        {
            var around = BoxMm.Around(sheet.Pieces[index].RingOnSheet());
            var middle = (around.Left + around.Right) / 2;
            foreach (var cap in LabelCapsMm)
            {
                var lying = MarkShapes.Words(sheet.Pieces[index].Label, cap);
                foreach (var shape in (MarkShape[])[lying, lying.Upended()])
                {
                    var reach = around.Grow(ReachMm + Math.Max(shape.Width, shape.Height));
                    // Every other cell: most of the time goes here, and where only every cell would do the pointed label looks.
                    double Cost(BoxMm b) => DoubtlessCost(b, index, middle);
                    var at = waste.Cheapest(shape.Width, shape.Height, reach, Apart(Cost), step: 2);
                    if (Put(MarkKind.Label, index, shape, at))
                    {
                        return true;
                    }
                }
            }

            return false;
        }

        private double DoubtlessCost(BoxMm box, int index, double middle)
        {
            var centre = Centre(box);
            var (piece, mm) = waste.Nearest(centre);
            if (piece != index || mm > ReachMm)
            {
                return double.PositiveInfinity;
            }

            var (own, other) = (double.PositiveInfinity, double.PositiveInfinity);
            foreach (var way in Ways)
            {
                var side = new PointMm(centre.X + (way.X * box.Width / 2), centre.Y + (way.Y * box.Height / 2));
                var (met, far) = waste.Meet(side, way, ReachMm);
                own = met == index ? Math.Min(own, far) : own;
                other = met >= 0 && met != index ? Math.Min(other, far) : other;
            }

            return own + 1 <= other ? own + (0.02 * Math.Abs(centre.X - middle)) : double.PositiveInfinity;
        }

        // Between neighbours a small triangle says whose the label is: what it points at, straight, is its piece.
        private bool PutPointedLabel(int index)
        {
            var around = BoxMm.Around(sheet.Pieces[index].RingOnSheet());
            foreach (var cap in LabelCapsMm)
            {
                foreach (var upended in (bool[])[false, true])
                {
                    var (best, least) = (((MarkShape Shape, BoxMm Box)?)null, double.PositiveInfinity);
                    foreach (var way in Ways)
                    {
                        var local = upended ? new PointMm(-way.Y, way.X) : way;
                        var shape = MarkShapes.Pointed(sheet.Pieces[index].Label, cap, local);
                        shape = upended ? shape.Upended() : shape;
                        var cost = Apart(b => PointedCost(b, index, way, cap, upended));
                        var reach = around.Grow(ReachMm + Math.Max(shape.Width, shape.Height));
                        if (
                            waste.Cheapest(shape.Width, shape.Height, reach, cost) is { } box
                            && cost(box) is var found
                            && found < least
                        )
                        {
                            (best, least) = ((shape, box), found);
                        }
                    }

                    if (best is { } mark && Put(MarkKind.Label, index, mark.Shape, mark.Box))
                    {
                        return true;
                    }
                }
            }

            return false;
        }

        private double PointedCost(BoxMm box, int index, PointMm way, double cap, bool upended)
        {
            var inset = cap * 0.45;
            var from = upended
                ? new PointMm(Centre(box).X, box.Bottom - inset)
                : new PointMm(box.Left + inset, Centre(box).Y);
            var (met, far) = waste.Meet(from, way, ReachMm);
            return met == index ? far : double.PositiveInfinity;
        }

        private static PointMm Centre(BoxMm box) => new((box.Left + box.Right) / 2, (box.Top + box.Bottom) / 2);
    }
}
