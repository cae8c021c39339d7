using Coldpeel.Storage.Database;
using Microsoft.EntityFrameworkCore;

namespace Coldpeel.Storage.Artwork;

/// <summary>Artwork of all orders: the same content once, however many orders have it.</summary>
public sealed class ArtworkBook
{
    private readonly StoreDoor _door;

    internal ArtworkBook(StoreDoor door) => _door = door;

    /// <summary>What orders have, the one used last first, from a key on.</summary>
    /// <param name="words">Only what has these words in the names of its file, its designs or its customers.</param>
    /// <param name="after">Only what comes after this one; null from the first.</param>
    /// <param name="most">How many at most.</param>
    public IReadOnlyList<StoredArtwork> Some(string words, ArtworkKey? after, int most) =>
        _door.Read(db =>
        {
            var rows = Asked(db, words);
            if (after is { } key)
            {
                rows = rows.Where(a => a.LastMs <= key.LastMs && (a.LastMs < key.LastMs || a.Id < key.Id));
            }

            return Told(
                db,
                [
                    .. rows.Where(a => db.ArtworkUses.Any(u => u.ArtworkId == a.Id))
                        .OrderByDescending(a => a.LastMs)
                        .ThenByDescending(a => a.Id)
                        .Take(most),
                ]
            );
        });

    /// <summary>One of them; null when there is none of that number, or no order has it any more.</summary>
    public StoredArtwork? One(int id) =>
        _door.Read(db => Told(db, [.. db.Artworks.AsNoTracking().Where(a => a.Id == id)]).SingleOrDefault());

    /// <summary>The designs that are made of it, the order kept last first.</summary>
    /// <param name="id">The artwork.</param>
    /// <param name="before">Only those before this number; null from the last.</param>
    /// <param name="most">How many at most.</param>
    public IReadOnlyList<StoredArtworkUse> Uses(int id, int? before, int most) =>
        _door.Read(db =>
            Uses(
                db,
                db.ArtworkUses.Where(u => u.ArtworkId == id && (before == null || u.Id < before))
                    .OrderByDescending(u => u.Id)
                    .Take(most)
            )
        );

    private static IQueryable<ArtworkRow> Asked(WorkshopDb db, string words)
    {
        var rows = db.Artworks.AsNoTracking();
        return Sought.Asked(words) is { Length: > 0 } sought ? WordIndex.Among(db, "artworks", rows, sought) : rows;
    }

    // Orders are counted, and the last use is found, in one index; then the few that are shown are read.
    private static StoredArtwork[] Told(WorkshopDb db, ArtworkRow[] rows)
    {
        var ids = rows.Select(a => a.Id).ToArray();
        var used = db
            .ArtworkUses.Where(u => EF.Parameter(ids).Contains(u.ArtworkId))
            .GroupBy(u => u.ArtworkId)
            .Select(g => new
            {
                g.Key,
                Last = g.Max(u => u.Id),
                Orders = g.Select(u => u.JobId).Distinct().Count(),
            })
            .ToDictionary(u => u.Key);
        var last = used.Values.Select(u => u.Last).ToArray();
        var uses = Uses(db, db.ArtworkUses.Where(u => EF.Parameter(last).Contains(u.Id))).ToDictionary(u => u.Id);
        return
        [
            .. rows.Where(a => used.ContainsKey(a.Id))
                .Select(a => new StoredArtwork(
                    a.Id,
                    a.Hash,
                    a.Name,
                    a.Bytes,
                    DateTimeOffset.FromUnixTimeMilliseconds(a.LastMs),
                    used[a.Id].Orders,
                    uses[used[a.Id].Last]
                )),
        ];
    }

    private static StoredArtworkUse[] Uses(WorkshopDb db, IQueryable<ArtworkUseRow> uses) =>
        [
            .. uses.Join(
                    db.Jobs,
                    u => u.JobId,
                    j => j.Id,
                    (u, j) =>
                        new
                        {
                            Use = u,
                            j.Name,
                            j.Customer,
                        }
                )
                .AsNoTracking()
                .OrderByDescending(u => u.Use.Id)
                .AsEnumerable()
                .Select(u => new StoredArtworkUse(
                    u.Use.Id,
                    u.Name,
                    u.Customer,
                    u.Use.Number,
                    u.Use.Design,
                    u.Use.WidthMm,
                    u.Use.HeightMm,
                    u.Use.Found,
                    u.Use.Mends,
                    u.Use.Picture
                )),
        ];
}
