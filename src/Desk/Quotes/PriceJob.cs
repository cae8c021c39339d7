using System.Collections.Immutable;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;
using Coldpeel.Workshop.Quotes;
using Coldpeel.Workshop.Sheets;

namespace Coldpeel.Desk.Quotes;

/// <summary>Adds up what a job uses and prices it.</summary>
internal static class PriceJob
{
    /// <summary>The quote; a fault when job and price list do not speak of the same money.</summary>
    public static Outcome<Quote> Run(
        Job job,
        WorkshopBook book,
        ImmutableArray<(string Process, PrintSheet Sheet)> sheets,
        DayPlan plan
    ) =>
        QuoteMaker.Make(
            new QuoteBasis(
                job.Currency,
                [
                    .. sheets
                        .GroupBy(s => (s.Sheet.Width, s.Sheet.Height, Bonded: Bonded(book, s.Process)))
                        .Select(g => new SheetUse(
                            PaperNames.Of(g.Key.Width, g.Key.Height),
                            (decimal)g.Key.Width.Micrometres / 1000,
                            (decimal)g.Key.Height.Micrometres / 1000,
                            g.Count(),
                            g.Key.Bonded
                        )),
                ],
                sheets.Sum(s => s.Sheet.Pieces.Sum(p => p.Design.InkMm2)),
                plan.Steps.Where(s => s.Press is not null).Sum(s => (long)(s.End - s.Start)),
                plan.Steps.Where(s => s.Hand is not null).Sum(s => (long)(s.End - s.Start)),
                [
                    .. job
                        .Items.Where(i => i.SuppliedBy == Supplier.Workshop)
                        .GroupBy(i => i.What)
                        .Select(g => new BlankUse(g.Key, g.Sum(i => i.Quantity))),
                ],
                book.Prices
            )
        );

    private static bool Bonded(WorkshopBook book, string process) =>
        book.Processes.First(p => p.Id == process).Steps.Any(s => s.Kind == StepKind.Bond);
}
