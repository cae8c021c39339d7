using System.Collections.Immutable;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Wash;

namespace Coldpeel.Workshop.Shelf;

/// <summary>What an order takes from the shelf and puts on it as it is worked on, and what its hand-over slip says; kept with the order.</summary>
/// <param name="Sheets">Its sheets, in the order of their pages.</param>
/// <param name="TonerGram">Toner of all that lies on them, as the quote reckons it; null where the price list does not say how much a square metre takes.</param>
/// <param name="Pieces">Its pieces.</param>
/// <param name="Groups">Its items.</param>
/// <param name="Offcuts">What is left of its sheets and worth keeping.</param>
/// <param name="Care">Care advice, one an item group.</param>
public sealed record OrderUse(
    ImmutableArray<PrintedSheet> Sheets,
    decimal? TonerGram,
    ImmutableArray<UsedPiece> Pieces,
    ImmutableArray<UsedGroup> Groups,
    ImmutableArray<Offcut> Offcuts,
    ImmutableArray<CareSlip> Care
)
{
    /// <summary>Who makes it, as the workshop file says.</summary>
    public string Workshop { get; init; } = "";

    /// <summary>Language of the customer's papers; null where an earlier version kept it: then the workshop's.</summary>
    public string? Language { get; init; }
}

/// <summary>A sheet that is printed.</summary>
/// <param name="Page">Its page, from 1.</param>
/// <param name="Paper">"A4".</param>
/// <param name="WidthMm">Across.</param>
/// <param name="HeightMm">Down.</param>
/// <param name="MarginMm">Border that cannot be printed.</param>
/// <param name="Process">The process.</param>
/// <param name="Adhesive">Whether an adhesive sheet of its size is bonded to it.</param>
/// <param name="Started">Whether it is what was left of another.</param>
public sealed record PrintedSheet(
    int Page,
    string Paper,
    double WidthMm,
    double HeightMm,
    double MarginMm,
    string Process,
    bool Adhesive,
    bool Started
);

/// <summary>A piece.</summary>
/// <param name="Id">Its name in the order.</param>
/// <param name="Process">The process.</param>
/// <param name="Print">SHA-256 of what prints.</param>
/// <param name="Extra">How many lie on the sheets beyond those the items need: spares, and what the shelf wants made ahead.</param>
/// <param name="FromShelf">How many are taken from the shelf instead of being printed.</param>
public sealed record UsedPiece(string Id, string Process, string Print, int Extra, int FromShelf)
{
    /// <summary>How many of it the items need.</summary>
    public int Needed { get; init; }
}

/// <summary>Equal items.</summary>
/// <param name="Id">Their name in the order.</param>
/// <param name="Ticket">Their ticket.</param>
/// <param name="What">The item: "gilet".</param>
/// <param name="Process">The process.</param>
/// <param name="Material">The material of the workshop file.</param>
/// <param name="OwnBlank">Whether the workshop supplies the blank.</param>
/// <param name="Items">The pieces that each item carries, item by item.</param>
public sealed record UsedGroup(
    string Id,
    int Ticket,
    string What,
    string Process,
    string Material,
    bool OwnBlank,
    ImmutableArray<ImmutableArray<string>> Items
)
{
    /// <summary>What whoever receives them is to be told beside the care advice.</summary>
    public ImmutableArray<HandOverCaution> Cautions { get; init; } = [];

    /// <summary>Whether their blanks were taken already, when those they stand for were spoilt.</summary>
    public bool BlankTaken { get; init; }
}

/// <summary>A straight offcut worth keeping.</summary>
/// <param name="WidthMm">Across.</param>
/// <param name="HeightMm">Down.</param>
/// <param name="MarginMm">Border that cannot be printed.</param>
/// <param name="Process">The process whose film it is.</param>
public sealed record Offcut(double WidthMm, double HeightMm, double MarginMm, string Process);
