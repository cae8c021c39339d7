using System.Text.Json;
using Coldpeel.Storage.Database;
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
        var earlier = db
            .Jobs.AsNoTracking()
            .Include(j => j.Files)
            .Include(j => j.Tickets)
            .SingleOrDefault(j => j.Name == job.Name);
        var row = Row(job, findingsJson);
        row.Stage = note.Anew is null ? earlier?.Stage ?? "" : "";
        row.Files.AddRange(files);
        row.Tickets.AddRange(tickets.Select(t => new KeptTicketRow { Number = t.Number, Json = t.Json }));
        db.Jobs.Where(j => j.Name == job.Name).ExecuteDelete();
        db.Jobs.Add(row);
        if (note.Anew is { } anew)
        {
            db.OrderMarks.Add(
                new()
                {
                    Job = job.Name,
                    Step = anew.Step,
                    AtMs = row.MadeAtMs,
                    Who = note.Who,
                    Note = anew.Why,
                }
            );
        }

        db.Changes.Add(
            new()
            {
                AtMs = row.MadeAtMs,
                Who = note.Who,
                Of = "order",
                Name = job.Name,
                What = Short(
                    (earlier is null ? "made" : "made again")
                        + (note.What is null ? "" : $": {note.What}")
                        + (note.Anew is null ? "" : $"; {note.Anew.Why}")
                ),
                BeforeJson = earlier is null ? null : JsonSerializer.Serialize(earlier),
            }
        );
        return db.SaveChanges();
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
            Sought = Sought.Of(job.Name, job.Customer),
        };
}
