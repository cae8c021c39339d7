using System.Data.Common;
using Coldpeel.Workshop.Findings;
using Microsoft.Data.Sqlite;
using Npgsql;

namespace Coldpeel.Storage;

/// <summary>What keeps a store from writing, in a sentence.</summary>
public static class StoreTrouble
{
    // https://sqlite.org/rescode.html
    private const int SqliteBusy = 5;
    private const int SqliteReadOnly = 8;
    private const int SqliteInputOutput = 10;
    private const int SqliteCorrupt = 11;
    private const int SqliteFull = 13;
    private const int SqliteCannotOpen = 14;

    // errno ENOSPC and EDQUOT of Linux and macOS, ERROR_HANDLE_DISK_FULL and ERROR_DISK_FULL of Windows as HRESULT.
    private static readonly int[] FullDisk = [28, 122, 69, unchecked((int)0x80070027), unchecked((int)0x80070070)];

    // EROFS of Linux and macOS, ERROR_WRITE_PROTECT of Windows as HRESULT.
    private static readonly int[] LockedDisk = [30, unchecked((int)0x80070013)];

    /// <summary>The trouble behind an exception; null when it is none of the disk or the database.</summary>
    public static Fault? Of(Exception? exception)
    {
        for (var at = exception; at is not null; at = at.InnerException)
        {
            if (Told(at) is { } fault)
            {
                return fault;
            }
        }

        return null;
    }

    /// <summary>Whether the disk is full: room helps, nothing else.</summary>
    public static bool IsFull(Exception? exception)
    {
        for (var at = exception; at is not null; at = at.InnerException)
        {
            if (
                at is SqliteException { SqliteErrorCode: SqliteFull }
                || at is PostgresException { SqlState: PostgresErrorCodes.DiskFull }
                || (at is IOException && FullDisk.Contains(at.HResult))
            )
            {
                return true;
            }
        }

        return false;
    }

    private static Fault? Told(Exception exception) =>
        exception switch
        {
            _ when IsFull(exception) => new(
                "The workshop's disk",
                "is full, so nothing of this was kept.",
                "Make room on it and do it again; what was kept before is safe."
            ),
            SqliteException { SqliteErrorCode: SqliteReadOnly } or UnauthorizedAccessException => OnlyRead(),
            IOException when LockedDisk.Contains(exception.HResult) => OnlyRead(),
            SqliteException { SqliteErrorCode: SqliteCannotOpen } => new(
                "The workshop's database",
                "cannot be opened to write, so nothing of this was kept.",
                "See that its folder is there and that the program may write into it, and do it again."
            ),
            SqliteException { SqliteErrorCode: SqliteBusy } => new(
                "The workshop's database",
                "is held by another program, so nothing of this was kept.",
                "Close what else has workshop.db open, and do it again."
            ),
            SqliteException { SqliteErrorCode: SqliteCorrupt } => new(
                "The workshop's database",
                "is damaged.",
                "Bring the workshop back from a backup: coldpeel restore BACKUP.zip --data NEW-FOLDER."
            ),
            SqliteException { SqliteErrorCode: SqliteInputOutput } or IOException => new(
                "The workshop's disk",
                $"refused it ({exception.Message.ReplaceLineEndings(" ").TrimEnd('.')}), so nothing of this was kept.",
                "See that the disk is there and sound, and do it again."
            ),
            NpgsqlException or DbException { IsTransient: true } => new(
                "The database",
                $"refused it ({exception.Message.ReplaceLineEndings(" ").TrimEnd('.')}), so nothing of this was kept.",
                "See that PostgreSQL runs, and do it again."
            ),
            _ => null,
        };

    private static Fault OnlyRead() =>
        new(
            "The workshop's folder",
            "can only be read, so nothing of this was kept.",
            "Let the program write there again, and do it once more."
        );
}
