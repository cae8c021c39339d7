using System.Collections.Immutable;
using Coldpeel.Desk.Orders;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;
using Coldpeel.Workshop.Sheets;
using Coldpeel.Workshop.Shelf;
using Coldpeel.Workshop.Wash;

namespace Coldpeel.Desk.Shelf;

/// <summary>Reckons from a made job what its work takes from the shelf and puts on it.</summary>
internal static class ReckonUse
{
    /// <summary>The file of an order that holds it.</summary>
    public const string File = "uses.json";

    /// <summary>What it takes and puts; null when the job was stopped.</summary>
    /// <param name="made">The made job.</param>
    /// <param name="again">Whether it makes again what was spoilt of another order: that order took the blanks.</param>
    public static OrderUse? Of(MadeJob made, bool again = false)
    {
        if (made is not { Work: { } work, Parts: { } parts })
        {
            return null;
        }

        var book = parts.Book;
        string ProcessOf(ItemRequest item) => book.Materials.First(m => m.Id == item.Material).Process;
        var grams = work.Quote.Lines.FirstOrDefault(l => l.Kind == "toner")?.Quantity;
        return new(
            [
                .. work.Nested.SelectMany(n =>
                    n.Sheets.Zip(n.Started, (sheet, started) => Sheet(sheet, n.Process, started, book))
                ),
            ],
            book.Prices.TonerGramPerM2 > 0 ? grams ?? 0 : null,
            [
                .. parts
                    .Items.SelectMany(i => i.Pieces.Select(p => (Process: ProcessOf(i.Group), Piece: p)))
                    .CountBy(p => p)
                    .Select(p => Piece(p.Key.Process, p.Key.Piece, p.Value, work, parts)),
            ],
            [
                .. made.Job.Items.Select(g => new UsedGroup(
                    g.Id,
                    work.Tickets.First(t => t.Item == g.Id).Number,
                    g.What,
                    ProcessOf(g),
                    g.Material,
                    g.SuppliedBy == Supplier.Workshop,
                    [.. parts.Items.Where(i => i.Group.Id == g.Id).OrderBy(i => i.Number).Select(i => i.Pieces)]
                )
                {
                    BlankTaken = again,
                    Cautions = HandOverCautions.For(
                        g,
                        made.Findings.Any(f => f.Kind == "child-name" && f.Item == g.Id)
                    ),
                }),
            ],
            [.. work.Nested.Where(n => n.Keep is not null).Select(Offcut)],
            [.. made.Job.Items.Select(g => CareSlips.Make(g, book))]
        )
        {
            Workshop = book.Name,
            Language = made.Words.Language,
        };
    }

    private static PrintedSheet Sheet(PrintSheet sheet, string process, bool started, WorkshopBook book) =>
        new(
            sheet.Page,
            PaperNames.Of(sheet.Width, sheet.Height),
            sheet.Width.InMillimetres,
            sheet.Height.InMillimetres,
            sheet.Margin.InMillimetres,
            process,
            book.Processes.First(p => p.Id == process).Steps.Any(s => s.Kind == StepKind.Bond),
            started
        );

    private static UsedPiece Piece(string process, string id, int needed, MadeWork work, JobParts parts)
    {
        var nested = work.Nested.FirstOrDefault(n => n.Process == process);
        var shelved = nested?.FromShelf.GetValueOrDefault(id) ?? AllShelved(needed, process, id, work);
        var laid = nested?.Sheets.Sum(s => s.Pieces.Count(p => p.PieceId == id)) ?? 0;
        var missing = nested is null ? 0 : nested.Plan.LeftOut.Count(l => nested.Problem.Pieces[l.Piece].Id == id);
        return new(
            id,
            process,
            ShelfGives.PrintOf(parts.Designs[id]),
            Math.Max(0, laid + missing - (needed - shelved)),
            shelved
        )
        {
            Needed = needed,
        };
    }

    // A process with all its pieces on the shelf has no sheets at all.
    private static int AllShelved(int needed, string process, string id, MadeWork work) =>
        work.Nested.Any(n => n.Process == process && n.Problem.Pieces.Any(p => p.Id == id)) ? 0 : needed;

    private static Offcut Offcut(Sheets.NestedSheets nested)
    {
        var keep = nested.Keep!.Value;
        return new(Tenth(keep.Width), Tenth(keep.Height), nested.Sheets[^1].Margin.InMillimetres, nested.Process);
    }

    // What a ruler at the cutter can be set to, never more than there is.
    private static double Tenth(double mm) => Math.Floor((mm * 10) + 1e-6) / 10;
}
