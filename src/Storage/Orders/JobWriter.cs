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
        string who
    )
    {
        var earlier = db
            .Jobs.AsNoTracking()
            .Include(j => j.Files)
            .Include(j => j.Tickets)
            .SingleOrDefault(j => j.Name == job.Name);
        var row = Row(job, findingsJson);
        row.Stage = earlier?.Stage ?? "";
        row.Files.AddRange(files);
        row.Tickets.AddRange(tickets.Select(t => new KeptTicketRow { Number = t.Number, Json = t.Json }));
        db.Jobs.Where(j => j.Name == job.Name).ExecuteDelete();
        db.Jobs.Add(row);
        db.Changes.Add(
            new()
            {
                AtMs = row.MadeAtMs,
                Who = who,
                Of = "order",
                Name = job.Name,
                What = earlier is null ? "made" : "made again",
                BeforeJson = earlier is null ? null : JsonSerializer.Serialize(earlier),
            }
        );
        return db.SaveChanges();
    }

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
