using Coldpeel.Desk.Artwork;
using Coldpeel.Desk.Orders;
using Coldpeel.Storage.Database;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;

namespace Coldpeel.Desk.Tests.Storage;

/// <summary>A store that the version before this one has written is opened by this one.</summary>
public sealed class OldStoreTests(Postgres postgres) : IClassFixture<Postgres>, IDisposable
{
    // The last migration before words were folded and artwork had rows of its own.
    private const string Before = "Scarce";

    private readonly string _folder = Place.NewFolder();

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Theory]
    [InlineData("SQLite")]
    [InlineData("PostgreSQL")]
    public void Its_orders_and_things_are_found_by_words_without_marks(string kind)
    {
        var database = kind == "SQLite" ? null : postgres.NewDatabase();
        using (
            var db = database is null ? WorkshopDb.In(Path.Combine(_folder, "workshop.db")) : PostgresDb.At(database)
        )
        {
            var last = db.Database.GetMigrations().Single(m => m.EndsWith("_" + Before, StringComparison.Ordinal));
            db.GetService<IMigrator>().Migrate(last);
            for (var i = 1; i <= 450; i++)
            {
                db.Database.ExecuteSql(
                    $"""
                    INSERT INTO jobs ("Name", "Customer", "Due", "MadeAtMs", "Stopped", "Warnings", "FindingsJson", "Stage", "Sought")
                    VALUES ({$"AR-{i:000}"}, {$"Müller {i}"}, {new DateOnly(
                        2027,
                        5,
                        21
                    )}, {1_795_600_000_000L}, {false}, {0}, {"[]"}, {"Approved"}, {$"ar-{i:000} müller {i}"})
                    """
                );
            }

            db.Database.ExecuteSql(
                $"""
                INSERT INTO order_marks ("Job", "Step", "AtMs", "Who", "Note") VALUES ({"AR-007"}, {"Approve"}, {1_795_600_000_000L}, {"Mira"}, {"Zoë Groß, by letter"})
                """
            );
            db.Database.ExecuteSql(
                $"""
                INSERT INTO stock ("Kind", "Name", "Place", "Unit", "Count", "Least", "Sought") VALUES ({"Sheet"}, {"Folie Grün"}, {"Ständer"}, {"sheets"}, {1000L}, {0L}, {"folie grün ständer"})
                """
            );
        }

        using var workshop = OpenWorkshop.Run(_folder, TimeProvider.System, database).Value!;
        var list = new ListJobs(workshop);
        Assert.Equal(["AR-007"], list.Page("zoe gross", true, null).Lines.Select(l => l.Name));
        Assert.Equal(["AR-450"], list.Page("MUELLER 450", true, null).Lines.Select(l => l.Name));
        Assert.Equal(50, list.Page("muller", false, null).Lines.Length);
        Assert.Single(new Coldpeel.Desk.Shelf.TendShelf(workshop).Page("grun", 0).Lines);
        Assert.Empty(new ListArtwork(workshop).Page("", null).Lines);
    }
}
