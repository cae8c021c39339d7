using System.IO.Compression;
using Coldpeel.Storage.Content;
using Coldpeel.Storage.Database;
using Coldpeel.Workshop.Findings;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace Coldpeel.Storage.Backup;

/// <summary>All of a workshop in one file: a ZIP with a SQLite database and the file content. The same form from every database.</summary>
internal static class BackupFile
{
    // A file of a workshop's size is fine; one that unpacks without end is not.
    private const long MostBytes = 50_000_000_000;

    /// <summary>Writes it beside and moves it in place. Readers and writers of the store go on meanwhile.</summary>
    public static Fault? Write(string path, StoreDoor door, ContentFolder content)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        var target = Path.GetFullPath(path);
        var beside = $"{target}.making-{Guid.NewGuid():n}";
        var copy = $"{beside}.db";
        try
        {
            if (Path.Exists(target))
            {
                return new Fault(path, "is there already.", "Name a new file: a backup never overwrites another.");
            }

            // The database names no reason where it cannot write: a file of ours does.
            File.Create(copy).Dispose();
            File.Delete(copy);

            Database(copy, door);
            using (var file = new FileStream(beside, FileMode.CreateNew))
            {
                using var zip = new ZipArchive(file, ZipArchiveMode.Create, leaveOpen: true);
                zip.CreateEntryFromFile(copy, WorkshopStore.DatabaseName, CompressionLevel.Fastest);
                // Content never changes and is never taken away: what the copied rows name is there.
                foreach (var (hash, from) in content.All())
                {
                    // Papers are compressed already.
                    zip.CreateEntryFromFile(from, $"{WorkshopStore.FilesName}/{hash}", CompressionLevel.NoCompression);
                }
            }

            File.Move(beside, target);
            return null;
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException or SqliteException)
        {
            return new Fault(
                path,
                $"cannot take the backup ({refused.Message.ReplaceLineEndings(" ").TrimEnd('.')}).",
                "Name a new file where there is room."
            );
        }
        finally
        {
            File.Delete(beside);
            File.Delete(copy);
        }
    }

    /// <summary>Puts a backup in the place of all that is here. What was here is kept first, in the folder "backups".</summary>
    public static Fault? Read(string path, string folder, StoreDoor door, ContentFolder content)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        var room = Path.Combine(folder, $".restoring-{Guid.NewGuid():n}");
        try
        {
            Directory.CreateDirectory(room);
            var database = Path.Combine(room, WorkshopStore.DatabaseName);
            if (Unpack(path, database, content) is { } fault)
            {
                return fault;
            }

            using var from = WorkshopDb.In(database);
            if (Unfit(from, path) is { } unfit)
            {
                return unfit;
            }

            if (KeepFirst(folder, door, content) is { } kept)
            {
                return kept;
            }

            door.Write(db =>
            {
                foreach (var table in StoreTable.All.Reverse())
                {
                    table.Clear(db);
                }

                foreach (var table in StoreTable.All)
                {
                    table.Copy(from, db);
                }

                return 0;
            });
            return null;
        }
        catch (InvalidDataException)
        {
            return new Fault(
                path,
                "is no backup, or is damaged.",
                "Nothing was changed. Choose a backup file that this program wrote."
            );
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException or SqliteException)
        {
            return new Fault(
                path,
                $"cannot be brought back ({refused.Message.ReplaceLineEndings(" ").TrimEnd('.')}).",
                "Nothing was changed. Choose a backup file that this program wrote."
            );
        }
        finally
        {
            Directory.Delete(room, recursive: true);
        }
    }

    private static void Database(string copy, StoreDoor door) =>
        door.Read(db =>
        {
            if (db is not PostgresDb)
            {
                return db.Database.ExecuteSql($"VACUUM INTO {copy}");
            }

            using var to = WorkshopDb.In(copy);
            to.Database.Migrate();
            // One instant for all tables.
            using var still = db.Database.BeginTransaction(System.Data.IsolationLevel.RepeatableRead);
            foreach (var table in StoreTable.All)
            {
                table.Copy(db, to);
            }

            return 0;
        });

    private static Fault? Unpack(string path, string database, ContentFolder content)
    {
        using var zip = ZipFile.OpenRead(path);
        if (zip.Entries.Sum(e => e.Length) > MostBytes)
        {
            return new Fault(path, "unpacks to more than 50 GB.", "Choose a backup file that this program wrote.");
        }

        if (zip.GetEntry(WorkshopStore.DatabaseName) is not { } rows)
        {
            return new Fault(path, "holds no workshop.", "Choose a backup file that this program wrote.");
        }

        rows.ExtractToFile(database);
        foreach (
            var entry in zip.Entries.Where(e =>
                e.FullName.StartsWith($"{WorkshopStore.FilesName}/", StringComparison.Ordinal)
            )
        )
        {
            using var stream = entry.Open();
            using var bytes = new MemoryStream();
            stream.CopyTo(bytes);
            // It goes by what it holds, whatever the entry is called.
            if (content.Put(bytes.ToArray()) != entry.Name)
            {
                return new Fault(
                    path,
                    $"has a damaged file in it ({entry.Name}).",
                    "Nothing was changed. Take another backup."
                );
            }
        }

        return null;
    }

    private static Fault? Unfit(WorkshopDb from, string path)
    {
        if (Pragma.Ask(from, "integrity_check(1)") != "ok")
        {
            return new Fault(path, "has a damaged database in it.", "Nothing was changed. Take another backup.");
        }

        if (from.Database.GetAppliedMigrations().Except(from.Database.GetMigrations()).Any())
        {
            return new Fault(
                path,
                "was written by a newer Coldpeel.",
                "Nothing was changed. Bring it back with that one."
            );
        }

        from.Database.Migrate();
        return null;
    }

    private static Fault? KeepFirst(string folder, StoreDoor door, ContentFolder content)
    {
        if (door.Read(db => !db.Changes.Any() && !db.Jobs.Any()))
        {
            return null; // an empty workshop is nothing to lose
        }

        var place = Directory.CreateDirectory(Path.Combine(folder, "backups")).FullName;
        return Write(Path.Combine(place, $"before-restore-{Guid.NewGuid():n}.zip"), door, content);
    }
}
