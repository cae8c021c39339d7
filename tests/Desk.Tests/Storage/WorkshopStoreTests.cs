using System.Text;
using Coldpeel.Storage;
using Coldpeel.Storage.Orders;
using Microsoft.Data.Sqlite;

namespace Coldpeel.Desk.Tests.Storage;

public sealed class WorkshopStoreTests : IDisposable
{
    private readonly string _folder = Place.NewFolder();

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void A_kept_job_is_read_back_as_it_was_even_by_the_next_run_of_the_program()
    {
        var job = Jobs.Of("AR-1", 0.1m + 0.2m);
        Open().Keep(job, "[]", Jobs.Files(("b.pdf", "two"), ("a.json", "one")), [new(2, "{\"two\":2}"), new(1, "{}")]);

        var order = Open().Order("AR-1")!;
        Assert.Equal(job, order.Job);
        Assert.Equal([new("a.json", 3), new("b.pdf", 3)], order.Files);
        Assert.Equal([new(1, "{}"), new(2, "{\"two\":2}")], order.Tickets);
        Assert.Equal("{\"two\":2}", Open().Ticket("AR-1", 2));
        Assert.Equal("two", Encoding.UTF8.GetString(Open().Content("AR-1", "b.pdf")!));
    }

    [Fact]
    public void A_stopped_job_has_findings_and_no_figures()
    {
        var stopped = Jobs.Of("AR-2") with { Stopped = true, Figures = null };
        Open().Keep(stopped, "[1]", Jobs.Files(("findings.json", "[1]")), []);
        Assert.Equal(stopped, Open().Order("AR-2")!.Job);
        Assert.Equal("[1]", Open().Order("AR-2")!.FindingsJson);
    }

    [Fact]
    public void Keeping_a_job_again_replaces_all_of_it_and_the_earlier_one_stands_in_the_history()
    {
        var store = Open();
        store.Keep(Jobs.Of("AR-1"), "[]", Jobs.Files(("old.pdf", "old"), ("same.pdf", "same")), [new(1, "{}")]);
        store.Keep(Jobs.Of("AR-2"), "[]", Jobs.Files(("shared.pdf", "old too")), []);
        store.Keep(Jobs.Of("AR-1", 99), "[9]", Jobs.Files(("same.pdf", "same"), ("new.pdf", "old too")), [], "Mira");

        var order = store.Order("AR-1")!;
        Assert.Equal(99, order.Job.Figures!.Total);
        Assert.Equal(["new.pdf", "same.pdf"], order.Files.Select(f => f.Name));
        Assert.Empty(order.Tickets);
        Assert.Null(store.Content("AR-1", "old.pdf"));
        Assert.Equal(2, store.Jobs().Count);
        var change = store.History.Of("order", "AR-1", null, 9)[0];
        Assert.Equal(("made again", "Mira"), (change.What, change.Who));
        // What was replaced is still there, with the content that it names.
        Assert.Contains("old.pdf", change.BeforeJson!, StringComparison.Ordinal);
        Assert.Equal(3, ContentFiles(_folder).Length);
    }

    [Fact]
    public void A_job_that_cannot_be_kept_whole_leaves_the_earlier_one_as_it_was()
    {
        var store = Open();
        store.Keep(Jobs.Of("AR-1"), "[]", Jobs.Files(("a.pdf", "first")), [new(1, "{}")]);
        // Two tickets of one number break the table's rule, after the earlier job was taken away in the same transaction.
        Assert.ThrowsAny<Exception>(() =>
            store.Keep(Jobs.Of("AR-1", 1), "[]", Jobs.Files(("a.pdf", "second")), [new(7, "{}"), new(7, "{}")])
        );
        Assert.Equal(12.5m, store.Order("AR-1")!.Job.Figures!.Total);
        Assert.Equal("first", Encoding.UTF8.GetString(store.Content("AR-1", "a.pdf")!));
    }

    [Fact]
    public void Names_are_never_paths_and_never_mixed_up()
    {
        var store = Open();
        File.WriteAllText(Path.Combine(_folder, "secret.txt"), "secret");
        store.Keep(Jobs.Of("a/../b"), "[]", Jobs.Files(("x", "1")), []);
        store.Keep(Jobs.Of("A/../B"), "[]", Jobs.Files(("x", "2")), []);
        Assert.Equal("1", Encoding.UTF8.GetString(store.Content("a/../b", "x")!));
        Assert.Equal("2", Encoding.UTF8.GetString(store.Content("A/../B", "x")!));
        Assert.Null(store.Content("a/../b", "../secret.txt"));
        Assert.Null(store.Content("' OR 1=1 --", "x"));
    }

    // SHA-256 of "abc" as in FIPS 180-2, appendix B.1.
    [Fact]
    public void Content_stands_under_its_SHA_256_hash_and_once_however_often_it_is_kept()
    {
        const string abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        var store = Open();
        store.Keep(Jobs.Of("AR-1"), "[]", Jobs.Files(("a", "abc"), ("b", "abc")), []);
        store.Keep(Jobs.Of("AR-2"), "[]", Jobs.Files(("c", "abc")), []);
        Assert.Equal([Path.Combine(_folder, "files", "ba", abc)], ContentFiles(_folder));
    }

    [Fact]
    public void Content_that_was_changed_on_the_disk_is_never_given_out()
    {
        var store = Open();
        store.Keep(Jobs.Of("AR-1"), "[]", Jobs.Files(("a", "abc")), []);
        File.WriteAllText(ContentFiles(_folder)[0], "abd");
        Assert.Throws<InvalidDataException>(() => store.Content("AR-1", "a"));
    }

    [Fact]
    public void A_job_whose_ground_is_gone_in_the_moment_of_keeping_is_not_kept()
    {
        var store = Open();
        var asked = 0;
        Assert.False(
            store.Keep(
                Jobs.Of("AR-1"),
                "[]",
                Jobs.Files(("a", "abc")),
                [],
                new KeepNote("Mira")
                {
                    StillHolds = () =>
                    {
                        asked++;
                        // What others have written is seen; nobody writes now.
                        return store.Jobs().Count > 0;
                    },
                }
            )
        );
        Assert.Equal(1, asked);
        Assert.Empty(store.Jobs());
        Assert.Empty(store.History.Of("order", "AR-1", null, 10));
        Assert.True(
            store.Keep(
                Jobs.Of("AR-1"),
                "[]",
                Jobs.Files(("a", "abc")),
                [],
                new KeepNote("Mira") { StillHolds = () => true }
            )
        );
        Assert.Single(store.Jobs());
    }

    [Fact]
    public void An_empty_folder_is_brought_to_the_form_by_migrations_and_only_once()
    {
        Open();
        Open();
        var database = Path.Combine(_folder, "workshop.db");
        // Start, Workshop, Programs, Proofs, Words, Work, Again, Scarce, Places.
        Assert.Equal("9", Ask(database, "SELECT count(*) FROM __EFMigrationsHistory"));
        Assert.Equal("wal", Ask(database, "PRAGMA journal_mode"));
        Assert.Equal(
            "files,jobs,tickets",
            Ask(
                database,
                "SELECT group_concat(name, ',') FROM (SELECT name FROM sqlite_schema WHERE type = 'table' AND name IN ('jobs','files','tickets') ORDER BY name)"
            )
        );
        Assert.Equal("ok", Ask(database, "PRAGMA integrity_check"));
    }

    [Fact]
    public void A_store_of_a_newer_program_is_refused_with_one_line()
    {
        Open();
        Ask(
            Path.Combine(_folder, "workshop.db"),
            "INSERT INTO __EFMigrationsHistory VALUES ('29990101000000_Later', '99.0.0')"
        );
        Assert.Contains("newer Coldpeel", WorkshopStore.Open(_folder).Fault!.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_that_cannot_serve_is_refused_with_one_line()
    {
        var file = Path.Combine(_folder, "file");
        File.WriteAllText(file, "");
        Assert.Contains("--data", WorkshopStore.Open(file).Fault!.ToString(), StringComparison.Ordinal);

        var junk = Directory.CreateDirectory(Path.Combine(_folder, "junk")).FullName;
        File.WriteAllText(Path.Combine(junk, "workshop.db"), new string('x', 5000));
        Assert.Contains("--data", WorkshopStore.Open(junk).Fault!.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Many_threads_keep_and_read_at_one_time()
    {
        var store = Open();
        Parallel.For(
            0,
            24,
            i =>
            {
                store.Keep(Jobs.Of($"AR-{i % 6}", i), "[]", Jobs.Files(("a", $"content {i}")), []);
                Assert.NotNull(store.Order($"AR-{i % 6}"));
            }
        );
        Assert.Equal(6, store.Jobs().Count);
        Assert.Equal(24, ContentFiles(_folder).Length);
    }

    [Fact]
    public void A_damaged_database_is_told_before_anybody_builds_on_it()
    {
        using (var store = Open())
        {
            for (var i = 0; i < 60; i++)
            {
                store.Keep(Jobs.Of($"AR-{i}"), new string('x', 2000), Jobs.Files(("a", "abc")), []);
            }
        }

        var file = Path.Combine(_folder, "workshop.db");
        Ask(file, "PRAGMA wal_checkpoint(TRUNCATE)");
        using (var bytes = File.OpenWrite(file))
        {
            bytes.Position = 4096 * 20;
            bytes.Write(new byte[4096 * 10]);
        }

        Assert.Contains("from a backup", WorkshopStore.Open(_folder).Fault!.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_that_can_only_be_read_is_refused_with_one_line()
    {
        Assert.SkipWhen(Environment.UserName == "root", "root may write anywhere.");
        if (OperatingSystem.IsWindows())
        {
            return; // folders have no such mode there
        }

        Open().Dispose();
        File.SetUnixFileMode(_folder, UnixFileMode.UserRead | UnixFileMode.UserExecute);
        try
        {
            Assert.Contains("--data", WorkshopStore.Open(_folder).Fault!.ToString(), StringComparison.Ordinal);
        }
        finally
        {
            File.SetUnixFileMode(_folder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        }
    }

    private WorkshopStore Open() => WorkshopStore.Open(_folder).Value!;

    private static string[] ContentFiles(string folder) =>
        Directory.GetFiles(Path.Combine(folder, "files"), "*", SearchOption.AllDirectories);

    private static string Ask(string database, string question)
    {
        using var connection = new SqliteConnection($"Data Source={database};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = question;
        return Convert.ToString(command.ExecuteScalar(), System.Globalization.CultureInfo.InvariantCulture)!;
    }
}
