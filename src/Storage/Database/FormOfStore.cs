using Microsoft.EntityFrameworkCore;

namespace Coldpeel.Storage.Database;

/// <summary>Which migrations a database has been through, and which it still lacks.</summary>
internal sealed class FormOfStore
{
    private readonly string[] _known;
    private readonly string[] _applied;

    /// <summary>Reads it.</summary>
    /// <param name="db">The database.</param>
    /// <param name="isThere">Whether there is one yet.</param>
    public FormOfStore(WorkshopDb db, bool isThere)
    {
        _known = [.. db.Database.GetMigrations()];
        _applied =
            !isThere ? []
            : db is PostgresDb ? [.. db.Database.GetAppliedMigrations()]
            : Applied(db);
    }

    /// <summary>Whether a newer program has written it.</summary>
    public bool IsNewer => _applied.Except(_known).Any();

    /// <summary>Whether a migration is still to be made.</summary>
    public bool Lacks => _known.Except(_applied).Any();

    // The library asks the same by way of a model of its own, which takes longer than all the rest of the opening.
    private static string[] Applied(WorkshopDb db)
    {
        db.Database.OpenConnection();
        try
        {
            using var command = db.Database.GetDbConnection().CreateCommand();
            command.CommandText = "SELECT 1 FROM sqlite_schema WHERE name = '__EFMigrationsHistory'";
            if (command.ExecuteScalar() is null)
            {
                return [];
            }

            command.CommandText = "SELECT \"MigrationId\" FROM \"__EFMigrationsHistory\"";
            using var rows = command.ExecuteReader();
            var applied = new List<string>();
            while (rows.Read())
            {
                applied.Add(rows.GetString(0));
            }

            return [.. applied];
        }
        finally
        {
            db.Database.CloseConnection();
        }
    }
}
