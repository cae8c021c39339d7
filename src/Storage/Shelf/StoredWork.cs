using System.Collections.Immutable;

namespace Coldpeel.Storage.Shelf;

/// <summary>What a step of an order or a tap at the bench does to the shelf: kept with it in one transaction.</summary>
/// <param name="Job">The order.</param>
/// <param name="Step">The step or tap, for the history.</param>
/// <param name="Moves">What goes and what comes.</param>
/// <param name="Outcomes">How pieces came out.</param>
public sealed record StoredWork(
    string Job,
    string Step,
    ImmutableArray<WorkMove> Moves,
    ImmutableArray<WorkOutcome> Outcomes
)
{
    /// <summary>Nothing at all.</summary>
    public static StoredWork Nothing(string job, string step) => new(job, step, [], []);

    /// <summary>The step or tap whose movements are given back first; null for none.</summary>
    public string? Undoes { get; init; }

    /// <summary>The tap whose missing pieces are being made again: none of them is missing any more; null for none.</summary>
    public string? MakesAgain { get; init; }

    /// <summary>The order that is not made after all: what it was to make again waits once more; null for none.</summary>
    public string? Reopens { get; init; }

    /// <summary>What an order that makes spoilt pieces again is called as a cause.</summary>
    public static string CauseOfAgain(string again) => $"again {again}";

    /// <summary>What a step of an order is called as a cause.</summary>
    public static string CauseOf(long mark) => FormattableString.Invariant($"step {mark}");

    /// <summary>What a tap at the bench is called as a cause.</summary>
    public static string CauseOf(int day, string key) => FormattableString.Invariant($"bench {day} {key}");
}

/// <summary>A movement that work causes.</summary>
/// <param name="Roles">What it moves, the first that the shelf keeps.</param>
/// <param name="By">How many come; below zero, how many go.</param>
/// <param name="Why">What for.</param>
public sealed record WorkMove(ImmutableArray<string> Roles, decimal By, string Why)
{
    /// <summary>What is put on the shelf where nothing of the role lies there yet; null where only what is kept is moved.</summary>
    public StoredStock? Creates { get; init; }
}

/// <summary>How equal pieces came out.</summary>
/// <param name="Process">The process.</param>
/// <param name="Material">What they were pressed on.</param>
/// <param name="Piece">The piece.</param>
/// <param name="Good">How many are good.</param>
/// <param name="Spoilt">How many are spoilt.</param>
/// <param name="Why">What was wrong.</param>
public sealed record WorkOutcome(string Process, string Material, string Piece, int Good, int Spoilt, string Why)
{
    /// <summary>Role of the spares that take the place of the spoilt ones; null where none can.</summary>
    public string? Spare { get; init; }
}

/// <summary>How many of how many were spoilt.</summary>
/// <param name="Process">The process.</param>
/// <param name="Material">The material.</param>
/// <param name="Spoilt">Pieces spoilt.</param>
/// <param name="Of">Pieces pressed, spoilt ones among them.</param>
public sealed record StoredRecord(string Process, string Material, int Spoilt, int Of);

/// <summary>Pieces of an order that were spoilt and for which no spare lay on the shelf.</summary>
/// <param name="Piece">The piece, with its item, as the outcome tells it.</param>
/// <param name="Process">Its process.</param>
/// <param name="Count">How many.</param>
public sealed record StoredMissing(string Piece, string Process, int Count);

/// <summary>Spoilt pieces of an order that another order makes again.</summary>
/// <param name="Of">The order with the spoilt pieces.</param>
/// <param name="Missing">What of it is made again.</param>
public sealed record StoredAgain(string Of, IReadOnlyList<StoredMissing> Missing);

/// <summary>A movement that an order's work caused.</summary>
/// <param name="Stock">The thing as it is now.</param>
/// <param name="At">When.</param>
/// <param name="Who">Who.</param>
/// <param name="By">How many came; below zero, how many went.</param>
/// <param name="Why">What for.</param>
public sealed record StoredWorkMove(StoredStock Stock, DateTimeOffset At, string Who, decimal By, string Why)
{
    /// <summary>Whether the step or tap that caused it was taken back.</summary>
    public bool IsBack { get; init; }
}
