using Coldpeel.Storage.Database;

namespace Coldpeel.Storage;

/// <summary>The way into the database: many read, one writes, and what is written together stands together.</summary>
internal sealed class StoreDoor(Func<WorkshopDb> open)
{
    private readonly Lock _writing = new();

    public T Read<T>(Func<WorkshopDb, T> read)
    {
        using var db = open();
        return read(db);
    }

    /// <summary>All of it or nothing: it is on the disk when this returns.</summary>
    public T Write<T>(Func<WorkshopDb, T> write)
    {
        lock (_writing)
        {
            using var db = open();
            using var whole = db.Database.BeginTransaction();
            var written = write(db);
            db.SaveChanges();
            whole.Commit();
            return written;
        }
    }

    /// <summary>While nobody writes.</summary>
    public T Still<T>(Func<WorkshopDb, T> read)
    {
        lock (_writing)
        {
            using var db = open();
            return read(db);
        }
    }
}
