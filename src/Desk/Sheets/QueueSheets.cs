using System.Collections.Immutable;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Shelf;
using Coldpeel.Storage.Orders;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Shelf;

namespace Coldpeel.Desk.Sheets;

/// <summary>Which sheets are asked for.</summary>
public enum SheetsAsked
{
    /// <summary>Approved and not printed yet.</summary>
    ToPrint,

    /// <summary>Not to be printed yet: what would be printed may still change.</summary>
    NotReady,

    /// <summary>Printed.</summary>
    Printed,
}

/// <summary>How the sheets of an order stand.</summary>
public enum SheetStand
{
    /// <summary>They can be printed.</summary>
    ToPrint,

    /// <summary>There are none: all pieces come from the shelf.</summary>
    None,

    /// <summary>The print file is not kept: the order has to be brought once more.</summary>
    NoFile,

    /// <summary>A finding stands in the way, so that nothing was made.</summary>
    Stopped,

    /// <summary>What the customer approved is not what would be printed any more.</summary>
    Stale,

    /// <summary>The customer has not approved the proof yet.</summary>
    NotApproved,

    /// <summary>They are printed.</summary>
    Printed,

    /// <summary>Some or all of them have their adhesive.</summary>
    Bonded,

    /// <summary>What was on them is on the items.</summary>
    Pressed,
}

/// <summary>An order by its sheets.</summary>
/// <param name="Order">The order.</param>
/// <param name="Sizes">Its sheets by size; empty where an early version kept it.</param>
/// <param name="Stand">How they stand.</param>
/// <param name="HasFiles">Whether the print file is there.</param>
/// <param name="Steps">How many steps of its way were taken.</param>
public sealed record QueuedSheets(
    KeptLine Order,
    ImmutableArray<SheetsOfSize> Sizes,
    SheetStand Stand,
    bool HasFiles,
    int Steps
)
{
    /// <summary>How many sheets were bonded at the bench, of days that are open.</summary>
    public int Bonded { get; init; }
}

/// <summary>Lists the sheets of all orders, the first due first.</summary>
public sealed class QueueSheets(OpenedWorkshop workshop)
{
    private const string PrintFile = "sheets.pdf";

    /// <summary>How many of the shelf's sheets a page has room for.</summary>
    public const int MostThere = 12;

    // Each has a form, two papers and its sizes: a page of the printer's is shorter than a list of names.
    private const int PageLines = 25;

    private static readonly string[] Approved = [nameof(OrderStage.Approved)];
    private static readonly string[] Before = [""];
    private static readonly string[] After =
    [
        nameof(OrderStage.Printed),
        nameof(OrderStage.Pressed),
        nameof(OrderStage.Inspected),
    ];

    /// <summary>One page of them, and where the next one begins; null when it is the last.</summary>
    /// <param name="asked">Which.</param>
    /// <param name="words">Only of orders that are found by these words.</param>
    /// <param name="all">Of the printed ones those handed over too.</param>
    /// <param name="after">From this key on; null from the first.</param>
    public (ImmutableArray<QueuedSheets> Lines, string? Next) Page(
        SheetsAsked asked,
        string words,
        bool all,
        string? after
    )
    {
        var stages = asked switch
        {
            SheetsAsked.ToPrint => Approved,
            SheetsAsked.NotReady => Before,
            _ => all ? [.. After, nameof(OrderStage.HandedOver)] : After,
        };
        var (stored, next) = new ListJobs(workshop).Stored(
            new JobAsk { Words = words, Stages = stages },
            after,
            PageLines
        );
        var names = stored.Select(j => j.Name).ToArray();
        var marks = workshop.Store.Marks.Last(names);
        var files = workshop.Store.Having(names, PrintFile);
        var bonded = asked == SheetsAsked.Printed ? new BondedSheets(workshop).Of(names) : [];
        return ([.. stored.Select(Line)], next);

        QueuedSheets Line(StoredJob job)
        {
            var (steps, last) = marks.GetValueOrDefault(job.Name, (0, ""));
            var line = ListJobs.Line(job, workshop);
            var queued = new QueuedSheets(
                line,
                job.SheetsJson is { } sizes ? KeptJson.Read<SheetsOfSize[]>(sizes).ToImmutableArray() : [],
                SheetStand.ToPrint,
                files.Contains(job.Name),
                steps
            )
            {
                Bonded = bonded.GetValueOrDefault(job.Name),
            };
            return queued with { Stand = Stand(queued, last) };
        }
    }

    /// <summary>Sheets and what is left of started ones, as the shelf has them: the first by name, and whether there are more.</summary>
    public (ImmutableArray<ShelfLine> Lines, bool More) There()
    {
        var there = workshop.Store.Shelf.There(nameof(StockKind.Sheet), MostThere + 1);
        return ([.. there.Take(MostThere).Select(new TendShelf(workshop).Line)], there.Count > MostThere);
    }

    private static SheetStand Stand(QueuedSheets queued, string last) =>
        queued.Order.Stage switch
        {
            OrderStage.Made when queued.Order.State == KeptState.Stopped => SheetStand.Stopped,
            OrderStage.Made when last == nameof(OrderStep.Change) => SheetStand.Stale,
            OrderStage.Made => SheetStand.NotApproved,
            OrderStage.Approved when queued.Order.Figures is { Sheets: 0 } => SheetStand.None,
            OrderStage.Approved when queued.Order.State == KeptState.Stopped => SheetStand.Stopped,
            OrderStage.Approved => queued.HasFiles ? SheetStand.ToPrint : SheetStand.NoFile,
            OrderStage.Printed => queued.Bonded > 0 ? SheetStand.Bonded : SheetStand.Printed,
            _ => SheetStand.Pressed,
        };
}
