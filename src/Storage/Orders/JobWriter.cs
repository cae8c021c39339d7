using System.Text.Json;
using Coldpeel.Storage.Database;
using Coldpeel.Storage.Shelf;
using Microsoft.EntityFrameworkCore;

namespace Coldpeel.Storage.Orders;

/// <summary>Keeps a job: in place of an earlier one of the same name, which goes into the history whole.</summary>
internal static class JobWriter
{
    public static int Keep(
        WorkshopDb db,
        StoredJob job,
        string findingsJson,
        IEnumerable<KeptFileRow> files,
        IEnumerable<StoredTicket> tickets,
        KeepNote note
    )
    {
        var row = Row(job, findingsJson);
        if (note.Look is { } look)
        {
            JobLook.Put(db, row, look, row.MadeAtMs, []);
        }

        row.Files.AddRange(files);
        row.Tickets.AddRange(tickets.Select(t => new KeptTicketRow { Number = t.Number, Json = t.Json }));
        return Replace(db, row, note, row.MadeAtMs);
    }

    /// <summary>Puts a row in the place of the one of its name.</summary>
    public static int Replace(WorkshopDb db, KeptJobRow row, KeepNote note, long atMs)
    {
        var earlier = db
            .Jobs.AsNoTracking()
            .Include(j => j.Files)
            .Include(j => j.Tickets)
            .Include(j => j.Artwork)
            .AsSplitQuery()
            .SingleOrDefault(j => j.Name == row.Name);
        row.Stage = note.Takes?.Stage ?? (note.Anew is null ? earlier?.Stage ?? "" : "");
        db.Jobs.Where(j => j.Name == row.Name).ExecuteDelete();
        db.Jobs.Add(row);
        if (note.Anew is { } anew)
        {
            Mark(anew.Step, anew.Why, null);
        }

        if (note.Takes is { } taken)
        {
            Mark(taken.Step, taken.Note, taken.Proof);
        }

        JobLook.Find(
            row,
            [.. JobLook.Notes(db, row.Name), note.Takes is { } step && JobLook.Tells(step.Step) ? step.Note : ""]
        );
        if (note.Again is { } again)
        {
            WorkWriter.MadeAgain(db, again, row.Name, atMs, note.Who);
        }

        db.Changes.Add(
            new()
            {
                AtMs = atMs,
                Who = note.Who,
                Of = "order",
                Name = row.Name,
                What = Short(
                    (earlier is null ? "made" : "made again")
                        + (note.What is null ? "" : $": {note.What}")
                        + (note.Anew is null ? "" : $"; {note.Anew.Why}")
                ),
                BeforeJson = earlier is null ? null : JsonSerializer.Serialize(earlier),
            }
        );
        return db.SaveChanges();

        void Mark(string step, string why, string? proof) =>
            db.OrderMarks.Add(
                new()
                {
                    Job = row.Name,
                    Step = step,
                    AtMs = atMs,
                    Who = note.Who,
                    Note = why,
                    Proof = proof,
                }
            );
    }

    // As long as the column is.
    private static string Short(string what) => what.Length > 1000 ? what[..999] + "…" : what;

    private static KeptJobRow Row(StoredJob job, string findingsJson) =>
        new()
        {
            Name = job.Name,
            Customer = job.Customer,
            Due = job.Due,
            MadeAtMs = job.MadeAt.ToUnixTimeMilliseconds(),
            Stopped = job.Stopped,
            Warnings = job.Warnings,
            Sheets = job.Figures?.Sheets,
            Pieces = job.Figures?.Pieces,
            LeftOut = job.Figures?.LeftOut,
            MakespanS = job.Figures?.MakespanS,
            BoundS = job.Figures?.BoundS,
            Total = job.Figures?.Total,
            Currency = job.Figures?.Currency,
            FindingsJson = findingsJson,
            AgainOf = job.AgainOf,
        };
}
