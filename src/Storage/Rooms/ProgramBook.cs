using Coldpeel.Storage.Database;
using Microsoft.EntityFrameworkCore;

namespace Coldpeel.Storage.Rooms;

/// <summary>An address that is told what happens to orders, as it is kept.</summary>
/// <param name="Id">Its number.</param>
/// <param name="Address">Where messages go.</param>
/// <param name="Secret">What they are signed with, in base64.</param>
/// <param name="Added">When the owner added it.</param>
/// <param name="Ended">When it was ended; null while it holds.</param>
/// <param name="ToldUpTo">The last change it was told of.</param>
/// <param name="Missed">How often in a row it could not be reached.</param>
/// <param name="Next">Not before this instant again.</param>
/// <param name="Answer">What it answered last.</param>
public sealed record StoredHook(
    int Id,
    string Address,
    string Secret,
    DateTimeOffset Added,
    DateTimeOffset? Ended,
    long ToldUpTo,
    int Missed,
    DateTimeOffset Next,
    string Answer
);

/// <summary>What a program was answered under a key of its own.</summary>
/// <param name="Asked">Hash of what was asked, 64 hexadecimal digits.</param>
/// <param name="Status">Status of the answer.</param>
/// <param name="Body">Its body.</param>
public sealed record StoredAnswer(string Asked, int Status, string Body);

/// <summary>Other programs: what they were answered, and where they are told what happens.</summary>
public sealed class ProgramBook
{
    private readonly StoreDoor _door;

    internal ProgramBook(StoreDoor door) => _door = door;

    /// <summary>What that program was answered under that key; null when it has not asked.</summary>
    public StoredAnswer? Answer(int device, string key) =>
        _door.Read(db =>
            db.Answers.AsNoTracking()
                .Where(a => a.DeviceId == device && a.Key == key)
                .Select(a => new StoredAnswer(a.Asked, a.Status, a.Body))
                .SingleOrDefault()
        );

    /// <summary>Keeps an answer under a key that has none.</summary>
    public void KeepAnswer(int device, string key, StoredAnswer answer, DateTimeOffset at)
    {
        ArgumentNullException.ThrowIfNull(answer);
        _door.Write(db =>
            db.Answers.Add(
                new()
                {
                    DeviceId = device,
                    Key = key,
                    Asked = answer.Asked,
                    Status = answer.Status,
                    Body = answer.Body,
                    AtMs = at.ToUnixTimeMilliseconds(),
                }
            )
        );
    }

    /// <summary>All addresses, newest first, those that were ended too.</summary>
    public IReadOnlyList<StoredHook> Hooks() =>
        _door.Read(db =>
            db.Hooks.AsNoTracking().OrderByDescending(h => h.Id).Take(500).AsEnumerable().Select(Hook).ToArray()
        );

    /// <summary>Adds an address; it is told what happens from now on.</summary>
    public int AddHook(string address, string secret, DateTimeOffset at, string who)
    {
        var row = new HookRow
        {
            Address = address,
            Secret = secret,
            AddedMs = at.ToUnixTimeMilliseconds(),
        };
        _door.Write(db =>
        {
            row.ToldUpTo = db.Changes.Max(c => (long?)c.Id) ?? 0;
            db.Hooks.Add(row);
            return Note(db, at, who, address, "added");
        });
        return row.Id;
    }

    /// <summary>Ends an address; false when it does not hold.</summary>
    public bool EndHook(int id, DateTimeOffset at, string who, string what = "ended") =>
        _door.Write(db =>
        {
            if (db.Hooks.SingleOrDefault(h => h.Id == id && h.EndedMs == null) is not { } row)
            {
                return false;
            }

            row.EndedMs = at.ToUnixTimeMilliseconds();
            return Note(db, at, who, row.Address, what);
        });

    /// <summary>Notes up to which change an address was told.</summary>
    public void Told(int id, long upTo, string answer) =>
        Set(id, h => (h.ToldUpTo, h.Missed, h.NextMs, h.Answer) = (upTo, 0, 0, answer));

    /// <summary>Notes that an address could not be told.</summary>
    public void Missed(int id, int times, DateTimeOffset next, string answer) =>
        Set(id, h => (h.Missed, h.NextMs, h.Answer) = (times, next.ToUnixTimeMilliseconds(), answer));

    private void Set(int id, Action<HookRow> set) =>
        _door.Write(db =>
        {
            if (db.Hooks.SingleOrDefault(h => h.Id == id) is { } row)
            {
                set(row);
            }

            return true;
        });

    private static bool Note(WorkshopDb db, DateTimeOffset at, string who, string address, string what)
    {
        db.Changes.Add(
            new()
            {
                AtMs = at.ToUnixTimeMilliseconds(),
                Who = who,
                Of = "web hook",
                Name = address.Length > 200 ? address[..200] : address,
                What = what,
            }
        );
        return true;
    }

    private static StoredHook Hook(HookRow row) =>
        new(
            row.Id,
            row.Address,
            row.Secret,
            DateTimeOffset.FromUnixTimeMilliseconds(row.AddedMs),
            row.EndedMs is { } e ? DateTimeOffset.FromUnixTimeMilliseconds(e) : null,
            row.ToldUpTo,
            row.Missed,
            DateTimeOffset.FromUnixTimeMilliseconds(row.NextMs),
            row.Answer
        );
}
