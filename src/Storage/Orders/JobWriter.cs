using Coldpeel.Storage.Content;
using Coldpeel.Storage.Database;
using Microsoft.EntityFrameworkCore;

namespace Coldpeel.Storage.Orders;

/// <summary>Keeps a job: in place of an earlier one of the same name, all of it or nothing.</summary>
internal static class JobWriter
{
    public static void Keep(
        WorkshopDb db,
        ContentFolder content,
        StoredJob job,
        string findingsJson,
        IReadOnlyDictionary<string, byte[]> files,
        IEnumerable<StoredTicket> tickets
    )
    {
        // Content first: a row must never name content that is not there. What a failure leaves behind is content without a name.
        var row = Row(job, findingsJson);
        row.Files.AddRange(
            files.Select(f => new KeptFileRow
            {
                Name = f.Key,
                Hash = content.Put(f.Value),
                Bytes = f.Value.Length,
            })
        );
        row.Tickets.AddRange(tickets.Select(t => new KeptTicketRow { Number = t.Number, Json = t.Json }));

        using var whole = db.Database.BeginTransaction();
        var earlier = db.Files.Where(f => db.Jobs.Any(j => j.Id == f.JobId && j.Name == job.Name));
        var dropped = earlier.Select(f => f.Hash).Distinct().ToArray();
        db.Jobs.Where(j => j.Name == job.Name).ExecuteDelete();
        db.Jobs.Add(row);
        db.SaveChanges();
        whole.Commit();

        foreach (var hash in dropped.Where(hash => !db.Files.Any(f => f.Hash == hash)))
        {
            content.Drop(hash);
        }
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
        };
}
