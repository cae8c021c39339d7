using System.Collections.Immutable;
using Coldpeel.Storage.Orders;
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
);

/// <summary>What was made, in figures.</summary>
/// <param name="Sheets">Sheets to print.</param>
/// <param name="Pieces">Pieces on them.</param>
/// <param name="LeftOut">Pieces and pressings without a place.</param>
/// <param name="MakespanS">Length of the day at the presses.</param>
/// <param name="BoundS">No plan can be shorter.</param>
/// <param name="Total">The price with tax.</param>
public sealed record KeptFigures(int Sheets, int Pieces, int LeftOut, int MakespanS, int BoundS, Money Total);

/// <summary>Lists the kept jobs: the first due first.</summary>
public sealed class ListJobs(OpenedWorkshop workshop)
{
    private const int MostToPress = 40;

    /// <summary>The jobs.</summary>
    public ImmutableArray<KeptLine> Run() => [.. workshop.Store.Jobs().Select(j => Line(j, workshop))];

    /// <summary>Those that can be pressed: made, the first due first.</summary>
    public ImmutableArray<KeptLine> ToPress() =>
        [.. workshop.Store.Jobs(new JobAsk { Stopped = false, Most = MostToPress }).Select(j => Line(j, workshop))];

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
        );
}
