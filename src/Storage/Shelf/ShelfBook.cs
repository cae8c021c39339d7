using System.Text.Json;
using Coldpeel.Storage.Database;
using Microsoft.EntityFrameworkCore;

namespace Coldpeel.Storage.Shelf;

/// <summary>A thing on the shelf, as it is kept.</summary>
/// <param name="Id">Its number.</param>
/// <param name="Kind">What it is: transfer, sheet, toner, blank, other.</param>
/// <param name="Name">Its name.</param>
/// <param name="Place">Where it lies.</param>
/// <param name="Unit">What is counted.</param>
/// <param name="Count">How many there are.</param>
/// <param name="Least">Fewer than this and it is time to order.</param>
/// <param name="BondedOn">The day it was bonded; null for what is not bonded.</param>
public sealed record StoredStock(
    int Id,
    string Kind,
    string Name,
    string Place,
    string Unit,
    decimal Count,
    decimal Least,
    DateOnly? BondedOn
)
{
    /// <summary>What an order's steps know it by; empty for what only hands move.</summary>
    public string Role { get; init; } = "";
}

/// <summary>A movement, as it is kept.</summary>
/// <param name="Number">Rising.</param>
/// <param name="At">When.</param>
/// <param name="Who">Who.</param>
/// <param name="By">How many came; below zero, how many went.</param>
/// <param name="Why">What for.</param>
public sealed record StoredMove(long Number, DateTimeOffset At, string Who, decimal By, string Why);

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
            if (Sought.Of(words) is { Length: > 0 } sought)
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
            // What has no least is most of it, and the index begins behind it; below nothing there are few.
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
            Note(db, at, who, row.Name, "told anew", before);
            return true;
        });

    /// <summary>How many of how many pieces were spoilt, by process and material.</summary>
    public IReadOnlyList<StoredRecord> Records() =>
        _door.Read(db =>
            db.PieceOutcomes.AsNoTracking()
                .GroupBy(o => new { o.Process, o.Material })
                .Select(g => new
                {
                    g.Key.Process,
                    g.Key.Material,
                    Good = g.Sum(o => o.Good),
                    Spoilt = g.Sum(o => o.Spoilt),
                })
                .AsEnumerable()
                .Select(g => new StoredRecord(g.Process, g.Material, g.Spoilt, g.Good + g.Spoilt))
                .OrderBy(r => r.Process, StringComparer.Ordinal)
                .ThenBy(r => r.Material, StringComparer.Ordinal)
                .ToArray()
        );

    /// <summary>Pieces of an order that were spoilt and wait to be made again.</summary>
    public IReadOnlyList<StoredMissing> Missing(string job) =>
        _door.Read(db =>
            db.PieceOutcomes.AsNoTracking()
                .Where(o => o.Job == job)
                .GroupBy(o => new { o.Piece, o.Process })
                .Select(g => new
                {
                    g.Key.Piece,
                    g.Key.Process,
                    Count = g.Sum(o => o.Missing),
                })
                .Where(g => g.Count > 0)
                .AsEnumerable()
                .Select(g => new StoredMissing(g.Piece, g.Process, g.Count))
                .OrderBy(m => m.Piece, StringComparer.Ordinal)
                .ToArray()
        );

    /// <summary>What stands on a cause: the order that makes again pieces that would not be missing without it; null for none.</summary>
    public string? StandsOn(string cause) =>
        _door.Read(db =>
        {
            foreach (
                var piece in db
                    .PieceOutcomes.AsNoTracking()
                    .Where(o => o.Cause == cause && o.Missing > 0)
                    .AsEnumerable()
                    .GroupBy(o => (o.Job, o.Process, o.Piece))
            )
            {
                var (job, process, name) = piece.Key;
                var all = db
                    .PieceOutcomes.AsNoTracking()
                    .Where(o => o.Job == job && o.Process == process && o.Piece == name);
                if (all.Sum(o => o.Missing) < piece.Sum(o => o.Missing))
                {
                    var again = StoredWork.CauseOfAgain("");
                    return all.Where(o => o.Missing < 0 && o.Cause.StartsWith(again))
                        .OrderByDescending(o => o.Id)
                        .Select(o => o.Cause)
                        .FirstOrDefault()
                        ?[again.Length..];
                }
            }

            return null;
        });

    /// <summary>Pieces of an order that another makes again, in an order of its own.</summary>
    public IReadOnlyList<StoredMissing> MadeElsewhere(string job) =>
        _door.Read(db =>
            db.PieceOutcomes.AsNoTracking()
                .Where(o => o.Job == job && o.Good == 0 && o.Spoilt == 0 && o.Why.Contains("made again in "))
                .GroupBy(o => new { o.Piece, o.Process })
                .Select(g => new
                {
                    g.Key.Piece,
                    g.Key.Process,
                    Count = -g.Sum(o => o.Missing),
                })
                .Where(g => g.Count > 0)
                .AsEnumerable()
                .Select(g => new StoredMissing(g.Piece, g.Process, g.Count))
                .ToArray()
        );

    /// <summary>Keeps that missing pieces are made again in another order.</summary>
    public void MadeAgain(
        string job,
        string again,
        IReadOnlyList<StoredMissing> missing,
        DateTimeOffset at,
        string who
    ) =>
        _door.Write(db =>
        {
            foreach (var (number, piece) in missing.Index())
            {
                db.PieceOutcomes.Add(
                    new()
                    {
                        Key = FormattableString.Invariant($"again {again} {number}"),
                        Cause = StoredWork.CauseOfAgain(again),
                        Job = job,
                        Process = piece.Process,
                        Material = "",
                        Piece = piece.Piece,
                        Missing = -piece.Count,
                        AtMs = at.ToUnixTimeMilliseconds(),
                        Who = who,
                        Why = $"made again in {again}",
                    }
                );
            }

            db.Changes.Add(
                new()
                {
                    AtMs = at.ToUnixTimeMilliseconds(),
                    Who = who,
                    Of = "order",
                    Name = job,
                    What = $"spoilt pieces are made again in {again}",
                }
            );
            return missing.Count;
        });

    /// <summary>What an order's work has moved, in order, with the things as they are now.</summary>
    public IReadOnlyList<StoredWorkMove> OfJob(string job) =>
        _door.Read(db =>
            db.StockMoves.AsNoTracking()
                .Where(m => m.Job == job)
                .OrderBy(m => m.Id)
                .Join(db.Stock, m => m.StockId, s => s.Id, (m, s) => new { Move = m, Stock = s })
                .AsEnumerable()
                .Select(j => new StoredWorkMove(
                    Thing(j.Stock),
                    DateTimeOffset.FromUnixTimeMilliseconds(j.Move.AtMs),
                    j.Move.Who,
                    j.Move.By,
                    j.Move.Why
                ))
                .ToArray()
        );

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

            Note(db, at, who, thing.Name, before is null ? "put on the shelf" : "told anew", before);
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

            var before = JsonSerializer.Serialize(Thing(row));
            row.Count += by;
            db.StockMoves.Add(
                new()
                {
                    StockId = id,
                    Key = key,
                    AtMs = at.ToUnixTimeMilliseconds(),
                    Who = who,
                    By = by,
                    Why = why,
                }
            );
            Note(db, at, who, row.Name, FormattableString.Invariant($"{by:+0.###;-0.###} {row.Unit}: {why}"), before);
            return row.Count;
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

    private static void Note(WorkshopDb db, DateTimeOffset at, string who, string name, string what, string? before) =>
        db.Changes.Add(
            new()
            {
                AtMs = at.ToUnixTimeMilliseconds(),
                Who = who,
                Of = "stock",
                Name = name,
                What = what,
                BeforeJson = before,
            }
        );

    internal static StoredStock Thing(StockRow row) =>
        new(row.Id, row.Kind, row.Name, row.Place, row.Unit, row.Count, row.Least, row.BondedOn) { Role = row.Role };
}
