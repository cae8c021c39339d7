using System.Collections.Immutable;
using Coldpeel.Storage.Orders;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Quotes;

namespace Coldpeel.Desk.Orders;

/// <summary>How a kept job stands.</summary>
public enum KeptState
{
    /// <summary>Made, and nothing asks for a look.</summary>
    Made,

    /// <summary>Made, and something asks for a look before printing.</summary>
    LookFirst,

    /// <summary>Made, but some pieces found no place.</summary>
    InPart,

    /// <summary>Not made: a finding stands in the way.</summary>
    Stopped,
}

/// <summary>A kept job in one line.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Customer">Who asked.</param>
/// <param name="Due">The day it is due.</param>
/// <param name="DaysLeft">Days from today to that day; below zero when it is past.</param>
/// <param name="MadeAt">When it was made, local time.</param>
/// <param name="State">How it stands.</param>
/// <param name="Figures">What was made; null when it was stopped.</param>
public sealed record KeptLine(
    string Name,
    string Customer,
    DateOnly Due,
    int DaysLeft,
    DateTimeOffset MadeAt,
    KeptState State,
    KeptFigures? Figures
)
{
    /// <summary>How far it has come on its way.</summary>
    public OrderStage Stage { get; init; }

    /// <summary>The order whose spoilt items it makes again, at the workshop's cost; null for an order of its own, which has a price.</summary>
    public string? AgainOf { get; init; }
}

/// <summary>What was made, in figures.</summary>
/// <param name="Sheets">Sheets to print.</param>
/// <param name="Pieces">Pieces on them.</param>
/// <param name="LeftOut">Pieces and pressings without a place.</param>
/// <param name="MakespanS">Length of the day at the presses.</param>
/// <param name="BoundS">No plan can be shorter.</param>
/// <param name="Total">The price with tax; of spoilt items made again, what that costs the workshop.</param>
public sealed record KeptFigures(int Sheets, int Pieces, int LeftOut, int MakespanS, int BoundS, Money Total);

/// <summary>Lists the kept jobs: the first due first.</summary>
public sealed class ListJobs(OpenedWorkshop workshop)
{
    private const int MostToPress = 40;
    private const int PageLines = 50;

    /// <summary>The jobs.</summary>
    public ImmutableArray<KeptLine> Run() => [.. workshop.Store.Jobs().Select(j => Line(j, workshop))];

    private static readonly string[] AtWork = ["", "Approved", "Printed", "Pressed", "Inspected"];
    private static readonly string[] BeforeApproval = [""];
    private static readonly string[] BeforePress = ["Approved", "Printed"];

    /// <summary>One page of the jobs, and where the next one begins; null when it is the last.</summary>
    /// <param name="words">Only those that are found by these words.</param>
    /// <param name="all">Those handed over or set aside too.</param>
    /// <param name="after">From this key on; null from the first.</param>
    public (ImmutableArray<KeptLine> Lines, string? Next) Page(string words, bool all, string? after)
    {
        var (shown, next) = Stored(new JobAsk { Words = words, Stages = all ? null : AtWork }, after);
        return ([.. shown.Select(j => Line(j, workshop))], next);
    }

    /// <summary>The same of other jobs, as they are stored.</summary>
    internal (IReadOnlyList<StoredJob> Shown, string? Next) Stored(JobAsk ask, string? after, int most = PageLines)
    {
        var found = workshop.Store.Jobs(ask with { After = Key(after), Most = most + 1 });
        var shown = found.Take(most).ToArray();
        return (shown, found.Count > most ? $"{shown[^1].Due:yyyy-MM-dd} {shown[^1].Name}" : null);
    }

    /// <summary>Those that are due within some days and not handed over, the first due first.</summary>
    public ImmutableArray<KeptLine> DueWithin(int days) =>
        Some(
            new JobAsk
            {
                DueUntil = workshop.Today.AddDays(days),
                Stages = AtWork,
                Stopped = false,
                Most = MostToPress,
            }
        );

    /// <summary>Those that a finding has stopped, the first due first.</summary>
    public ImmutableArray<KeptLine> Stopped() =>
        Some(
            new JobAsk
            {
                Stopped = true,
                Stages = AtWork,
                Most = MostToPress,
            }
        );

    /// <summary>Those that can be pressed: approved and not pressed yet, the first due first.</summary>
    public ImmutableArray<KeptLine> ToPress() => Before(BeforePress);

    /// <summary>Those that are made and wait for the customer's approval: they cannot be pressed yet; the first due first.</summary>
    public ImmutableArray<KeptLine> ToApprove() => Before(BeforeApproval);

    private ImmutableArray<KeptLine> Before(string[] stages) =>
        Some(
            new JobAsk
            {
                Stopped = false,
                Stages = stages,
                Most = MostToPress,
            }
        );

    private ImmutableArray<KeptLine> Some(JobAsk ask) => [.. workshop.Store.Jobs(ask).Select(j => Line(j, workshop))];

    // A key that nobody of us wrote begins at the first.
    private static JobKey? Key(string? after) =>
        after is { Length: > 11 } && DateOnly.TryParseExact(after[..10], "yyyy-MM-dd", out var due)
            ? new(due, after[11..])
            : null;

    internal static KeptLine Line(StoredJob job, OpenedWorkshop workshop) =>
        new(
            job.Name,
            job.Customer,
            job.Due,
            job.Due.DayNumber - workshop.Today.DayNumber,
            TimeZoneInfo.ConvertTime(job.MadeAt, workshop.Clock.LocalTimeZone),
            job.Stopped ? KeptState.Stopped
                : job.Figures is not { LeftOut: 0 } ? KeptState.InPart
                : job.Warnings > 0 ? KeptState.LookFirst
                : KeptState.Made,
            job.Figures is { } f
                ? new(f.Sheets, f.Pieces, f.LeftOut, f.MakespanS, f.BoundS, new Money(f.Total, f.Currency))
                : null
        )
        {
            Stage = Enum.TryParse<OrderStage>(job.Stage, out var stage) ? stage : OrderStage.Made,
            AgainOf = job.AgainOf,
        };
}
