using Coldpeel.Storage.Database;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Storage;

/// <summary>The database library's own check of its pages: one that the disk has spoilt is told before anybody builds on it. A PostgreSQL server checks its own.</summary>
/// <param name="database">The SQLite file.</param>
internal sealed class PageCheck(string database)
{
    // Checking a database of this size takes well under a second; a larger one is checked while people already work.
    private const long QuickToCheck = 64_000_000;
    private static readonly TimeSpan CheckAfter = TimeSpan.FromSeconds(3);

    /// <summary>What is wrong with a small database; of a large one it is told later.</summary>
    /// <param name="db">The database.</param>
    /// <param name="isClosed">Whether it was let go meanwhile.</param>
    /// <param name="later">Is told what is wrong with a large one; null for nothing.</param>
    public Fault? AtStart(WorkshopDb db, Func<bool> isClosed, Action<Fault?> later)
    {
        if (new FileInfo(database).Length <= QuickToCheck)
        {
            return Check(db);
        }

        _ = Task.Run(async () =>
        {
            // Whoever opens the workshop waits for the first page and has two cores: the check does not take one of them.
            await Task.Delay(CheckAfter);
            if (isClosed())
            {
                return;
            }

            using var own = WorkshopDb.In(database);
            later(Check(own));
        });
        return null;
    }

    private Fault? Check(WorkshopDb db)
    {
        var told = Pragma.Ask(db, "quick_check(1)");
        return told == "ok"
            ? null
            : new Fault(
                database,
                $"is damaged ({told.ReplaceLineEndings(" ")}).",
                "Bring the workshop back from a backup: coldpeel restore BACKUP.zip --data NEW-FOLDER."
            );
    }
}
