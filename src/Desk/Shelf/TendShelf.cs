using System.Collections.Immutable;
using Coldpeel.Storage.Shelf;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Shelf;

namespace Coldpeel.Desk.Shelf;

/// <summary>A thing on the shelf with its number and age.</summary>
/// <param name="Id">Its number.</param>
/// <param name="Thing">The thing.</param>
/// <param name="AgeDays">Age of a transfer; null for what is not bonded.</param>
/// <param name="IsOld">Whether it is older than it is known to keep.</param>
public sealed record ShelfLine(int Id, StockThing Thing, int? AgeDays, bool IsOld);

/// <summary>A movement of a thing.</summary>
/// <param name="At">When, local time.</param>
/// <param name="Who">Who.</param>
/// <param name="By">How many came; below zero, how many went.</param>
/// <param name="Why">The order and step, or what a hand wrote.</param>
public sealed record ThingMoved(DateTimeOffset At, string Who, decimal By, string Why);

/// <summary>Looks over the shelf, puts things on it, takes them off.</summary>
public sealed class TendShelf(OpenedWorkshop workshop)
{
    private const int PageLines = 50;

    // Counts are kept in thousandths.
    private const int Digits = 3;

    /// <summary>One page of the shelf, and the number from which the next one goes on; null when it is the last.</summary>
    public (ImmutableArray<ShelfLine> Lines, int? Next) Page(string words, int after)
    {
        var found = workshop.Store.Shelf.Some(null, words, after, PageLines + 1);
        return ([.. found.Take(PageLines).Select(Line)], found.Count > PageLines ? found[PageLines - 1].Id : null);
    }

    /// <summary>What it is time to order, scarcest first.</summary>
    public ImmutableArray<ShelfLine> RunningOut() => [.. workshop.Store.Shelf.RunningOut(20).Select(Line)];

    /// <summary>Puts a thing on the shelf, or tells of a known one anew; its count comes on top.</summary>
    public Fault? Put(StockThing thing, string key, string who)
    {
        ArgumentNullException.ThrowIfNull(thing);
        if (thing.Wrong(workshop.Today) is { } wrong)
        {
            return wrong;
        }

        var id = workshop.Store.Shelf.Keep(
            new(
                0,
                thing.Kind.ToString(),
                thing.Name.Trim(),
                thing.Place.Trim(),
                thing.Unit.Trim(),
                0,
                thing.Least,
                thing.BondedOn
            )
            {
                Role = thing.Role,
            },
            workshop.Now,
            who,
            thing.KeepsRole,
            thing.KeepsLeast
        );
        return thing.Count == 0 ? null : Move(id, key, thing.Count, "put on the shelf", who);
    }

    /// <summary>Tells where a thing lies, and when it was bonded.</summary>
    public Fault? Lies(int id, string place, DateOnly? bondedOn, string who)
    {
        ArgumentNullException.ThrowIfNull(place);
        return place.Trim().Length > 100 ? new("The place", "is too long.", "Write up to 100 letters.")
            : bondedOn > workshop.Today ? new("The day", "is still to come.", "Write the day it was bonded.")
            : workshop.Store.Shelf.Lies(id, place.Trim(), bondedOn, workshop.Now, who) ? null
            : new Fault(
                "The place",
                "holds one of that name already.",
                "Take it here and add it there, or write another place."
            );
    }

    /// <summary>Moves so many in, or below zero out; the same key counts once.</summary>
    public Fault? Move(int id, string key, decimal by, string why, string who) =>
        Math.Round(by, Digits) == 0 || Math.Abs(by) > 1_000_000 || key.Length is < 8 or > 100
            ? new("The movement", "is of nothing.", "Write how many came or went.")
        : workshop.Store.Shelf.Move(id, key, by, why.Length > 200 ? why[..200] : why, workshop.Now, who) is null
            ? new("The shelf", "has fewer than that.", "Count what is there, and put in what came first.")
        : null;

    /// <summary>Keeps how many were counted: the movement is worked out, and nothing changes where it is as many as are known. The same key counts once.</summary>
    public Fault? Count(int id, string key, decimal counted, string who)
    {
        ArgumentNullException.ThrowIfNull(key);
        var there = Math.Round(counted, Digits);
        return there is < 0 or > 1_000_000 || key.Length is < 8 or > 100
                ? new("The count", "is out of bounds.", "Write a number from 0 to 1000000.")
            : workshop.Store.Shelf.Count(
                id,
                key,
                there,
                FormattableString.Invariant($"{there:0.###} counted on the shelf"),
                workshop.Now,
                who
            )
                is null
                ? new("The shelf", "holds no such thing.", "Open the page again.")
            : null;
    }

    /// <summary>The last movements of a thing, newest first.</summary>
    public ImmutableArray<ThingMoved> Moves(int id, int most) =>
        [
            .. workshop
                .Store.Shelf.Moves(id, most)
                .Select(m => new ThingMoved(
                    TimeZoneInfo.ConvertTime(m.At, workshop.Clock.LocalTimeZone),
                    m.Who,
                    m.By,
                    m.Why
                )),
        ];

    internal ShelfLine Line(StoredStock s)
    {
        var thing = new StockThing(
            Enum.TryParse<StockKind>(s.Kind, out var kind) ? kind : StockKind.Other,
            s.Name,
            s.Place,
            s.Unit,
            s.Count,
            s.Least,
            s.BondedOn
        )
        {
            Role = s.Role,
        };
        return new(s.Id, thing, thing.AgeDays(workshop.Today), thing.IsOld(workshop.Today));
    }
}
