using Coldpeel.Storage.Database;
using Microsoft.EntityFrameworkCore;

namespace Coldpeel.Storage.Rooms;

/// <summary>A device that was let in, as it is kept.</summary>
/// <param name="Id">Its number.</param>
/// <param name="Name">Its name for people.</param>
/// <param name="Role">owner or helper.</param>
/// <param name="Joined">When it was let in.</param>
/// <param name="Out">When it was thrown out; null while it is in.</param>
public sealed record StoredDevice(int Id, string Name, string Role, DateTimeOffset Joined, DateTimeOffset? Out);

/// <summary>A part of a setting that was changed, for the history.</summary>
/// <param name="Of">The kind of what was changed.</param>
/// <param name="Name">Its name.</param>
/// <param name="What">What was done; at most 1000 letters.</param>
/// <param name="Before">As it was before.</param>
public sealed record SettingNote(string Of, string Name, string What, string? Before);

/// <summary>Devices and settings.</summary>
public sealed class RoomBook
{
    private readonly StoreDoor _door;

    // Every page asks for some: they are read once, and again when one was set.
    private readonly Lock _reading = new();
    private Dictionary<string, string>? _settings;

    internal RoomBook(StoreDoor door) => _door = door;

    /// <summary>A setting; null when nobody has set it.</summary>
    public string? Setting(string key)
    {
        lock (_reading)
        {
            _settings ??= _door.Read(db => db.Settings.AsNoTracking().ToDictionary(s => s.Key, s => s.Value));
            return _settings.GetValueOrDefault(key);
        }
    }

    /// <summary>Sets it; what it was before goes into the history.</summary>
    public void Set(string key, string value, DateTimeOffset at, string who)
    {
        Write(key, value, at, who);
        Forget();
    }

    /// <summary>Changes it where it still is what it was expected to be, and writes what was changed into the history: all of it or nothing.</summary>
    /// <param name="key">The setting.</param>
    /// <param name="expected">What it was when the change was thought of; null where nobody had set it.</param>
    /// <param name="value">What it shall be.</param>
    /// <param name="notes">What was changed.</param>
    /// <param name="at">When.</param>
    /// <param name="who">Who.</param>
    /// <returns>False when somebody else has changed it meanwhile; then nothing is changed.</returns>
    public bool Change(
        string key,
        string? expected,
        string value,
        IReadOnlyList<SettingNote> notes,
        DateTimeOffset at,
        string who
    )
    {
        var changed = _door.Write(db =>
        {
            var row = db.Settings.SingleOrDefault(s => s.Key == key);
            if (row?.Value != expected)
            {
                return false;
            }

            if (row is null)
            {
                db.Settings.Add(new() { Key = key, Value = value });
            }
            else
            {
                row.Value = value;
            }

            return notes.All(n => Note(db, at, who, n.Of, n.Name, n.What, n.Before));
        });
        Forget();
        return changed;
    }

    /// <summary>Reads the settings again when one is asked for: they were set, or brought back from a backup.</summary>
    internal void Forget()
    {
        lock (_reading)
        {
            _settings = null;
        }
    }

    private void Write(string key, string value, DateTimeOffset at, string who) =>
        _door.Write(db =>
        {
            var row = db.Settings.SingleOrDefault(s => s.Key == key);
            var before = row?.Value;
            if (row is null)
            {
                db.Settings.Add(new() { Key = key, Value = value });
            }
            else
            {
                row.Value = value;
            }

            return Note(
                db,
                at,
                who,
                "setting",
                key,
                $"set to {(value.Length > 200 ? value[..200] + "…" : value)}",
                before
            );
        });

    /// <summary>Lets a device in, known again by the hash of its secret.</summary>
    public int LetIn(string name, string role, string tokenHash, DateTimeOffset at, string who)
    {
        var row = new DeviceRow
        {
            Name = name,
            Role = role,
            TokenHash = tokenHash,
            JoinedMs = at.ToUnixTimeMilliseconds(),
        };
        _door.Write(db =>
        {
            db.Devices.Add(row);
            return Note(db, at, who, "device", name, $"let in as {role}", null);
        });
        return row.Id;
    }

    /// <summary>Throws a device out; false when it is not in.</summary>
    public bool ThrowOut(int id, DateTimeOffset at, string who) =>
        _door.Write(db =>
        {
            if (db.Devices.SingleOrDefault(d => d.Id == id && d.OutMs == null) is not { } row)
            {
                return false;
            }

            row.OutMs = at.ToUnixTimeMilliseconds();
            Note(db, at, who, "device", row.Name, "thrown out", null);
            return true;
        });

    /// <summary>The device that is in and has a secret of that hash; null for none.</summary>
    public StoredDevice? Known(string tokenHash) =>
        _door.Read(db =>
            db.Devices.AsNoTracking()
                .Where(d => d.TokenHash == tokenHash && d.OutMs == null)
                .AsEnumerable()
                .Select(Device)
                .SingleOrDefault()
        );

    /// <summary>All devices, newest first, those thrown out too.</summary>
    public IReadOnlyList<StoredDevice> Devices() =>
        _door.Read(db =>
            db.Devices.AsNoTracking().OrderByDescending(d => d.Id).Take(500).AsEnumerable().Select(Device).ToArray()
        );

    private static bool Note(
        WorkshopDb db,
        DateTimeOffset at,
        string who,
        string of,
        string name,
        string what,
        string? before
    )
    {
        db.Changes.Add(
            new()
            {
                AtMs = at.ToUnixTimeMilliseconds(),
                Who = who,
                Of = of,
                Name = name,
                What = what,
                BeforeJson = before,
            }
        );
        return true;
    }

    private static StoredDevice Device(DeviceRow row) =>
        new(
            row.Id,
            row.Name,
            row.Role,
            DateTimeOffset.FromUnixTimeMilliseconds(row.JoinedMs),
            row.OutMs is { } o ? DateTimeOffset.FromUnixTimeMilliseconds(o) : null
        );
}
