using Coldpeel.Storage.Database;
using Microsoft.EntityFrameworkCore;

namespace Coldpeel.Storage.Orders;

/// <summary>Reads kept jobs as plain records.</summary>
internal static class JobReader
{
    /// <summary>All jobs: the first due first, then by name.</summary>
    public static IReadOnlyList<StoredJob> All(WorkshopDb db) =>
        [.. db.Jobs.AsNoTracking().OrderBy(j => j.Due).ThenBy(j => j.Name).AsEnumerable().Select(Job)];

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
        );
}
