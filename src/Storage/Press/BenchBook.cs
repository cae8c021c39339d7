using Coldpeel.Storage.Database;
using Coldpeel.Storage.Shelf;
using Microsoft.EntityFrameworkCore;

namespace Coldpeel.Storage.Press;

/// <summary>A day at the bench as it is kept.</summary>
/// <param name="Id">Its number.</param>
/// <param name="Name">The orders in it.</param>
/// <param name="Start">Second 0 of its plan.</param>
/// <param name="Closed">When it was closed; null while it is open.</param>
/// <param name="PlanJson">Its tasks.</param>
/// <param name="CardsJson">What the bench shows of each item and sheet.</param>
public sealed record StoredBenchDay(
    int Id,
    string Name,
    DateTimeOffset Start,
    DateTimeOffset? Closed,
    string PlanJson,
    string CardsJson
);

/// <summary>What somebody said at the bench, as it is kept.</summary>
/// <param name="Number">Rising.</param>
/// <param name="Key">The screen's own name for it.</param>
/// <param name="Saying">What is said.</param>
/// <param name="About">Of what.</param>
/// <param name="Seconds">How late, or 0.</param>
/// <param name="At">When it was said, by the clock of the workshop's computer.</param>
/// <param name="Received">When it came in: later for a screen that had lost the network.</param>
/// <param name="Who">Who said it.</param>
public sealed record StoredBenchEvent(
    long Number,
    string Key,
    string Saying,
    string About,
    int Seconds,
    DateTimeOffset At,
    DateTimeOffset Received,
    string Who
);

/// <summary>A day's tasks and cards, longer by what was planned again.</summary>
/// <param name="PlanJson">Its tasks.</param>
/// <param name="CardsJson">What the bench shows of each item and sheet.</param>
public sealed record StoredGrowth(string PlanJson, string CardsJson);

/// <summary>Days at the bench and all that was said there; nothing in it is ever taken out, and a day only grows.</summary>
public sealed class BenchBook
{
    private readonly StoreDoor _door;

    internal BenchBook(StoreDoor door) => _door = door;

    /// <summary>Opens a day and gives its number.</summary>
    public int Open(string name, DateTimeOffset start, string planJson, string cardsJson)
    {
        var row = new BenchDayRow
        {
            Name = name,
            StartMs = start.ToUnixTimeMilliseconds(),
            PlanJson = planJson,
            CardsJson = cardsJson,
        };
        _door.Write(db => db.BenchDays.Add(row));
        return row.Id;
    }

    /// <summary>The day of that number; null when there is none.</summary>
    public StoredBenchDay? Day(int id) =>
        _door.Read(db =>
            db.BenchDays.AsNoTracking().Where(d => d.Id == id).AsEnumerable().Select(Day).SingleOrDefault()
        );

    /// <summary>The last days, and those that are not closed however old they are, newest first, without their tasks.</summary>
    public IReadOnlyList<StoredBenchDay> Last(int most) =>
        _door.Read(db =>
            db.BenchDays.AsNoTracking()
                .Where(d =>
                    d.ClosedMs == null
                    || db.BenchDays.OrderByDescending(l => l.Id).Take(most).Select(l => l.Id).Contains(d.Id)
                )
                .OrderByDescending(d => d.Id)
                .Select(d => new BenchDayRow
                {
                    Id = d.Id,
                    Name = d.Name,
                    StartMs = d.StartMs,
                    ClosedMs = d.ClosedMs,
                    PlanJson = "",
                    CardsJson = "",
                })
                .AsEnumerable()
                .Select(Day)
                .ToArray()
        );

    /// <summary>Whether the day was closed.</summary>
    public bool IsClosed(int id) => _door.Read(db => db.BenchDays.Any(d => d.Id == id && d.ClosedMs != null));

    /// <summary>Closes a day, or opens it again with null.</summary>
    public void Close(int id, DateTimeOffset? at) =>
        _door.Write(db =>
            db.BenchDays.Where(d => d.Id == id)
                .ExecuteUpdate(d =>
                    d.SetProperty(r => r.ClosedMs, at == null ? null : at.Value.ToUnixTimeMilliseconds())
                )
        );

    /// <summary>What was said on a day after that number, in order.</summary>
    public IReadOnlyList<StoredBenchEvent> Events(int day, long after = 0) =>
        _door.Read(db =>
            db.BenchEvents.AsNoTracking()
                .Where(e => e.DayId == day && e.Id > after)
                .OrderBy(e => e.Id)
                .AsEnumerable()
                .Select(Event)
                .ToArray()
        );

    /// <summary>Keeps what was said with what it does to the shelf and to the day, and gives it with its number; all of it is on the disk when this returns.</summary>
    /// <param name="day">The day.</param>
    /// <param name="said">What was said.</param>
    /// <param name="work">What it does to the shelf.</param>
    /// <param name="grown">What the day has more.</param>
    /// <param name="name">What the day is called since; null for as before.</param>
    public StoredBenchEvent Keep(
        int day,
        StoredBenchEvent said,
        StoredWork? work = null,
        StoredGrowth? grown = null,
        string? name = null
    )
    {
        ArgumentNullException.ThrowIfNull(said);
        var row = new BenchEventRow
        {
            DayId = day,
            Key = said.Key,
            Saying = said.Saying,
            About = said.About,
            Seconds = said.Seconds,
            AtMs = said.At.ToUnixTimeMilliseconds(),
            ReceivedMs = said.Received.ToUnixTimeMilliseconds(),
            Who = said.Who,
        };
        _door.Write(db =>
        {
            if (grown is not null)
            {
                db.BenchDays.Where(d => d.Id == day)
                    .ExecuteUpdate(d =>
                        d.SetProperty(r => r.PlanJson, grown.PlanJson).SetProperty(r => r.CardsJson, grown.CardsJson)
                    );
            }

            if (name is not null)
            {
                db.BenchDays.Where(d => d.Id == day).ExecuteUpdate(d => d.SetProperty(r => r.Name, name));
            }

            db.BenchEvents.Add(row);
            if (work is not null)
            {
                WorkWriter.Keep(db, work, StoredWork.CauseOf(day, said.Key), row.AtMs, said.Who);
            }

            return row;
        });
        return Event(row);
    }

    private static StoredBenchDay Day(BenchDayRow row) =>
        new(
            row.Id,
            row.Name,
            DateTimeOffset.FromUnixTimeMilliseconds(row.StartMs),
            row.ClosedMs is { } closed ? DateTimeOffset.FromUnixTimeMilliseconds(closed) : null,
            row.PlanJson,
            row.CardsJson
        );

    private static StoredBenchEvent Event(BenchEventRow row) =>
        new(
            row.Id,
            row.Key,
            row.Saying,
            row.About,
            row.Seconds,
            DateTimeOffset.FromUnixTimeMilliseconds(row.AtMs),
            DateTimeOffset.FromUnixTimeMilliseconds(row.ReceivedMs),
            row.Who
        );
}
