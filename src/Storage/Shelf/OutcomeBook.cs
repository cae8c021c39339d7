using Coldpeel.Storage.Database;
using Microsoft.EntityFrameworkCore;

namespace Coldpeel.Storage.Shelf;

/// <summary>How pieces came out, what is missing of them, and which order makes that again; nothing in it is ever changed or taken out.</summary>
public sealed class OutcomeBook
{
    private readonly StoreDoor _door;

    internal OutcomeBook(StoreDoor door) => _door = door;

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
        _door.Read(db => Sums(db.PieceOutcomes.Where(o => o.Job == job), sign: 1));

    /// <summary>Pieces of an order that another makes again, in an order of its own.</summary>
    public IReadOnlyList<StoredMissing> MadeElsewhere(string job) =>
        _door.Read(db => Sums(db.PieceOutcomes.Where(o => o.Job == job && o.MadeIn != null), sign: -1));

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
                    return all.Where(o => o.Missing < 0 && o.MadeIn != null)
                        .OrderByDescending(o => o.Id)
                        .Select(o => o.MadeIn)
                        .FirstOrDefault();
                }
            }

            return null;
        });

    // Grouped by the database, signed here.
    private static StoredMissing[] Sums(IQueryable<PieceOutcomeRow> rows, int sign) =>
        [
            .. rows.AsNoTracking()
                .GroupBy(o => new { o.Piece, o.Process })
                .Select(g => new
                {
                    g.Key.Piece,
                    g.Key.Process,
                    Count = g.Sum(o => o.Missing),
                })
                .AsEnumerable()
                .Select(g => new StoredMissing(g.Piece, g.Process, sign * g.Count))
                .Where(m => m.Count > 0)
                .OrderBy(m => m.Piece, StringComparer.Ordinal),
        ];
}
