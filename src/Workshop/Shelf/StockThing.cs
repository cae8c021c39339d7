using Coldpeel.Workshop.Findings;

namespace Coldpeel.Workshop.Shelf;

/// <summary>What lies on the shelf.</summary>
public enum StockKind
{
    /// <summary>A bonded transfer, made ahead.</summary>
    Transfer,

    /// <summary>Film and adhesive sheets.</summary>
    Sheet,

    /// <summary>Toner.</summary>
    Toner,

    /// <summary>An undecorated item.</summary>
    Blank,

    /// <summary>Release sheets, pads, all else.</summary>
    Other,
}

/// <summary>A thing on the shelf.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Name">Its name; for a transfer the design and what it is for.</param>
/// <param name="Place">Where it lies.</param>
/// <param name="Unit">What is counted.</param>
/// <param name="Count">How many there are.</param>
/// <param name="Least">Fewer than this and it is time to order; 0 for no such bound.</param>
/// <param name="BondedOn">The day a transfer was bonded.</param>
public sealed record StockThing(
    StockKind Kind,
    string Name,
    string Place,
    string Unit,
    decimal Count,
    decimal Least,
    DateOnly? BondedOn
)
{
    /// <summary>What an order's steps know it by (<see cref="StockRole"/>); empty for what only hands move.</summary>
    public string Role { get; init; } = "";

    /// <summary>Whether a thing that is known already keeps its role: nothing was chosen.</summary>
    public bool KeepsRole { get; init; }

    /// <summary>Whether a thing that is known already keeps its least: none was written.</summary>
    public bool KeepsLeast { get; init; }

    private const int LongestText = 100;
    private const decimal Most = 1_000_000;

    /// <summary>How long a bonded transfer keeps, in days: about six months (common practice, no source; the maker's sheet and your own trials come first).</summary>
    public const int KeepsDays = 180;

    /// <summary>Age of a transfer in days; null for what is not bonded.</summary>
    public int? AgeDays(DateOnly today) => BondedOn is { } day ? today.DayNumber - day.DayNumber : null;

    /// <summary>Whether a transfer is older than it is known to keep: press one on a trial piece first.</summary>
    public bool IsOld(DateOnly today) => AgeDays(today) > KeepsDays;

    /// <summary>Whether it is time to order.</summary>
    public bool RunsOut => Count < Least;

    /// <summary>Whether work took more than was counted: somebody has to look.</summary>
    public bool BelowNothing => Count < 0;

    /// <summary>What is wrong with it as somebody wrote it.</summary>
    public Fault? Wrong(DateOnly today) =>
        Name.Trim().Length is 0 or > LongestText
            ? new("The name", "is missing or too long.", "Write up to 100 letters.")
        : Place.Length > LongestText ? new("The place", "is too long.", "Write up to 100 letters.")
        : Unit.Trim().Length is 0 or > 20
            ? new("The unit", "is missing or too long.", "Write what is counted: sheets, pieces, g.")
        : Count is < 0 or > Most || Least is < 0 or > Most
            ? new("The count", "is out of bounds.", "Write a number from 0 to 1000000.")
        : Kind == StockKind.Transfer && BondedOn is null
            ? new("The transfer", "has no day.", "Write the day it was bonded: nobody uses one of unknown age.")
        : BondedOn > today ? new("The day", "is still to come.", "Write the day it was bonded.")
        : null;
}
