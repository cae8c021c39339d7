using System.Collections.Immutable;
using System.Text.Json.Nodes;

namespace Coldpeel.Desk.Shelf;

/// <summary>A version of a part of the workshop file.</summary>
/// <param name="Number">The number of the change that made it; 0 for what stood before the first.</param>
/// <param name="At">Since when, local time; null for what stood before the first.</param>
/// <param name="Who">Who made it.</param>
/// <param name="What">What was changed, field by field.</param>
public sealed record BookVersion(long Number, DateTimeOffset? At, string Who, string What)
{
    internal static BookVersion Unknown { get; } = new(0, null, "", "");
}

/// <summary>Earlier versions of the workshop file: each can be looked at and taken up again.</summary>
public sealed class BookVersions(OpenedWorkshop workshop)
{
    private const int MostTold = 50;

    /// <summary>The versions of a part, newest first; the last is what stood before the first change, where that is not too long ago.</summary>
    public ImmutableArray<BookVersion> List(BookSection section)
    {
        var changes = new OwnBook(workshop).Changes(section);
        return
        [
            .. changes.Select(c => new BookVersion(
                c.Number,
                TimeZoneInfo.ConvertTime(c.At, workshop.Clock.LocalTimeZone),
                c.Who,
                c.What
            )),
            .. changes.Count == 0 ? [] : new[] { new BookVersion(0, null, "", "") },
        ];
    }

    /// <summary>The last versions of a part with the fields that each changed.</summary>
    public ImmutableArray<(BookVersion Version, ImmutableArray<BookDifference> Differences)> Told(BookSection section)
    {
        var own = new OwnBook(workshop);
        var told = ImmutableArray.CreateBuilder<(BookVersion, ImmutableArray<BookDifference>)>();
        var (present, after) = (own.Whole, own.Whole);
        foreach (var (change, version) in own.Changes(section, MostTold).Zip(List(section)))
        {
            var before = BookParts.Read(change.BeforeJson!);
            told.Add((version, BookDiff.Of(before, after, section, present)));
            after = before;
        }

        return told.ToImmutable();
    }

    /// <summary>What would change if that version were taken up again; null for no such version.</summary>
    public ImmutableArray<BookDifference>? Differences(BookSection section, long number) =>
        Whole(section, number) is { } then ? BookDiff.Of(new OwnBook(workshop).Whole, then, section) : null;

    /// <summary>The whole file with that version of the part; null for no such version.</summary>
    public JsonObject? Whole(BookSection section, long number)
    {
        var own = new OwnBook(workshop);
        var changes = own.Changes(section).ToList();
        var at = number == 0 ? changes.Count : changes.FindIndex(c => c.Number == number);
        return at < 0 || changes.Count == 0 ? null
            : at == 0 ? own.Whole
            : changes[at - 1].BeforeJson is { } before ? BookParts.With(own.Whole, section, BookParts.Read(before))
            : null;
    }

    /// <summary>Takes a version up again, as a new one.</summary>
    /// <param name="section">The part.</param>
    /// <param name="number">The version.</param>
    /// <param name="stand">What stood when it was looked at.</param>
    /// <param name="sure">Whether cautions were seen.</param>
    /// <param name="who">Who takes it up.</param>
    /// <returns>What became of it; null for no such version.</returns>
    public BookEdit? TakeUp(BookSection section, long number, string stand, bool sure, string who) =>
        Whole(section, number) is { } then ? new EditBook(workshop).Keep(section, then, stand, sure, who) : null;
}
