using System.Collections.Immutable;
using System.Globalization;

namespace Coldpeel.Desk.Rooms;

/// <summary>One change, for people.</summary>
/// <param name="Number">Rising.</param>
/// <param name="At">When, local time.</param>
/// <param name="Who">Who; empty when it was written before anybody was noted.</param>
/// <param name="Of">The kind of what was changed: order, stock, setting, device, web hook.</param>
/// <param name="Name">Its name.</param>
/// <param name="What">What was done.</param>
/// <param name="Before">As it was before; null for something new, and on a page where it is too long to read.</param>
public sealed record PastChange(
    long Number,
    DateTimeOffset At,
    string Who,
    string Of,
    string Name,
    string What,
    string? Before
);

/// <summary>Looks back: who changed what, and when.</summary>
public sealed class LookBack(OpenedWorkshop workshop)
{
    private const int PageLines = 50;
    private const int LongestBefore = 200;

    /// <summary>One page of the changes, newest first, and where the next one begins; null when it is the last.</summary>
    /// <param name="of">Only those of that kind; null for all.</param>
    /// <param name="name">Only those of that name; null for all.</param>
    /// <param name="before">Only those older than this number; null from the newest.</param>
    public (ImmutableArray<PastChange> Changes, string? Next) Page(string? of, string? name, string? before)
    {
        long? from = long.TryParse(before, NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            ? number
            : null;
        var found = Newest(of, name, from, PageLines + 1);
        var shown = found.Take(PageLines).ToArray();
        return (
            [.. shown.Select(c => c.Before is { Length: > LongestBefore } ? c with { Before = null } : c)],
            found.Length > PageLines ? shown[^1].Number.ToString(CultureInfo.InvariantCulture) : null
        );
    }

    /// <summary>The last changes, newest first, with all that is kept of what was before.</summary>
    /// <param name="of">Only those of that kind; null for all.</param>
    /// <param name="name">Only those of that name; null for all.</param>
    /// <param name="from">Only those older than this number; null from the newest.</param>
    /// <param name="most">How many at most.</param>
    public ImmutableArray<PastChange> Newest(string? of, string? name, long? from, int most) =>
        [
            .. workshop
                .Store.History.Of(of, name, from, most)
                .Select(c => new PastChange(
                    c.Number,
                    TimeZoneInfo.ConvertTime(c.At, workshop.Clock.LocalTimeZone),
                    c.Who,
                    c.Of,
                    c.Name,
                    c.What,
                    c.BeforeJson
                )),
        ];
}
