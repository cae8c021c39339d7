using System.Collections.Immutable;

namespace Coldpeel.Desk.Orders;

/// <summary>One change of an order.</summary>
/// <param name="At">When, local time.</param>
/// <param name="Who">Who.</param>
/// <param name="What">What was done.</param>
public sealed record HistoryLine(DateTimeOffset At, string Who, string What);

/// <summary>Reads who did what to an order, and when.</summary>
public sealed class ReadHistory(OpenedWorkshop workshop)
{
    private const int Most = 200;

    /// <summary>The changes, newest first.</summary>
    public ImmutableArray<HistoryLine> Run(string order) =>
        [
            .. workshop
                .Store.History.Of("order", order, null, Most)
                .Select(c => new HistoryLine(
                    TimeZoneInfo.ConvertTime(c.At, workshop.Clock.LocalTimeZone),
                    c.Who,
                    c.What
                )),
        ];
}
