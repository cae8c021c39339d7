using System.Text.Json;
using Coldpeel.Storage.Database;
using Microsoft.EntityFrameworkCore;

namespace Coldpeel.Storage.Shelf;

/// <summary>What lies on the shelf, and every movement.</summary>
public sealed class ShelfBook
{
    private readonly StoreDoor _door;

    internal ShelfBook(StoreDoor door) => _door = door;

    /// <summary>Things by kind and name, from a key on.</summary>
    /// <param name="kind">Only this kind; null for all.</param>
    /// <param name="words">Only those with these words in name or place.</param>
    /// <param name="after">Only those after this number in the order of numbers within the same search; 0 from the start.</param>
    /// <param name="most">How many at most.</param>
    public IReadOnlyList<StoredStock> Some(string? kind, string words, int after, int most) =>
        _door.Read(db =>
        {
            var rows = db.Stock.AsNoTracking().Where(s => (kind == null || s.Kind == kind) && s.Id > after);
            if (Sought.Asked(words) is { Length: > 0 } sought)
            {
                rows = WordIndex.Find(db, "stock", sought) is { } found
                    ? rows.Where(s => found.Contains(s.Id))
                    : rows.Where(s => s.Sought.Contains(sought));
            }

            return rows.OrderBy(s => s.Id).Take(most).AsEnumerable().Select(Thing).ToArray();
        });

    /// <summary>What has run below its least or below nothing, scarcest first.</summary>
    public IReadOnlyList<StoredStock> RunningOut(int most) =>
        _door.Read(db =>
        {
            // What is scarce stands in an index of its own (its condition is this one, word by word); below nothing there are few.
            var scarce = db.Stock.AsNoTracking().Where(s => s.Least > 0 && s.Count < s.Least).OrderBy(s => s.Count);
            var below = db.Stock.AsNoTracking().Where(s => s.Count < 0).OrderBy(s => s.Count);
            return below
                .Take(most)
                .AsEnumerable()
                .Concat(scarce.Take(most))
                .DistinctBy(s => s.Id)
                .OrderBy(s => s.Count)
                .Take(most)
                .Select(Thing)
                .ToArray();
        });

    /// <summary>What of these the shelf keeps, by what steps know it by.</summary>
    public IReadOnlyList<StoredStock> Of(IReadOnlyCollection<string> roles) =>
        _door.Read(db =>
            db.Stock.AsNoTracking()
                .Where(s => roles.Contains(s.Role))
                .OrderBy(s => s.BondedOn)
                .ThenBy(s => s.Id)
                .AsEnumerable()
                .Select(Thing)
                .ToArray()
        );

    /// <summary>What of roles that begin so is there.</summary>
    public IReadOnlyList<StoredStock> Beginning(string roles) =>
        _door.Read(db =>
            db.Stock.AsNoTracking()
                .Where(s => s.Role.StartsWith(roles) && s.Count > 0)
                .OrderBy(s => s.Id)
                .AsEnumerable()
                .Select(Thing)
                .ToArray()
        );

    /// <summary>What of a kind is there, by name.</summary>
    public IReadOnlyList<StoredStock> There(string kind, int most) =>
        _door.Read(db =>
            db.Stock.AsNoTracking()
                .Where(s => s.Kind == kind && s.Count > 0)
                .OrderBy(s => s.Name)
                .ThenBy(s => s.Place)
                .Take(most)
                .AsEnumerable()
                .Select(Thing)
                .ToArray()
        );

    /// <summary>Tells where a thing lies now and when it was bonded; false when it is unknown or another of its name lies there.</summary>
    public bool Lies(int id, string place, DateOnly? bondedOn, DateTimeOffset at, string who) =>
        _door.Write(db =>
        {
            if (
                db.Stock.SingleOrDefault(s => s.Id == id) is not { } row
                || db.Stock.Any(s => s.Id != id && s.Kind == row.Kind && s.Name == row.Name && s.Place == place)
            )
            {
                return false;
            }

            var before = JsonSerializer.Serialize(Thing(row));
            (row.Place, row.BondedOn, row.Sought) = (place, bondedOn ?? row.BondedOn, Sought.Of(row.Name, place));
            MoveWriter.Note(db, row.Name, "told anew", before, at.ToUnixTimeMilliseconds(), who);
            return true;
        });

    /// <summary>What an order's work has moved, in order, with the things as they are now. What was taken back is marked so; that it was is no movement of its own here.</summary>
    public IReadOnlyList<StoredWorkMove> OfJob(string job) =>
        _door.Read(db =>
        {
            var moves = db
                .StockMoves.AsNoTracking()
                .Where(m => m.Job == job)
                .OrderBy(m => m.Id)
                .Join(db.Stock, m => m.StockId, s => s.Id, (m, s) => new { Move = m, Stock = s })
                .ToArray();
            var causes = moves.Select(m => m.Move.Cause).OfType<string>().ToHashSet(StringComparer.Ordinal);
            var backs = causes.Select(MoveWriter.BackOf).Where(causes.Contains).ToHashSet(StringComparer.Ordinal);
            return moves
                .Where(m => !backs.Contains(m.Move.Cause ?? ""))
                .Select(m => new StoredWorkMove(
                    Thing(m.Stock),
                    DateTimeOffset.FromUnixTimeMilliseconds(m.Move.AtMs),
                    m.Move.Who,
                    m.Move.By,
                    m.Move.Why
                )
                {
                    IsBack = backs.Contains(MoveWriter.BackOf(m.Move.Cause ?? "")),
                })
                .ToArray();
        });

    /// <summary>One thing; null when there is none of that number.</summary>
    public StoredStock? One(int id) =>
        _door.Read(db => db.Stock.AsNoTracking().Where(s => s.Id == id).AsEnumerable().Select(Thing).SingleOrDefault());

    /// <summary>Keeps a new thing, or what is said of a known one (all but its count); gives its number.</summary>
    public int Keep(StoredStock thing, DateTimeOffset at, string who, bool keepsRole = false, bool keepsLeast = false)
    {
        ArgumentNullException.ThrowIfNull(thing);
        return _door.Write(db =>
        {
            var row = db.Stock.SingleOrDefault(s =>
                s.Kind == thing.Kind && s.Name == thing.Name && s.Place == thing.Place
            );
            var before = row is null ? null : JsonSerializer.Serialize(Thing(row));
            if (row is null)
            {
                row = new()
                {
                    Kind = thing.Kind,
                    Name = thing.Name,
                    Place = thing.Place,
                    Unit = thing.Unit,
                    Sought = Sought.Of(thing.Name, thing.Place),
                };
                db.Stock.Add(row);
            }

            row.Unit = thing.Unit;
            row.Least = keepsLeast && before is not null ? row.Least : thing.Least;
            row.Role = keepsRole && before is not null ? row.Role : thing.Role;
            // Of transfers that lie together the older day holds: none is pressed as newer than it may be.
            row.BondedOn =
                row.Count > 0 && row.BondedOn is { } older && (thing.BondedOn is null || thing.BondedOn > older)
                    ? older
                    : thing.BondedOn ?? row.BondedOn;

            var what = before is null ? "put on the shelf" : "told anew";
            MoveWriter.Note(db, thing.Name, what, before, at.ToUnixTimeMilliseconds(), who);
            db.SaveChanges();
            return row.Id;
        });
    }

    /// <summary>Moves a thing: its new count, or null where fewer are there than go (nothing is changed) or the thing is unknown. The same key counts once.</summary>
    public decimal? Move(int id, string key, decimal by, string why, DateTimeOffset at, string who) =>
        _door.Write<decimal?>(db =>
        {
            if (db.Stock.SingleOrDefault(s => s.Id == id) is not { } row)
            {
                return null;
            }

            if (db.StockMoves.Any(m => m.Key == key))
            {
                return row.Count;
            }

            // Hands cannot take what is not there; what comes to less than nothing makes it less wrong.
            if (by < 0 && row.Count + by < 0)
            {
                return null;
            }

            MoveWriter.Move(db, row, new(key, by, why, at.ToUnixTimeMilliseconds(), who));
            return row.Count;
        });

    /// <summary>Sets how many there are to what was counted, as a movement of the difference; gives how many there were, null for no such thing. The same key counts once.</summary>
    public decimal? Count(int id, string key, decimal counted, string why, DateTimeOffset at, string who) =>
        _door.Write<decimal?>(db =>
        {
            if (db.Stock.SingleOrDefault(s => s.Id == id) is not { } row)
            {
                return null;
            }

            var before = row.Count;
            if (before != counted && !db.StockMoves.Any(m => m.Key == key))
            {
                MoveWriter.Move(db, row, new(key, counted - before, why, at.ToUnixTimeMilliseconds(), who));
            }

            return before;
        });

    /// <summary>The last movements of a thing, newest first.</summary>
    public IReadOnlyList<StoredMove> Moves(int id, int most) =>
        _door.Read(db =>
            db.StockMoves.AsNoTracking()
                .Where(m => m.StockId == id)
                .OrderByDescending(m => m.Id)
                .Take(most)
                .AsEnumerable()
                .Select(m => new StoredMove(m.Id, DateTimeOffset.FromUnixTimeMilliseconds(m.AtMs), m.Who, m.By, m.Why))
                .ToArray()
        );

    internal static StoredStock Thing(StockRow row) =>
        new(row.Id, row.Kind, row.Name, row.Place, row.Unit, row.Count, row.Least, row.BondedOn) { Role = row.Role };
}
