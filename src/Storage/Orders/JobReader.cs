using Coldpeel.Storage.Database;
using Microsoft.EntityFrameworkCore;

namespace Coldpeel.Storage.Orders;

/// <summary>Reads kept jobs as plain records.</summary>
internal static class JobReader
{
    /// <summary>All jobs: the first due first, then by name.</summary>
    public static IReadOnlyList<StoredJob> All(WorkshopDb db) =>
        [.. db.Jobs.AsNoTracking().OrderBy(j => j.Due).ThenBy(j => j.Name).AsEnumerable().Select(Job)];

    /// <summary>One page of jobs; the key is that of the last line of the page before. Findings are not read.</summary>
    public static IReadOnlyList<StoredJob> Some(WorkshopDb db, JobAsk ask)
    {
        var rows = db.Jobs.AsNoTracking();
        if (ask.Stages is { } stages)
        {
            rows = rows.Where(j => stages.Contains(j.Stage));
        }

        if (Sought.Of(ask.Words) is { Length: > 0 } words)
        {
            // The index of the words alone is a tenth of the table.
            var found = db.Jobs.Where(k => k.Sought.Contains(words)).Select(k => k.Id);
            rows = rows.Where(j => found.Contains(j.Id));
        }

        if (ask.Stopped is { } stopped)
        {
            rows = rows.Where(j => j.Stopped == stopped);
        }

        if (ask.DueUntil is { } until)
        {
            rows = rows.Where(j => j.Due <= until);
        }

        if (ask.After is { } key)
        {
            rows = rows.Where(j => j.Due > key.Due || (j.Due == key.Due && j.Name.CompareTo(key.Name) > 0));
        }

        return
        [
            .. rows.OrderBy(j => j.Due)
                .ThenBy(j => j.Name)
                .Take(ask.Most)
                .Select(j => new KeptJobRow
                {
                    Id = j.Id,
                    Name = j.Name,
                    Customer = j.Customer,
                    Due = j.Due,
                    MadeAtMs = j.MadeAtMs,
                    Stopped = j.Stopped,
                    Warnings = j.Warnings,
                    Sheets = j.Sheets,
                    Pieces = j.Pieces,
                    LeftOut = j.LeftOut,
                    MakespanS = j.MakespanS,
                    BoundS = j.BoundS,
                    Total = j.Total,
                    Currency = j.Currency,
                    Stage = j.Stage,
                    FindingsJson = "",
                })
                .AsEnumerable()
                .Select(Job),
        ];
    }

    /// <summary>One job with all that belongs to it; null when there is none of that name.</summary>
    public static StoredOrder? One(WorkshopDb db, string name)
    {
        var row = db
            .Jobs.AsNoTracking()
            .Include(j => j.Files)
            .Include(j => j.Tickets)
            .AsSplitQuery()
            .SingleOrDefault(j => j.Name == name);
        return row is null
            ? null
            : new StoredOrder(
                Job(row),
                row.FindingsJson,
                [
                    .. row
                        .Files.OrderBy(f => f.Name, StringComparer.Ordinal)
                        .Select(f => new StoredFile(f.Name, f.Bytes)),
                ],
                [.. row.Tickets.OrderBy(t => t.Number).Select(t => new StoredTicket(t.Number, t.Json))]
            );
    }

    /// <summary>What the page of a ticket shows; null when there is none.</summary>
    public static string? Ticket(WorkshopDb db, string name, int number) =>
        db
            .Tickets.Where(t => t.Number == number && db.Jobs.Any(j => j.Id == t.JobId && j.Name == name))
            .Select(t => t.Json)
            .SingleOrDefault();

    /// <summary>Hash of a file's content; null when there is no such file.</summary>
    public static string? Hash(WorkshopDb db, string job, string file) =>
        db
            .Files.Where(f => f.Name == file && db.Jobs.Any(j => j.Id == f.JobId && j.Name == job))
            .Select(f => f.Hash)
            .SingleOrDefault();

    private static StoredJob Job(KeptJobRow row) =>
        new(
            row.Name,
            row.Customer,
            row.Due,
            DateTimeOffset.FromUnixTimeMilliseconds(row.MadeAtMs),
            row.Stopped,
            row.Warnings,
            row.Sheets is null
                ? null
                : new StoredFigures(
                    row.Sheets.Value,
                    row.Pieces ?? 0,
                    row.LeftOut ?? 0,
                    row.MakespanS ?? 0,
                    row.BoundS ?? 0,
                    row.Total ?? 0,
                    row.Currency ?? ""
                )
        )
        {
            Stage = row.Stage,
        };
}
