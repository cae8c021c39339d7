using System.Data.Common;
using Coldpeel.Storage.Artwork;
using Coldpeel.Storage.Backup;
using Coldpeel.Storage.Content;
using Coldpeel.Storage.Database;
using Coldpeel.Storage.History;
using Coldpeel.Storage.Orders;
using Coldpeel.Storage.Press;
using Coldpeel.Storage.Rooms;
using Coldpeel.Storage.Shelf;
using Coldpeel.Workshop.Findings;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace Coldpeel.Storage;

/// <summary>All that a workshop keeps: one SQLite file or a PostgreSQL database, and file content by its hash in a folder.</summary>
/// <remarks>One store at a time writes to a folder; within it calls may come from many threads.</remarks>
public sealed class WorkshopStore : IDisposable
{
    internal const string DatabaseName = "workshop.db";
    internal const string FilesName = "files";

    private readonly string? _postgres;
    private readonly string _database;
    private readonly ContentFolder _content;
    private readonly Func<WorkshopDb> _lent;
    private readonly StoreDoor _door;
    private volatile bool _isClosed;

    private WorkshopStore(string folder, string? postgres)
    {
        (Folder, _postgres) = (folder, postgres);
        _database = Path.Combine(folder, DatabaseName);
        _content = new ContentFolder(Path.Combine(folder, FilesName));
        _lent = WorkshopDb.Lent(_database, postgres);
        _door = new StoreDoor(_lent);
        Bench = new BenchBook(_door);
        Marks = new OrderMarks(_door);
        History = new ChangeBook(_door);
        Shelf = new ShelfBook(_door);
        Outcomes = new OutcomeBook(_door);
        Artwork = new ArtworkBook(_door);
        Rooms = new RoomBook(_door);
        Programs = new ProgramBook(_door);
    }

    /// <summary>Where it stands.</summary>
    public string Folder { get; }

    /// <summary>Days at the bench.</summary>
    public BenchBook Bench { get; }

    /// <summary>How far the orders have come.</summary>
    public OrderMarks Marks { get; }

    /// <summary>Who changed what, and when.</summary>
    public ChangeBook History { get; }

    /// <summary>What lies on the shelf.</summary>
    public ShelfBook Shelf { get; }

    /// <summary>How pieces came out.</summary>
    public OutcomeBook Outcomes { get; }

    /// <summary>Artwork of all orders.</summary>
    public ArtworkBook Artwork { get; }

    /// <summary>Devices and settings.</summary>
    public RoomBook Rooms { get; }

    /// <summary>Other programs.</summary>
    public ProgramBook Programs { get; }

    /// <summary>What the check at the start found wrong; null while nothing was.</summary>
    public Fault? Damage { get; private set; }

    /// <summary>Opens the store in a folder, making it where there is none, and brings it up to this program's form.</summary>
    /// <param name="folder">Where file content stands, and the SQLite file.</param>
    /// <param name="postgres">Connection string of a PostgreSQL database that takes the place of the SQLite file; null for none.</param>
    /// <param name="look">Looks at what an earlier version has kept (<see cref="LookOver"/>); null where nobody lists it.</param>
    public static Outcome<WorkshopStore> Open(
        string folder,
        string? postgres = null,
        Func<StoredContent, StoredLook>? look = null
    )
    {
        ArgumentException.ThrowIfNullOrEmpty(folder);
        try
        {
            var store = new WorkshopStore(Path.GetFullPath(folder), postgres);
            StoreFolder.Make(store.Folder);
            StoreFolder.TryWriting(store.Folder);
            using var db = store._lent();
            var isThere = postgres is not null ? db.Database.CanConnect() : File.Exists(store._database);
            if (isThere && postgres is null && store.Check(db) is { } damaged)
            {
                return damaged;
            }

            var form = new FormOfStore(db, isThere);
            if (form.IsNewer)
            {
                return new Fault(
                    postgres is null ? store._database : "The database",
                    "was written by a newer Coldpeel.",
                    "Open it with that one, or name another folder after --data."
                );
            }

            if (form.Lacks)
            {
                db.Database.Migrate();
            }

            if (postgres is null)
            {
                // Readers never wait for a writer, and a commit is on the disk when it returns.
                Pragma.Ask(db, "journal_mode=WAL");
            }

            if (look is not null)
            {
                store.LookOver(look);
            }

            return store;
        }
        catch (Exception refused)
            when (postgres is not null && refused is DbException or ArgumentException or InvalidOperationException)
        {
            return new Fault(
                "The database",
                $"cannot be opened ({refused.Message.ReplaceLineEndings(" ").TrimEnd('.')}).",
                "See that PostgreSQL runs and that the connection string names it."
            );
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

    /// <summary>Keeps a job in place of an earlier one of the same name: all of it or nothing. The earlier one goes into the history.</summary>
    /// <param name="job">Its figures.</param>
    /// <param name="findingsJson">Its findings.</param>
    /// <param name="files">Name and content of its files.</param>
    /// <param name="tickets">Its tickets.</param>
    /// <param name="who">Who keeps it.</param>
    public void Keep(
        StoredJob job,
        string findingsJson,
        IReadOnlyDictionary<string, byte[]> files,
        IEnumerable<StoredTicket> tickets,
        string who = ""
    ) => Keep(job, findingsJson, files, tickets, new KeepNote(who));

    /// <summary>The same with what was changed, and perhaps with a step back to the beginning of its way: all of it or nothing. False where what it was made of does not hold any more.</summary>
    public bool Keep(
        StoredJob job,
        string findingsJson,
        IReadOnlyDictionary<string, byte[]> files,
        IEnumerable<StoredTicket> tickets,
        KeepNote note
    )
    {
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(files);
        // Content first: a row must never name content that is not there. What a failure leaves behind is content without a name.
        var rows = files
            .Select(f => new KeptFileRow
            {
                Name = f.Key,
                Hash = _content.Put(f.Value),
                Bytes = f.Value.Length,
            })
            .ToArray();
        return _door.Write(db =>
            note.StillHolds?.Invoke() is not false && JobWriter.Keep(db, job, findingsJson, rows, tickets, note) > 0
        );
    }

    /// <summary>All jobs: the first due first.</summary>
    public IReadOnlyList<StoredJob> Jobs() => _door.Read(JobReader.All);

    /// <summary>Some jobs, the first due first, from a key on.</summary>
    public IReadOnlyList<StoredJob> Jobs(JobAsk ask) => _door.Read(db => JobReader.Some(db, ask));

    /// <summary>A job with all that belongs to it; null when there is none of that name.</summary>
    public StoredOrder? Order(string name) => _door.Read(db => JobReader.One(db, name));

    /// <summary>What the page of a ticket shows, as JSON; null when there is none.</summary>
    public string? Ticket(string job, int number) => _door.Read(db => JobReader.Ticket(db, job, number));

    /// <summary>Which of those jobs have a file of that name.</summary>
    public IReadOnlySet<string> Having(IReadOnlyCollection<string> jobs, string file) =>
        _door.Read(db => JobReader.Having(db, jobs, file));

    /// <summary>Content of a job's file; null when there is no such file.</summary>
    public byte[]? Content(string job, string file) =>
        _door.Read(db => JobReader.Hash(db, job, file)) is { } hash ? _content.Get(hash) : null;

    /// <summary>Hash of a job's file; null when there is no such file.</summary>
    public string? Hash(string job, string file) => _door.Read(db => JobReader.Hash(db, job, file));

    /// <summary>The paper that a step of the job was taken on, as it was then; null when no step was taken on one of that hash.</summary>
    public byte[]? Proof(string job, string hash) =>
        Marks.Of(job).Any(m => m.Proof == hash) ? _content.Get(hash) : null;

    /// <summary>The version of a job that stood before the one that is kept, where the content of all its files is still there; else null.</summary>
    public StoredVersion? VersionBefore(string job) =>
        _door.Read(db => JobVersions.Before(db, job)) is { } version
        && version.Hashes.Values.Distinct().All(_content.Has)
            ? version
            : null;

    /// <summary>Puts that version in the place of the one that is kept, as it was; false when another one stands before it by now.</summary>
    /// <param name="job">The job.</param>
    /// <param name="number">The version.</param>
    /// <param name="at">When.</param>
    /// <param name="note">What is noted.</param>
    /// <param name="look">Looks at a version that was kept before anybody did.</param>
    public bool PutBack(string job, long number, DateTimeOffset at, KeepNote note, Func<StoredContent, StoredLook> look)
    {
        var atMs = at.ToUnixTimeMilliseconds();
        return _door.Write(db =>
            JobVersions.PutBack(db, job, number, note, atMs, row => look(OldLooks.ContentOf(row, row.Files, _content)))
        );
    }

    /// <summary>Looks over all that an earlier version has kept, once: what lists show of it and find it by. It ends at once where that was done.</summary>
    public void LookOver(Func<StoredContent, StoredLook> look)
    {
        if (Rooms.Setting(OldLooks.Done) is null)
        {
            OldLooks.Fill(_door, _content, look);
            Rooms.Forget();
        }
    }

    /// <summary>Keeps content that a step is about to name, and gives its hash.</summary>
    public string Put(byte[] content) => _content.Put(content);

    /// <summary>The hash under which that content is kept, or would be.</summary>
    public static string HashOf(byte[] content) => ContentFolder.HashOf(content);

    /// <summary>A second store with all that this one holds now, in one file (ZIP) that must not be there yet. People go on working meanwhile.</summary>
    public Fault? Backup(string path) => BackupFile.Write(path, _door, _content);

    /// <summary>Puts all that a backup holds in the place of all that is here, or changes nothing.</summary>
    public Fault? Restore(string path)
    {
        var fault = BackupFile.Read(path, Folder, _door, _content);
        Rooms.Forget();
        return fault;
    }

    /// <summary>Everything as JSON, and each table as CSV, into a folder that must not be there yet.</summary>
    public Fault? Export(string path) => ExportFolder.Write(path, _door, _content);

    /// <summary>Lets go of the database file.</summary>
    public void Dispose()
    {
        _isClosed = true;
        if (_postgres is null)
        {
            using var connection = new SqliteConnection(WorkshopDb.Connection(_database, pooled: true));
            SqliteConnection.ClearPool(connection);
        }
    }

    private Fault? Check(WorkshopDb db) =>
        new PageCheck(_database).AtStart(db, () => _isClosed, damage => Damage = damage);
}
