using Coldpeel.Storage.Content;
using Coldpeel.Storage.Database;
using Microsoft.EntityFrameworkCore;

namespace Coldpeel.Storage.Orders;

/// <summary>Looks over what an earlier version has kept: a migration cannot, for it reads no files and folds no words.</summary>
internal static class OldLooks
{
    /// <summary>The setting that says it is done. A backup of an earlier version has none, and is looked over when it was brought back.</summary>
    public const string Done = "looked-over";

    // Others wait for one batch at most, and one that was broken off is begun again without harm.
    private const int Batch = 200;

    public static void Fill(StoreDoor door, ContentFolder content, Func<StoredContent, StoredLook> look)
    {
        for (int? after = 0; after is { } from; )
        {
            after = door.Write(db => Jobs(db, from, content, look));
        }

        for (int? after = 0; after is { } from; )
        {
            after = door.Write(db => Stock(db, from));
        }

        door.Write(db => db.Settings.Add(new() { Key = Done, Value = "1" }));
    }

    /// <summary>A job as whoever looks it over reads it.</summary>
    public static StoredContent ContentOf(KeptJobRow row, IEnumerable<KeptFileRow> files, ContentFolder content) =>
        new(
            files.ToDictionary(f => f.Name, f => (f.Hash, f.Bytes), StringComparer.Ordinal),
            row.FindingsJson,
            hash =>
            {
                try
                {
                    return content.Get(hash);
                }
                catch (InvalidDataException)
                {
                    return null; // whoever opens the order is told
                }
            }
        );

    private static int? Jobs(WorkshopDb db, int after, ContentFolder content, Func<StoredContent, StoredLook> look)
    {
        var rows = db.Jobs.Include(j => j.Artwork).Where(j => j.Id > after).OrderBy(j => j.Id).Take(Batch).ToArray();
        var ids = rows.Select(j => j.Id).ToArray();
        var files = db.Files.AsNoTracking().Where(f => ids.Contains(f.JobId)).ToLookup(f => f.JobId);
        var known = new Dictionary<string, ArtworkRow>(StringComparer.Ordinal);
        foreach (var row in rows)
        {
            JobLook.Put(db, row, look(ContentOf(row, files[row.Id], content)), row.MadeAtMs, known);
            JobLook.Find(row, JobLook.Notes(db, row.Name));
        }

        return rows.Length < Batch ? null : rows[^1].Id;
    }

    private static int? Stock(WorkshopDb db, int after)
    {
        var rows = db.Stock.Where(s => s.Id > after).OrderBy(s => s.Id).Take(Batch).ToArray();
        foreach (var row in rows)
        {
            row.Sought = Sought.Of(row.Name, row.Place);
        }

        return rows.Length < Batch ? null : rows[^1].Id;
    }
}
