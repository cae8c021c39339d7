using Coldpeel.Storage.Shelf;

namespace Coldpeel.Storage.Orders;

/// <summary>A job as it was made, in figures.</summary>
/// <param name="Name">Its name, unique in the workshop.</param>
/// <param name="Customer">Who asked.</param>
/// <param name="Due">The day it is due.</param>
/// <param name="MadeAt">When it was made, to the millisecond, UTC.</param>
/// <param name="Stopped">Whether a finding stood in the way, so that nothing was made.</param>
/// <param name="Warnings">Findings that ask for a look, not counting those accepted.</param>
/// <param name="Figures">What was made; null when it was stopped.</param>
public sealed record StoredJob(
    string Name,
    string Customer,
    DateOnly Due,
    DateTimeOffset MadeAt,
    bool Stopped,
    int Warnings,
    StoredFigures? Figures
)
{
    /// <summary>How far it has come on its way; empty when nobody has said anything.</summary>
    public string Stage { get; init; } = "";

    /// <summary>The order whose spoilt pieces it makes again; null for an order of its own.</summary>
    public string? AgainOf { get; init; }

    /// <summary>How many sheets of which size it is printed on, as <see cref="StoredLook"/> had it; null where nobody has said.</summary>
    public string? SheetsJson { get; init; }
}

/// <summary>What is noted as a job is kept.</summary>
/// <param name="Who">Who keeps it.</param>
/// <param name="What">What was changed since it was kept last; null for nothing in particular.</param>
/// <param name="Anew">The step that takes it back to the beginning of its way; null when it stays where it is.</param>
public sealed record KeepNote(string Who, string? What = null, StoredAnew? Anew = null)
{
    /// <summary>The step that is taken as it is kept; null for none.</summary>
    public StoredStep? Takes { get; init; }

    /// <summary>What lists show of it and find it by; null where nobody has looked.</summary>
    public StoredLook? Look { get; init; }

    /// <summary>What it makes again of another order; null for an order of its own.</summary>
    public StoredAgain? Again { get; init; }

    /// <summary>Asked in the moment of keeping, when nobody else writes: whether what it was made of still holds; where it does not, nothing is kept.</summary>
    public Func<bool>? StillHolds { get; init; }
}

/// <summary>A step that is taken in the moment in which an order is kept.</summary>
/// <param name="Step">The step.</param>
/// <param name="Stage">Where it leads.</param>
/// <param name="Note">What is to be known of it.</param>
/// <param name="Proof">Hash of the paper it is taken on.</param>
public sealed record StoredStep(string Step, string Stage, string Note, string? Proof);

/// <summary>The version of an order that stood before the one that is kept now.</summary>
/// <param name="Number">The change in the history that replaced it.</param>
/// <param name="At">When it was replaced.</param>
/// <param name="Who">Who replaced it.</param>
/// <param name="What">What was changed then.</param>
/// <param name="Job">It, in figures.</param>
/// <param name="Hashes">Its files: the hash of their content by name.</param>
public sealed record StoredVersion(
    long Number,
    DateTimeOffset At,
    string Who,
    string What,
    StoredJob Job,
    IReadOnlyDictionary<string, string> Hashes
);

/// <summary>A step back to the beginning of an order's way.</summary>
/// <param name="Step">The step.</param>
/// <param name="Why">Why.</param>
public sealed record StoredAnew(string Step, string Why);

/// <summary>Which jobs are asked for.</summary>
public sealed record JobAsk
{
    /// <summary>Only those that stand there; null for all.</summary>
    public IReadOnlyList<string>? Stages { get; init; }

    /// <summary>Only those whose name, customer, approver, receiver, designs or files have these words in them, whatever their case and marks.</summary>
    public string Words { get; init; } = "";

    /// <summary>Only stopped ones, or only those made; null for both.</summary>
    public bool? Stopped { get; init; }

    /// <summary>Only those due by then.</summary>
    public DateOnly? DueUntil { get; init; }

    /// <summary>Only those that come after this one.</summary>
    public JobKey? After { get; init; }

    /// <summary>How many at most.</summary>
    public int Most { get; init; } = 50;
}

/// <summary>Where a list of jobs goes on.</summary>
/// <param name="Due">The day.</param>
/// <param name="Name">The name.</param>
public sealed record JobKey(DateOnly Due, string Name);

/// <summary>What was made, in figures.</summary>
/// <param name="Sheets">Sheets to print.</param>
/// <param name="Pieces">Pieces on them.</param>
/// <param name="LeftOut">Pieces without a place on a sheet, and pressings without a place in the day.</param>
/// <param name="MakespanS">Length of the day at the presses.</param>
/// <param name="BoundS">No plan can be shorter.</param>
/// <param name="Total">The price with tax.</param>
/// <param name="Currency">ISO 4217.</param>
public sealed record StoredFigures(
    int Sheets,
    int Pieces,
    int LeftOut,
    int MakespanS,
    int BoundS,
    decimal Total,
    string Currency
);

/// <summary>A file of a job.</summary>
/// <param name="Name">Its name, unique in the job.</param>
/// <param name="Bytes">Its length.</param>
public sealed record StoredFile(string Name, long Bytes);

/// <summary>A ticket of a job.</summary>
/// <param name="Number">From 1.</param>
/// <param name="Json">What its page shows.</param>
public sealed record StoredTicket(int Number, string Json);

/// <summary>A job with all that belongs to it, but for the content of its files.</summary>
/// <param name="Job">The job.</param>
/// <param name="FindingsJson">Its findings.</param>
/// <param name="Files">Its files, by name.</param>
/// <param name="Tickets">Its tickets, by number.</param>
public sealed record StoredOrder(
    StoredJob Job,
    string FindingsJson,
    IReadOnlyList<StoredFile> Files,
    IReadOnlyList<StoredTicket> Tickets
);
