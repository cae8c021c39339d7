using Coldpeel.Storage.Database;
using Microsoft.EntityFrameworkCore;

namespace Coldpeel.Storage.Orders;

/// <summary>Keeps what lists show of a job and find it by.</summary>
internal static class JobLook
{
    // What is written at these steps names people: who approved, who received.
    private static readonly string[] Telling = ["Approve", "HandOver"];

    private const int LongestName = 200;

    /// <summary>Whether what is written at a step is looked for.</summary>
    public static bool Tells(string step) => Telling.Contains(step);

    /// <summary>Puts it into the row of the job; the artwork of it that nobody has used before gets a row of its own.</summary>
    /// <param name="db">The database.</param>
    /// <param name="row">The job.</param>
    /// <param name="look">What was seen.</param>
    /// <param name="atMs">When the job was kept.</param>
    /// <param name="known">Artwork that was put in before, in the same stroke, by hash.</param>
    public static void Put(
        WorkshopDb db,
        KeptJobRow row,
        StoredLook look,
        long atMs,
        Dictionary<string, ArtworkRow> known
    )
    {
        row.Words = string.Join(Sought.Next, look.Words);
        row.SheetsJson = look.SheetsJson;
        row.Artwork.Clear();
        foreach (var design in look.Artwork)
        {
            if (!known.TryGetValue(design.Hash, out var artwork))
            {
                artwork = db.Artworks.SingleOrDefault(a => a.Hash == design.Hash);
                if (artwork is null)
                {
                    artwork = new() { Hash = design.Hash, Name = "" };
                    db.Artworks.Add(artwork);
                }

                known[design.Hash] = artwork;
            }

            artwork.Name = Short(design.File);
            artwork.Bytes = design.Bytes;
            artwork.LastMs = Math.Max(artwork.LastMs, atMs);
            artwork.Sought = Sought.With(artwork.Sought, design.File, design.Design, row.Customer);
            row.Artwork.Add(
                new()
                {
                    Artwork = artwork,
                    Number = design.Number,
                    Design = Short(design.Design),
                    WidthMm = design.WidthMm,
                    HeightMm = design.HeightMm,
                    Found = design.Found,
                    Mends = design.Mends,
                    Picture = design.Picture,
                }
            );
        }
    }

    /// <summary>The same of a version that stood before: its artwork is known, and used again.</summary>
    public static void PutBack(WorkshopDb db, KeptJobRow row, long atMs)
    {
        foreach (var use in row.Artwork)
        {
            (use.Id, use.JobId) = (0, 0);
        }

        var ids = row.Artwork.Select(u => u.ArtworkId).ToArray();
        db.Artworks.Where(a => ids.Contains(a.Id)).ExecuteUpdate(a => a.SetProperty(r => r.LastMs, atMs));
    }

    /// <summary>What was written at steps that name people, the newest first.</summary>
    public static string[] Notes(WorkshopDb db, string job) =>
        [
            .. db
                .OrderMarks.AsNoTracking()
                .Where(m => m.Job == job && Telling.Contains(m.Step))
                .OrderByDescending(m => m.Id)
                .Select(m => m.Note),
        ];

    /// <summary>Sets what a job is found by.</summary>
    public static void Find(KeptJobRow row, IReadOnlyList<string> notes) =>
        row.Sought = Sought.Of([row.Name, row.Customer, .. notes, .. (row.Words ?? "").Split(Sought.Next)]);

    /// <summary>The same of a kept job, after something was written at a step.</summary>
    public static void FindAnew(WorkshopDb db, string job)
    {
        var row = db
            .Jobs.Where(j => j.Name == job)
            .Select(j => new KeptJobRow
            {
                Name = j.Name,
                Customer = j.Customer,
                Words = j.Words,
                FindingsJson = "",
            })
            .Single();
        Find(row, Notes(db, job));
        db.Jobs.Where(j => j.Name == job).ExecuteUpdate(j => j.SetProperty(r => r.Sought, row.Sought));
    }

    private static string Short(string name) => name.Length > LongestName ? name[..(LongestName - 1)] + "…" : name;
}
