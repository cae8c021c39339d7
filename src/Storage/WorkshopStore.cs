using Coldpeel.Storage.Content;
using Coldpeel.Storage.Database;
using Coldpeel.Storage.Orders;
using Coldpeel.Workshop.Findings;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace Coldpeel.Storage;

/// <summary>All that a workshop keeps: one SQLite file, and file content by its hash beside it.</summary>
/// <remarks>One store at a time writes to a folder; within it calls may come from many threads.</remarks>
public sealed class WorkshopStore
{
    private const string DatabaseName = "workshop.db";
    private const string FilesName = "files";

    private readonly string _database;
    private readonly ContentFolder _content;
    private readonly Lock _writing = new();

    private WorkshopStore(string folder) =>
        (Folder, _database, _content) = (
            folder,
            Path.Combine(folder, DatabaseName),
            new ContentFolder(Path.Combine(folder, FilesName))
        );

    /// <summary>Where it stands.</summary>
    public string Folder { get; }

    /// <summary>Opens the store in a folder, making it where there is none, and brings it up to this program's form.</summary>
    public static Outcome<WorkshopStore> Open(string folder)
    {
        ArgumentException.ThrowIfNullOrEmpty(folder);
        try
        {
            var store = new WorkshopStore(Path.GetFullPath(folder));
            MakeFolder(store.Folder);
            using var db = store.Db();
            var known = db.Database.GetMigrations();
            if (File.Exists(store._database) && db.Database.GetAppliedMigrations().Except(known).Any())
            {
                return new Fault(
                    store._database,
                    "was written by a newer Coldpeel.",
                    "Open it with that one, or name another folder after --data."
                );
            }

            db.Database.Migrate();
            return store;
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException or SqliteException)
        {
            return new Fault(
                folder,
                $"cannot serve as the workshop's folder ({refused.Message.ReplaceLineEndings(" ").TrimEnd('.')}).",
                "Name a folder that is yours after --data, or bring this one back from a backup."
            );
        }
    }

    /// <summary>Keeps a job in place of an earlier one of the same name: all of it or nothing.</summary>
    /// <param name="job">Its figures.</param>
    /// <param name="findingsJson">Its findings.</param>
    /// <param name="files">Name and content of its files.</param>
    /// <param name="tickets">Its tickets.</param>
    public void Keep(
        StoredJob job,
        string findingsJson,
        IReadOnlyDictionary<string, byte[]> files,
        IEnumerable<StoredTicket> tickets
    )
    {
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(files);
        lock (_writing)
        {
            using var db = Db();
            JobWriter.Keep(db, _content, job, findingsJson, files, tickets);
        }
    }

    /// <summary>All jobs: the first due first.</summary>
    public IReadOnlyList<StoredJob> Jobs()
    {
        using var db = Db();
        return JobReader.All(db);
    }

    /// <summary>A job with all that belongs to it; null when there is none of that name.</summary>
    public StoredOrder? Order(string name)
    {
        using var db = Db();
        return JobReader.One(db, name);
    }

    /// <summary>What the page of a ticket shows, as JSON; null when there is none.</summary>
    public string? Ticket(string job, int number)
    {
        using var db = Db();
        return JobReader.Ticket(db, job, number);
    }

    /// <summary>Content of a job's file; null when there is no such file.</summary>
    public byte[]? Content(string job, string file)
    {
        using var db = Db();
        return JobReader.Hash(db, job, file) is { } hash ? _content.Get(hash) : null;
    }

    /// <summary>A second store with all that this one holds now, in a folder that must not be there yet; it opens like any other.</summary>
    public Fault? Backup(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        var target = Path.GetFullPath(path);
        var beside = $"{target.TrimEnd(Path.DirectorySeparatorChar)}.making-{Guid.NewGuid():n}";
        try
        {
            if (Path.Exists(target))
            {
                return new Fault(path, "is there already.", "Name a new folder: a backup never overwrites another.");
            }

            lock (_writing)
            {
                Directory.CreateDirectory(beside);
                using var db = Db();
                db.Database.ExecuteSql($"VACUUM INTO {Path.Combine(beside, DatabaseName)}");
                foreach (var hash in db.Files.Select(f => f.Hash).Distinct().ToArray())
                {
                    _content.CopyTo(Path.Combine(beside, FilesName), hash);
                }
            }

            Directory.Move(beside, target);
            return null;
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException or SqliteException)
        {
            return new Fault(
                path,
                $"cannot take the backup ({refused.Message.ReplaceLineEndings(" ").TrimEnd('.')}).",
                "Name a new folder where there is room."
            );
        }
        finally
        {
            if (Directory.Exists(beside))
            {
                Directory.Delete(beside, recursive: true);
            }
        }
    }

    // Customers' names stand in it: a new folder is for its owner alone.
    private static void MakeFolder(string folder)
    {
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(folder);
        }
        else
        {
            Directory.CreateDirectory(
                folder,
                UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute
            );
        }
    }

    private WorkshopDb Db() => WorkshopDb.In(_database);
}
