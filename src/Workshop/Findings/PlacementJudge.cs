using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Sheets;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Workshop.Findings;

/// <summary>Whether a design fits its place, a sheet and a plate.</summary>
public static class PlacementJudge
{
    // Half a printer's dot at 600 dots an inch is 0.02 mm: less than that over is no matter of size.
    private const double SlackMm = 0.05;

    // Any turn is tried at every half degree; a design that fits at one turn in between only is called too large.
    private const int FreeSteps = 180;

    /// <summary>What does not fit, worst first: sheet and plate stop the job, the customary size of the place warns.</summary>
    public static ImmutableArray<Finding> Judge(
        Design design,
        DesignRequest request,
        ItemRequest item,
        PlacementRule rule,
        WorkshopBook book
    )
    {
        ArgumentNullException.ThrowIfNull(design);
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(item);
        ArgumentNullException.ThrowIfNull(rule);
        ArgumentNullException.ThrowIfNull(book);
        if (design.Outline.Outer.IsDefaultOrEmpty)
        {
            return [];
        }

        Sentence name = $"{request.Id} on {Words.Item(item)}, {Words.Data(rule.Name)}";
        Finding?[] found = [Sheet(design, name, book), Plate(design, name, rule, book), Place(design, name, rule)];
        return [.. found.OfType<Finding>().Select(f => f with { Design = design.Id, Item = item.Id })];
    }

    private static Finding? Sheet(Design design, Sentence name, WorkshopBook book)
    {
        if (book.Sheets.Any(s => Fits(design.Outline, s, book.Turns)))
        {
            return null;
        }

        var box = design.Outline.Box;
        var largest = book.Sheets.MaxBy(s => Room(s).Width * Room(s).Height)!;
        var (width, height) = Room(largest);
        var shrink = Shrink(design.Outline, width, height, book.Turns);
        return new(
            "larger-than-sheet",
            Severity.Stop,
            $"{name}: {Words.Size(box.Width, box.Height)} fits no sheet in any allowed turn; the largest prints {Words.Size(width, height)}; "
                + $"make the design at most {Words.Mm(Math.Floor(design.WidthMm * shrink), "0")} wide, or divide it."
        )
        {
            WorstMm = Math.Max(box.Width, box.Height),
            LimitMm = Math.Max(width, height),
        };
    }

    private static Finding? Plate(Design design, Sentence name, PlacementRule rule, WorkshopBook book)
    {
        var box = design.Outline.Box;
        if (book.Presses.Any(p => Lies(box.Width, box.Height, p)))
        {
            return book.Presses.Any(p => Lies(rule.PlateWidthMm, rule.PlateHeightMm, p))
                ? null
                : TooLarge($"the laid-out item needs", rule.PlateWidthMm, rule.PlateHeightMm);
        }

        return TooLarge($"the design measures", box.Width, box.Height);

        Finding TooLarge(Sentence what, double width, double height)
        {
            var plate = book.Presses.MaxBy(p => p.PlateWidthMm * p.PlateHeightMm)!;
            return new(
                "larger-than-plate",
                Severity.Stop,
                $"{name}: {what} {Words.Size(width, height)}, and the largest plate has {Words.Size(plate.PlateWidthMm, plate.PlateHeightMm)}; make the design smaller or choose another place."
            )
            {
                WorstMm = Math.Max(width, height),
                LimitMm = Math.Max(plate.PlateWidthMm, plate.PlateHeightMm),
            };
        }
    }

    private static Finding? Place(Design design, Sentence name, PlacementRule rule)
    {
        var box = design.Outline.Box;
        var (overWidth, overHeight) = (box.Width - rule.MaxWidthMm, box.Height - rule.MaxHeightMm);
        if (Math.Max(overWidth, overHeight) <= SlackMm)
        {
            return null;
        }

        var wide = overWidth / rule.MaxWidthMm >= overHeight / rule.MaxHeightMm;
        var shrink = Math.Min(rule.MaxWidthMm / box.Width, rule.MaxHeightMm / box.Height);
        return new(
            "larger-than-placement",
            Severity.Warn,
            $"{name}: {Words.Size(box.Width, box.Height)} is larger than is usual there ({Words.Size(rule.MaxWidthMm, rule.MaxHeightMm)}) and may run over seams on the smallest item; "
                + $"make the design {Words.Mm(Math.Floor(design.WidthMm * shrink), "0")} wide, or lay it on the smallest item and look."
        )
        {
            WorstMm = wide ? box.Width : box.Height,
            LimitMm = wide ? rule.MaxWidthMm : rule.MaxHeightMm,
        };
    }

    private static bool Lies(double width, double height, HeatPress press) =>
        (width <= press.PlateWidthMm + SlackMm && height <= press.PlateHeightMm + SlackMm)
        || (height <= press.PlateWidthMm + SlackMm && width <= press.PlateHeightMm + SlackMm);

    private static bool Fits(Region outline, SheetStock sheet, Turns turns)
    {
        var (width, height) = Room(sheet);
        return Shrink(outline, width, height, turns) >= 1;
    }

    // The largest share of its size at which the outline fits in some allowed turn; 1 or more when it fits as it is.
    private static double Shrink(Region outline, double width, double height, Turns turns)
    {
        var degrees = turns.Free ? Enumerable.Range(0, 2 * FreeSteps).Select(i => i / 2.0) : turns.Degrees;
        return degrees.Max(d =>
        {
            var turn = Turn.Clockwise(d);
            var box = BoxMm.Around(outline.Outer.Select(turn.Of));
            return Math.Min(width / box.Width, height / box.Height);
        });
    }

    private static (double Width, double Height) Room(SheetStock sheet) =>
        (
            (sheet.Width - sheet.Margin - sheet.Margin).InMillimetres,
            (sheet.Height - sheet.Margin - sheet.Margin).InMillimetres
        );
}
