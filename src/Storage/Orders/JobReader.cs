using System.Linq.Expressions;
using Coldpeel.Storage.Database;
using Microsoft.EntityFrameworkCore;

namespace Coldpeel.Storage.Orders;

/// <summary>Reads kept jobs as plain records.</summary>
internal static class JobReader
{
    // What a list shows. Kept, for composing it costs as much as asking.
    private static readonly Expression<Func<KeptJobRow, KeptJobRow>> Line = j => new KeptJobRow
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
        AgainOf = j.AgainOf,
        SheetsJson = j.SheetsJson,
        FindingsJson = "",
    };

    /// <summary>All jobs: the first due first, then by name.</summary>
    public static IReadOnlyList<StoredJob> All(WorkshopDb db) =>
        [.. db.Jobs.AsNoTracking().OrderBy(j => j.Due).ThenBy(j => j.Name).AsEnumerable().Select(Job)];

    /// <summary>One page of jobs; the key is that of the last line of the page before. Findings are not read.</summary>
    public static IReadOnlyList<StoredJob> Some(WorkshopDb db, JobAsk ask)
    {
        var rows = Asked(db, ask);
        // SQLite reads an index of stage and day in order for one stage, and sorts all rows for several: so one stage after the other.
        // Its order is that of bytes, which ours is too.
        return ask.Stages is not { } stages ? Lines(rows, ask.Most)
            : ask.Words.Length > 0 || db is PostgresDb ? Lines(rows.Where(j => stages.Contains(j.Stage)), ask.Most)
            :
            [
                .. stages
                    .SelectMany(stage => Lines(rows.Where(j => j.Stage == stage), ask.Most))
                    .OrderBy(j => j.Due)
                    .ThenBy(j => j.Name, StringComparer.Ordinal)
                    .Take(ask.Most),
            ];
    }

    private static IQueryable<KeptJobRow> Asked(WorkshopDb db, JobAsk ask)
    {
        var rows = db.Jobs.AsNoTracking();
        if (Sought.Asked(ask.Words) is { Length: > 0 } words)
        {
            rows = WordIndex.Among(db, "jobs", rows, words);
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
            // The first condition says no more than the second, and lets the index begin there.
            rows = rows.Where(j =>
                j.Due >= key.Due && (j.Due > key.Due || (j.Due == key.Due && j.Name.CompareTo(key.Name) > 0))
            );
        }

        return rows;
    }

    private static StoredJob[] Lines(IQueryable<KeptJobRow> rows, int most) =>
        [.. rows.OrderBy(j => j.Due).ThenBy(j => j.Name).Take(most).Select(Line).AsEnumerable().Select(Job)];

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
        // From the order to its ticket: the other way round every order's first ticket would be looked at.
        db
            .Jobs.Where(j => j.Name == name)
            .SelectMany(j => j.Tickets)
            .Where(t => t.Number == number)
            .Select(t => t.Json)
            .SingleOrDefault();

    /// <summary>Which of those jobs have a file of that name.</summary>
    public static IReadOnlySet<string> Having(WorkshopDb db, IReadOnlyCollection<string> names, string file) =>
        db
            .Jobs.Where(j => names.Contains(j.Name) && j.Files.Any(f => f.Name == file))
            .Select(j => j.Name)
            .ToHashSet(StringComparer.Ordinal);

    /// <summary>Hash of a file's content; null when there is no such file.</summary>
    public static string? Hash(WorkshopDb db, string job, string file) =>
        db
            .Jobs.Where(j => j.Name == job)
            .SelectMany(j => j.Files)
            .Where(f => f.Name == file)
            .Select(f => f.Hash)
            .SingleOrDefault();

    internal static StoredJob Job(KeptJobRow row) =>
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
            AgainOf = row.AgainOf,
            SheetsJson = row.SheetsJson,
        };
}
