using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Storage.Shelf;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Shelf;

namespace Coldpeel.Desk.Shelf;

/// <summary>Items of a group that were found spoilt.</summary>
/// <param name="Group">The group.</param>
/// <param name="Numbers">Which of them, from 1; empty where only their number is known.</param>
/// <param name="Count">How many.</param>
internal sealed record SpoiltItems(UsedGroup Group, ImmutableArray<int> Numbers, int Count);

/// <summary>What a step of an order does to the shelf.</summary>
/// <param name="workshop">The workshop.</param>
internal sealed class WorkOfSteps(OpenedWorkshop workshop)
{
    /// <summary>What an order takes and puts; null when it was kept by a version that did not reckon it.</summary>
    public OrderUse? UseOf(string order) =>
        workshop.Store.Content(order, ReckonUse.File) is { } kept
            ? KeptJson.Read<OrderUse>(System.Text.Encoding.UTF8.GetString(kept))
            : null;

    /// <summary>What a step forward does.</summary>
    /// <param name="order">The order.</param>
    /// <param name="step">The step.</param>
    /// <param name="spoilt">What was found spoilt, at inspection.</param>
    /// <param name="why">What was wrong with it.</param>
    public StoredWork Of(string order, OrderStep step, ImmutableArray<SpoiltItems> spoilt, string why)
    {
        var nothing = StoredWork.Nothing(order, Named(step));
        return step is not (OrderStep.Print or OrderStep.Press or OrderStep.Inspect) || UseOf(order) is not { } use
                ? nothing
            : step == OrderStep.Print ? nothing with { Moves = [.. Printing(order, use)] }
            : step == OrderStep.Press ? nothing with { Moves = [.. Blanks(use)] }
            : nothing with
            {
                Moves = [.. spoilt.SelectMany(s => SpoiltBlanks(s.Group, s.Count))],
                Outcomes = [.. Outcomes(use, spoilt, why)],
            };
    }

    /// <summary>What is asked of the shelf by the steps of an order, by role: what it does not keep is not counted.</summary>
    public static IEnumerable<ImmutableArray<string>> Asked(OrderUse use) =>
        [
            .. use.Sheets.SelectMany(Sheets).Select(m => m.Roles),
            .. use.TonerGram > 0
                ?
                [
                    [StockRole.Toner],
                ]
                : Array.Empty<ImmutableArray<string>>(),
            .. Blanks(use).Select(m => m.Roles),
        ];

    /// <summary>Film and adhesive of a sheet.</summary>
    public static IEnumerable<WorkMove> Sheets(PrintedSheet sheet)
    {
        var why = string.Create(CultureInfo.InvariantCulture, $"sheet {sheet.Page}");
        yield return sheet.Started
            ? new([StockRole.Started(sheet.WidthMm, sheet.HeightMm, sheet.MarginMm, sheet.Process)], -1, why)
            : new([StockRole.Film(sheet.Paper, sheet.Process), StockRole.Film(sheet.Paper)], -1, why);
        // What bonds a started sheet is cut from a larger one, or is what was left of one: nobody stocks its size.
        if (sheet is { Adhesive: true, Started: false })
        {
            yield return new([StockRole.Adhesive(sheet.Paper)], -1, why);
        }
    }

    /// <summary>A spoilt item's blank, where it is the workshop's own.</summary>
    public static IEnumerable<WorkMove> SpoiltBlanks(UsedGroup group, int count) =>
        group.OwnBlank && count > 0 ? [new([StockRole.Blank(group.What)], -count, "in place of a spoilt one")] : [];

    /// <summary>Pieces of an item that are lost.</summary>
    /// <param name="use">What the order uses.</param>
    /// <param name="group">The item's group.</param>
    /// <param name="number">Which of them, from 1; 0 where it is not known.</param>
    /// <param name="pieces">What is lost.</param>
    /// <param name="why">What was wrong.</param>
    public static IEnumerable<WorkOutcome> Lost(
        OrderUse use,
        UsedGroup group,
        int number,
        IEnumerable<string> pieces,
        string why
    ) =>
        pieces
            .CountBy(p => p)
            .Select(p => new WorkOutcome(
                group.Process,
                group.Material,
                new LostPiece(group.Id, number, p.Key).Text,
                0,
                p.Value,
                why
            )
            {
                Spare = RoleOf(use, p.Key, group.Process),
            });

    /// <summary>What is kept as missing, with its items.</summary>
    public static IEnumerable<LostPieces> Lost(IEnumerable<StoredMissing> missing) =>
        missing.Select(m => new LostPieces(LostPiece.Read(m.Piece), m.Process, m.Count));

    /// <summary>By what the shelf knows a piece.</summary>
    public static string? RoleOf(OrderUse use, string piece, string process) =>
        use.Pieces.FirstOrDefault(p => p.Id == piece && p.Process == process) is { } known
            ? StockRole.Transfer(known.Print, process)
            : null;

    /// <summary>A step for the history.</summary>
    public static string Named(OrderStep step) =>
        step switch
        {
            OrderStep.Print => "printed",
            OrderStep.Press => "pressed",
            OrderStep.Inspect => "inspected",
            OrderStep.TakeBack => "step taken back",
            _ => step.ToString(),
        };

    private IEnumerable<WorkMove> Printing(string order, OrderUse use)
    {
        // Equal sheets are one movement: a movement a sheet would bury the history.
        foreach (
            var equal in use
                .Sheets.SelectMany(s => Sheets(s).Select(m => (m.Roles, Key: string.Join('|', m.Roles), m.By)))
                .GroupBy(m => m.Key)
        )
        {
            yield return new(equal.First().Roles, equal.Sum(m => m.By), "for its sheets");
        }

        if (use.TonerGram is > 0 and { } grams)
        {
            yield return new([StockRole.Toner], -grams, "as the quote reckons");
        }

        foreach (var piece in use.Pieces.Where(p => p.FromShelf > 0))
        {
            yield return new(
                [StockRole.Transfer(piece.Print, piece.Process)],
                -piece.FromShelf,
                "used instead of being printed"
            );
        }

        foreach (var piece in use.Pieces.Where(p => p.Extra > 0))
        {
            yield return new([StockRole.Transfer(piece.Print, piece.Process)], piece.Extra, "beyond what it needs")
            {
                Creates = new(
                    0,
                    nameof(StockKind.Transfer),
                    Short($"{piece.Id}, {order}"),
                    "",
                    "pieces",
                    0,
                    0,
                    workshop.Today
                ),
            };
        }

        foreach (var offcut in use.Offcuts)
        {
            yield return new(
                [StockRole.Started(offcut.WidthMm, offcut.HeightMm, offcut.MarginMm, offcut.Process)],
                1,
                "left of its last sheet"
            )
            {
                Creates = new(
                    0,
                    nameof(StockKind.Sheet),
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"started sheet {offcut.WidthMm:0.#} × {offcut.HeightMm:0.#} mm, {offcut.Process}"
                    ),
                    "",
                    "sheets",
                    0,
                    0,
                    null
                ),
            };
        }
    }

    private static IEnumerable<WorkMove> Blanks(OrderUse use) =>
        use
            .Groups.Where(g => g is { OwnBlank: true, BlankTaken: false })
            .GroupBy(g => g.What)
            .Select(g => new WorkMove([StockRole.Blank(g.Key)], -g.Sum(i => i.Items.Length), "for its items"));

    // All that is not spoilt is good: one line for all good ones of a material keeps the record short. What is spoilt is told piece by piece,
    // of pieces of one's own by name where it is known whose they are.
    private static IEnumerable<WorkOutcome> Outcomes(OrderUse use, ImmutableArray<SpoiltItems> spoilt, string why)
    {
        foreach (var alike in use.Groups.GroupBy(g => (g.Process, g.Material)))
        {
            var lost = 0;
            foreach (var group in alike)
            {
                foreach (
                    var outcome in Items(group, spoilt.FirstOrDefault(s => s.Group.Id == group.Id))
                        .SelectMany(i => Lost(use, group, i.Number, i.Pieces, why))
                )
                {
                    lost += outcome.Spoilt;
                    yield return outcome;
                }
            }

            var all = alike.Sum(g => g.Items.Sum(i => i.Length));
            yield return new(alike.Key.Process, alike.Key.Material, "", all - lost, 0, "");
        }
    }

    // Where only their number is known, all of them together lose what so many of them carry.
    private static IEnumerable<(int Number, IEnumerable<string> Pieces)> Items(UsedGroup group, SpoiltItems? spoilt) =>
        spoilt is null ? []
        : spoilt.Numbers.IsEmpty ? [(0, group.Items.Take(spoilt.Count).SelectMany(p => p))]
        : spoilt.Numbers.Select(n => (n, group.Items[n - 1].AsEnumerable()));

    // A name on the shelf is short; what steps know it by is not its name.
    private static string Short(string name) => name.Length > 100 ? name[..99] + "…" : name;
}
