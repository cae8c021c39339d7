using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Migrations;

namespace Coldpeel.Storage.Database;

/// <summary>Finds a part of a word among 100,000 in SQLite without reading them all: an index of every three letters that stand together, kept by triggers.</summary>
/// <remarks>SQLite, "FTS5", section 4.3.4, the trigram tokenizer. PostgreSQL reads the column instead: its index of that kind is an
/// extension that not every server may load. A migration that builds such a table anew loses its triggers and must call <see cref="Make"/> again.</remarks>
internal static class WordIndex
{
    private const int Letters = 3;

    /// <summary>Numbers of the rows whose <c>Sought</c> holds those words; null where the index cannot tell, and the column must be read.</summary>
    /// <param name="db">The database.</param>
    /// <param name="table">"jobs" or "stock".</param>
    /// <param name="sought">As <see cref="Sought.Of"/> gives it.</param>
    public static IQueryable<int>? Find(WorkshopDb db, string table, string sought)
    {
        if (db is PostgresDb || new StringInfo(sought).LengthInTextElements < Letters)
        {
            return null;
        }

        // A phrase of the index: all letters of it, in order, side by side.
        var phrase = $"\"{sought.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
        return table switch
        {
            "jobs" => db.Database.SqlQuery<int>(
                $"SELECT CAST(rowid AS INTEGER) AS Value FROM jobs_sought WHERE jobs_sought MATCH {phrase}"
            ),
            "stock" => db.Database.SqlQuery<int>(
                $"SELECT CAST(rowid AS INTEGER) AS Value FROM stock_sought WHERE stock_sought MATCH {phrase}"
            ),
            _ => throw new ArgumentException("No words are looked for in it.", nameof(table)),
        };
    }

    /// <summary>Makes the index of a table out of what it holds, and keeps it in step from then on.</summary>
    public static void Make(MigrationBuilder migration, string table)
    {
        var index = $"{table}_sought";
        migration.Sql(
            $"""CREATE VIRTUAL TABLE "{index}" USING fts5("Sought", content='{table}', content_rowid='Id', tokenize='trigram case_sensitive 1');"""
        );
        migration.Sql($"""INSERT INTO "{index}"("{index}") VALUES ('rebuild');""");
        var take = $"""INSERT INTO "{index}"("{index}", rowid, "Sought") VALUES ('delete', old."Id", old."Sought");""";
        var put = $"""INSERT INTO "{index}"(rowid, "Sought") VALUES (new."Id", new."Sought");""";
        migration.Sql($"""CREATE TRIGGER "{index}_in" AFTER INSERT ON "{table}" BEGIN {put} END;""");
        migration.Sql($"""CREATE TRIGGER "{index}_out" AFTER DELETE ON "{table}" BEGIN {take} END;""");
        migration.Sql($"""CREATE TRIGGER "{index}_on" AFTER UPDATE OF "Sought" ON "{table}" BEGIN {take} {put} END;""");
    }

    /// <summary>Takes the index away.</summary>
    public static void Drop(MigrationBuilder migration, string table)
    {
        foreach (var ending in new[] { "in", "out", "on" })
        {
            migration.Sql($"""DROP TRIGGER "{table}_sought_{ending}";""");
        }

        migration.Sql($"""DROP TABLE "{table}_sought";""");
    }
}
