using Coldpeel.Storage.Database;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace Coldpeel.Storage;

/// <summary>The way into the database: many read, one writes, and what is written together stands together.</summary>
internal sealed class StoreDoor(Func<WorkshopDb> open)
{
    private readonly Lock _writing = new();

    public T Read<T>(Func<WorkshopDb, T> read)
    {
        using var db = open();
        try
        {
            // Once for all of it: opened anew for every question, a connection is fitted with its functions and stripped of them each time.
            db.Database.OpenConnection();
            return read(db);
        }
        catch (Exception trouble) when (LetGo(db, trouble))
        {
            throw;
        }
    }

    /// <summary>All of it or nothing: it is on the disk when this returns.</summary>
    public T Write<T>(Func<WorkshopDb, T> write)
    {
        lock (_writing)
        {
            return Read(db =>
            {
                using var whole = db.Database.BeginTransaction();
                var written = write(db);
                db.SaveChanges();
                whole.Commit();
                return written;
            });
        }
    }

    /// <summary>While nobody writes.</summary>
    public T Still<T>(Func<WorkshopDb, T> read)
    {
        lock (_writing)
        {
            return Read(read);
        }
    }

    // A connection that was opened while the disk was locked can only read for good, and the pool would hand it out again.
    private static bool LetGo(WorkshopDb db, Exception trouble)
    {
        if (db.Database.GetDbConnection() is SqliteConnection connection && StoreTrouble.Of(trouble) is not null)
        {
            SqliteConnection.ClearPool(connection);
        }

        return false;
    }
}
