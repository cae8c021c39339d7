using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Migrations;

namespace Coldpeel.Storage.Database;

/// <summary>Finds a part of a word among 100,000 without reading them all: an index of every three letters that stand together.</summary>
/// <remarks>In SQLite a table kept by triggers (SQLite, "FTS5", section 4.3.4, the trigram tokenizer): a migration that builds the table anew loses its triggers and must
/// call <see cref="Make"/> again. In PostgreSQL an inverted index (GIN) over a function of our own, for the extension that does the same is not one that every server may load.</remarks>
internal static class WordIndex
{
    // As many numbers as a question may hold without becoming slow itself.
    private const int Few = 2000;

    private const int Letters = 3;

    /// <summary>Numbers of the rows whose <c>Sought</c> holds those words; null where the index cannot tell, and the column must be read.</summary>
    /// <param name="db">The database.</param>
    /// <param name="table">"jobs", "stock" or "artworks".</param>
    /// <param name="sought">As <see cref="Sought.Asked"/> gives it.</param>
    public static IQueryable<int>? Find(WorkshopDb db, string table, string sought) =>
        new StringInfo(sought).LengthInTextElements < Letters ? null
        : db is PostgresDb ? Threes(db, table, sought)
        // A phrase of the index: all letters of it, in order, side by side.
        : Phrase(db, table, $"\"{sought.Replace("\"", "\"\"", StringComparison.Ordinal)}\"");

    /// <summary>Those rows whose <c>Sought</c> holds those words.</summary>
    /// <param name="db">The database.</param>
    /// <param name="table">As for <see cref="Find"/>.</param>
    /// <param name="rows">Rows of that table.</param>
    /// <param name="sought">As <see cref="Sought.Asked"/> gives it.</param>
    public static IQueryable<TRow> Among<TRow>(WorkshopDb db, string table, IQueryable<TRow> rows, string sought)
        where TRow : class, IFoundByWords
    {
        if (Ending(db, table, sought) is { } ending)
        {
            return rows.Where(r => EF.Parameter(ending).Contains(r.Id) && r.Sought.Contains(sought));
        }

        // Without the index of letters the column alone is a tenth of the table, and few rows are left then.
        var found = Find(db, table, sought) ?? db.Set<TRow>().Where(r => r.Sought.Contains(sought)).Select(r => r.Id);
        var few = found.Take(Few + 1).ToArray();
        return few.Length <= Few
                // As one parameter: a question with a place for each number would be composed anew for every count of them.
                ? rows.Where(r => EF.Parameter(few).Contains(r.Id))
            : db is PostgresDb
                // So many that some stand on every page: read in the order of the list, they are soon enough.
                ? rows.Where(r => r.Sought.Contains(sought))
            : rows.Where(r => found.Contains(r.Id));
    }

    // Rows with the last three letters alone, where they are few: what is asked for mostly differs at its end (a number, "halloway 42"), and SQLite follows a
    // phrase through the rows of all its threes, of which the first may stand everywhere. PostgreSQL begins with the rarest by itself.
    private static int[]? Ending(WorkshopDb db, string table, string sought)
    {
        var starts = StringInfo.ParseCombiningCharacters(sought);
        if (db is PostgresDb || starts.Length <= Letters)
        {
            return null;
        }

        var ending = Find(db, table, sought[starts[^Letters]..])!.Take(Few + 1).ToArray();
        return ending.Length <= Few ? ending : null;
    }

    private static IQueryable<int> Phrase(WorkshopDb db, string table, string phrase) =>
        table switch
        {
            "jobs" => db.Database.SqlQuery<int>(
                $"SELECT CAST(rowid AS INTEGER) AS Value FROM jobs_sought WHERE jobs_sought MATCH {phrase}"
            ),
            "stock" => db.Database.SqlQuery<int>(
                $"SELECT CAST(rowid AS INTEGER) AS Value FROM stock_sought WHERE stock_sought MATCH {phrase}"
            ),
            "artworks" => db.Database.SqlQuery<int>(
                $"SELECT CAST(rowid AS INTEGER) AS Value FROM artworks_sought WHERE artworks_sought MATCH {phrase}"
            ),
            _ => throw new ArgumentException("No words are looked for in it.", nameof(table)),
        };

    // The index finds the rows with all threes, wherever they stand; of those the words themselves are read.
    private static IQueryable<int> Threes(WorkshopDb db, string table, string sought) =>
        table switch
        {
            "jobs" => db.Database.SqlQuery<int>(
                $"""SELECT "Id" AS "Value" FROM jobs WHERE coldpeel_threes("Sought") @> coldpeel_threes({sought}) AND strpos("Sought", {sought}) > 0"""
            ),
            "stock" => db.Database.SqlQuery<int>(
                $"""SELECT "Id" AS "Value" FROM stock WHERE coldpeel_threes("Sought") @> coldpeel_threes({sought}) AND strpos("Sought", {sought}) > 0"""
            ),
            "artworks" => db.Database.SqlQuery<int>(
                $"""SELECT "Id" AS "Value" FROM artworks WHERE coldpeel_threes("Sought") @> coldpeel_threes({sought}) AND strpos("Sought", {sought}) > 0"""
            ),
            _ => throw new ArgumentException("No words are looked for in it.", nameof(table)),
        };

    /// <summary>Makes the function that the index of PostgreSQL is of; it is told to be dear, so that the index is asked and not the function of every row.</summary>
    public static void MakeThrees(MigrationBuilder migration) =>
        migration.Sql(
            """
            CREATE FUNCTION coldpeel_threes(words text) RETURNS text[] LANGUAGE sql IMMUTABLE STRICT PARALLEL SAFE COST 1000 AS
            $$ SELECT ARRAY(SELECT substr(words, i, 3) FROM generate_series(1, length(words) - 2) AS i) $$;
            """
        );

    /// <summary>Makes the index of a table in PostgreSQL.</summary>
    public static void MakeThrees(MigrationBuilder migration, string table) =>
        migration.Sql($"""CREATE INDEX "IX_{table}_threes" ON "{table}" USING gin (coldpeel_threes("Sought"));""");

    /// <summary>Takes the index of a table in PostgreSQL away.</summary>
    public static void DropThrees(MigrationBuilder migration, string table) =>
        migration.Sql($"""DROP INDEX "IX_{table}_threes";""");

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
