using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using Coldpeel.Desk.Shelf;
using Coldpeel.Storage.Shelf;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Rooms;

/// <summary>One change, for people.</summary>
/// <param name="Number">Rising.</param>
/// <param name="At">When, local time.</param>
/// <param name="Who">Who; empty when it was written before anybody was noted.</param>
/// <param name="Of">The kind of what was changed: order, stock, setting, device, web hook.</param>
/// <param name="Name">Its name.</param>
/// <param name="What">What was done.</param>
/// <param name="Before">As it was before, where that is a word or two; null for something new, and where <see cref="Fields"/> or <see cref="Stock"/> tells it.</param>
public sealed record PastChange(
    long Number,
    DateTimeOffset At,
    string Who,
    string Of,
    string Name,
    string What,
    string? Before
)
{
    /// <summary>Of the workshop file, the fields that were changed; empty for others.</summary>
    public ImmutableArray<BookDifference> Fields { get; init; } = [];

    /// <summary>Of a thing on the shelf, as it was before; null for others.</summary>
    public EarlierStock? Stock { get; init; }
}

/// <summary>A thing on the shelf as it was before a change.</summary>
/// <param name="Count">How many there were.</param>
/// <param name="Unit">Of what.</param>
/// <param name="Place">Where they lay; may be empty.</param>
/// <param name="Least">Fewer than this, and it was time to order.</param>
public sealed record EarlierStock(decimal Count, string Unit, string Place, decimal Least);

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
        return (Told(shown), found.Length > PageLines ? shown[^1].Number.ToString(CultureInfo.InvariantCulture) : null);
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
                    Who(c.Of, c.Who),
                    c.Of,
                    c.Name,
                    c.What,
                    c.BeforeJson
                )),
        ];

    // For people: what the store writes as JSON is told by its fields.
    private ImmutableArray<PastChange> Told(IReadOnlyList<PastChange> changes)
    {
        var fields = changes
            .Where(c => c.Of == OwnBook.Kind)
            .Select(c => c.Name)
            .Distinct()
            .SelectMany(part => BookParts.All.Where(s => BookParts.Name(s) == part))
            .SelectMany(s => new BookVersions(workshop).Told(s))
            .ToDictionary(t => t.Version.Number, t => t.Differences);
        return
        [
            .. changes.Select(c =>
                c.Of == OwnBook.Kind ? c with { Before = null, Fields = fields.GetValueOrDefault(c.Number, []) }
                : c.Of == "stock" ? c with { Before = null, Stock = c.Before is { } json ? Earlier(json) : null }
                : c.Before is { Length: > LongestBefore } ? c with { Before = null }
                : c
            ),
        ];
    }

    // Earlier versions had two names for the workshop's computer; the other is OwnComputer's.
    private static string Who(string of, string who) => of == "device" && who == "desk" ? OwnComputer.Name : who;

    private static EarlierStock? Earlier(string json) =>
        JsonSerializer.Deserialize<StoredStock>(json) is { } was
            ? new(was.Count, was.Unit, was.Place, was.Least)
            : null;
}
