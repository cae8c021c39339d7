using System.Text.Json;
using System.Text.Json.Serialization;
using Coldpeel.Storage.Database;
using Microsoft.EntityFrameworkCore;

namespace Coldpeel.Storage.Orders;

/// <summary>The versions of a job that were replaced: the history has each of them whole, and the folder the content of its files.</summary>
internal static class JobVersions
{
    // Its lists of files and tickets are filled, not set.
    private static readonly JsonSerializerOptions Whole = new()
    {
        PreferredObjectCreationHandling = JsonObjectCreationHandling.Populate,
    };

    /// <summary>The version before the one that is kept; null where there was none.</summary>
    public static StoredVersion? Before(WorkshopDb db, string name) =>
        Last(db, name) is { } change && Row(change) is var row
            ? new(
                change.Id,
                DateTimeOffset.FromUnixTimeMilliseconds(change.AtMs),
                change.Who,
                change.What,
                JobReader.Job(row),
                row.Files.ToDictionary(f => f.Name, f => f.Hash)
            )
            : null;

    /// <summary>Puts it in the place of what is kept, which goes into the history in its turn; false when another version was replaced meanwhile.</summary>
    /// <param name="db">The database.</param>
    /// <param name="name">The job.</param>
    /// <param name="number">The change that replaced it.</param>
    /// <param name="note">What is noted.</param>
    /// <param name="atMs">When.</param>
    /// <param name="look">Looks at a version that was kept before anybody did.</param>
    public static bool PutBack(
        WorkshopDb db,
        string name,
        long number,
        KeepNote note,
        long atMs,
        Func<KeptJobRow, StoredLook> look
    )
    {
        if (Last(db, name) is not { } change || change.Id != number)
        {
            return false;
        }

        var row = Row(change);
        row.Id = 0;
        foreach (var file in row.Files)
        {
            (file.Id, file.JobId) = (0, 0);
        }

        foreach (var ticket in row.Tickets)
        {
            (ticket.Id, ticket.JobId) = (0, 0);
        }

        if (row.Words is null)
        {
            JobLook.Put(db, row, look(row), atMs, []);
        }
        else
        {
            JobLook.PutBack(db, row, atMs);
        }

        JobWriter.Replace(db, row, note, atMs);
        return true;
    }

    private static ChangeRow? Last(WorkshopDb db, string name) =>
        db
            .Changes.AsNoTracking()
            .Where(c => c.Of == "order" && c.Name == name && c.BeforeJson != null)
            .OrderByDescending(c => c.Id)
            .FirstOrDefault();

    private static KeptJobRow Row(ChangeRow change) =>
        JsonSerializer.Deserialize<KeptJobRow>(change.BeforeJson!, Whole)!;
}
