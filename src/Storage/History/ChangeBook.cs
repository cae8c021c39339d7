using Coldpeel.Storage.Database;
using Microsoft.EntityFrameworkCore;

namespace Coldpeel.Storage.History;

/// <summary>One change, as it is kept.</summary>
/// <param name="Number">Rising.</param>
/// <param name="At">When.</param>
/// <param name="Who">Who.</param>
/// <param name="Of">The kind of what was changed: order, stock, setting, device, web hook.</param>
/// <param name="Name">Its name.</param>
/// <param name="What">What was done.</param>
/// <param name="BeforeJson">As it was before; null for something new.</param>
public sealed record StoredChange(
    long Number,
    DateTimeOffset At,
    string Who,
    string Of,
    string Name,
    string What,
    string? BeforeJson
);

/// <summary>Who changed what, and when; nothing in it is ever changed or taken out.</summary>
public sealed class ChangeBook
{
    private readonly StoreDoor _door;

    internal ChangeBook(StoreDoor door) => _door = door;

    /// <summary>Changes of one thing, newest first; of everything without a name.</summary>
    /// <param name="of">The kind; null for all.</param>
    /// <param name="name">The name; null for all.</param>
    /// <param name="before">Only those older than this number; null from the newest on.</param>
    /// <param name="most">How many at most.</param>
    public IReadOnlyList<StoredChange> Of(string? of, string? name, long? before, int most) =>
        _door.Read(db =>
            db.Changes.AsNoTracking()
                .Where(c =>
                    (of == null || c.Of == of) && (name == null || c.Name == name) && (before == null || c.Id < before)
                )
                .OrderByDescending(c => c.Id)
                .Take(most)
                .AsEnumerable()
                .Select(Change)
                .ToArray()
        );

    /// <summary>What was done when another version of a thing took the place of the one that was kept, the oldest first.</summary>
    /// <param name="of">The kind.</param>
    /// <param name="name">The name.</param>
    public IReadOnlyList<string> Replacements(string of, string name) =>
        _door.Read(db =>
            db.Changes.AsNoTracking()
                .Where(c => c.Of == of && c.Name == name && c.BeforeJson != null)
                .OrderBy(c => c.Id)
                .Select(c => c.What)
                .ToArray()
        );

    /// <summary>Changes of a kind that are newer than a number, the oldest first.</summary>
    public IReadOnlyList<StoredChange> After(string of, long number, int most) =>
        _door.Read(db =>
            db.Changes.AsNoTracking()
                .Where(c => c.Of == of && c.Id > number)
                .OrderBy(c => c.Id)
                .Take(most)
                .AsEnumerable()
                .Select(Change)
                .ToArray()
        );

    private static StoredChange Change(ChangeRow row) =>
        new(
            row.Id,
            DateTimeOffset.FromUnixTimeMilliseconds(row.AtMs),
            row.Who,
            row.Of,
            row.Name,
            row.What,
            row.BeforeJson
        );
}
