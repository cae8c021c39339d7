using System.Text;
using System.Text.Json;
using Coldpeel.Storage;
using Coldpeel.Storage.Artwork;
using Coldpeel.Storage.Orders;
using Coldpeel.Storage.Press;
using Coldpeel.Storage.Shelf;

namespace Coldpeel.Desk.Tests.Storage;

/// <summary>What a store promises, on SQLite and on PostgreSQL alike.</summary>
public sealed class BothStoresTests(Postgres postgres) : IClassFixture<Postgres>, IDisposable
{
    private static readonly DateTimeOffset Noon = new(2027, 5, 3, 12, 0, 0, 123, TimeSpan.Zero);

    private readonly string _folder = Place.NewFolder();
    private readonly List<WorkshopStore> _open = [];

    public void Dispose()
    {
        _open.ForEach(s => s.Dispose());
        Directory.Delete(_folder, recursive: true);
    }

    [Theory]
    [InlineData("SQLite")]
    [InlineData("PostgreSQL")]
    public void A_job_is_read_back_as_it_was_and_made_again_keeps_its_way(string kind)
    {
        var store = Open(kind);
        store.Keep(
            Jobs.Of("AR-1"),
            "[1]",
            Jobs.Files(("b.pdf", "two"), ("a.json", "one")),
            [new(2, "{}"), new(1, "{}")],
            "Mira"
        );
        Assert.NotNull(store.Marks.Keep("AR-1", "approve", "approved", Noon, "Mira", "by letter"));
        store.Keep(Jobs.Of("AR-1", 99.995m), "[9]", Jobs.Files(("a.json", "1")), [], "Tove");

        var order = store.Order("AR-1")!;
        Assert.Equal((99.995m, "approved", "[9]"), (order.Job.Figures!.Total, order.Job.Stage, order.FindingsJson));
        Assert.Equal(
            ["made again", "approve: by letter", "made"],
            store.History.Of("order", "AR-1", null, 9).Select(c => c.What)
        );
        var mark = Assert.Single(store.Marks.Of("AR-1"));
        Assert.Equal((Noon, "Mira", "by letter"), (mark.At, mark.Who, mark.Note));
        Assert.Null(store.Marks.Keep("AR-none", "approve", "approved", Noon, "Mira", ""));
    }

    [Theory]
    [InlineData("SQLite")]
    [InlineData("PostgreSQL")]
    public void Lists_go_from_page_to_page_by_key_and_none_is_missed_or_told_twice(string kind)
    {
        var store = Open(kind);
        for (var i = 0; i < 25; i++)
        {
            store.Keep(Jobs.Of($"AR-{i:00}") with { Due = new DateOnly(2027, 5, 1 + (i % 3)) }, "[]", Jobs.Files(), []);
        }

        var names = new List<string>();
        for (JobKey? after = null; ; )
        {
            var page = store.Jobs(new JobAsk { After = after, Most = 7 });
            names.AddRange(page.Select(j => j.Name));
            if (page.Count < 7)
            {
                break;
            }

            after = new(page[^1].Due, page[^1].Name);
        }

        Assert.Equal(store.Jobs().Select(j => j.Name), names);
        Assert.Equal(25, names.Distinct().Count());
    }

    [Theory]
    [InlineData("SQLite")]
    [InlineData("PostgreSQL")]
    public void An_order_is_found_by_a_part_of_its_name_or_customer_whatever_the_case(string kind)
    {
        var store = Open(kind);
        store.Keep(Jobs.Of("Ærø-100%") with { Customer = "ÜBERLINGER Boote" }, "[]", Jobs.Files(), []);
        store.Keep(Jobs.Of("AR-1"), "[]", Jobs.Files(), []);
        foreach (var words in new[] { "ærø", "aero", "überling", "uberling", "UEBERLING", "100%", "BOOTE", "b" })
        {
            Assert.Equal(["Ærø-100%"], store.Jobs(new JobAsk { Words = words }).Select(j => j.Name));
        }

        Assert.Empty(store.Jobs(new JobAsk { Words = "%_%" }));
    }

    [Theory]
    [InlineData("SQLite")]
    [InlineData("PostgreSQL")]
    public void An_order_is_found_by_who_approved_and_received_it_and_by_its_designs_and_files(string kind)
    {
        var store = Open(kind);
        var look = new StoredLook(["Rückenwappen", "Vorlagen/größe-xl.svg"], "[1]", []);
        store.Keep(Jobs.Of("AR-1"), "[]", Jobs.Files(), [], new KeepNote("Mira") { Look = look });
        store.Keep(Jobs.Of("AR-2"), "[]", Jobs.Files(), []);
        store.Marks.Keep("AR-1", "Approve", "Approved", Noon, "Mira", "Jürgen Groß, by letter");
        store.Marks.Keep("AR-1", "Print", "Printed", Noon, "Mira", "the grey film");
        store.Marks.Keep("AR-1", "HandOver", "HandedOver", Noon, "Mira", "Zoë Åkerlund");
        Found();
        Assert.Empty(Names(store, "grey film"));
        Assert.Equal((3, "HandOver"), store.Marks.Last(["AR-1", "AR-2"])["AR-1"]);

        // Made again, what was written at its steps is still known; what it was made of is another thing.
        store.Keep(Jobs.Of("AR-1"), "[]", Jobs.Files(), [], new KeepNote("Mira") { Look = look });
        Found();
        store.Keep(
            Jobs.Of("AR-1"),
            "[]",
            Jobs.Files(),
            [],
            new KeepNote("Mira") { Look = look with { Words = ["x"] } }
        );
        Assert.Empty(Names(store, "wappen"));
        Assert.Equal(["AR-1"], Names(store, "gross"));

        void Found()
        {
            foreach (var words in new[] { "juergen gross", "akerlund", "ZOE", "ruckenwappen", "grosse-xl" })
            {
                Assert.Equal(["AR-1"], Names(store, words));
            }
        }
    }

    [Theory]
    [InlineData("SQLite")]
    [InlineData("PostgreSQL")]
    public void The_same_artwork_stands_once_with_its_orders_counted_and_leaves_with_the_last_of_them(string kind)
    {
        var store = Open(kind);
        for (var i = 1; i <= 7; i++)
        {
            Keep($"AR-{i}", i, ("crest", 'a', "Wappen.svg"), ("crest small", 'a', "Wappen.svg"));
        }

        Keep("AR-8", 8, ("crew", 'b', "crew.svg"));
        Keep("AR-9", 9, ("mark", 'c', "mark.svg"));

        var all = store.Artwork.Some("", null, 10);
        Assert.Equal(
            [("mark.svg", 1, "AR-9"), ("crew.svg", 1, "AR-8"), ("Wappen.svg", 7, "AR-7")],
            all.Select(a => (a.Name, a.Orders, a.Latest.Order))
        );
        Assert.Equal((2, 1, "art.png"), (all[2].Latest.Found, all[2].Latest.Mends, all[2].Latest.Picture));
        // From page to page by key.
        var first = store.Artwork.Some("", null, 2);
        var key = new ArtworkKey(first[1].Last.ToUnixTimeMilliseconds(), first[1].Id);
        Assert.Equal(["Wappen.svg"], store.Artwork.Some("", key, 2).Select(a => a.Name));
        Assert.Equal(["crew.svg"], store.Artwork.Some("CREW", null, 9).Select(a => a.Name));
        Assert.Equal(["Wappen.svg"], store.Artwork.Some("crest sm", null, 9).Select(a => a.Name));
        // Its uses, the order kept last first.
        var uses = store.Artwork.Uses(all[2].Id, null, 3);
        Assert.Equal(["AR-7", "AR-7", "AR-6"], uses.Select(u => u.Order));
        Assert.Equal(11, store.Artwork.Uses(all[2].Id, uses[2].Id, 99).Count);
        // An order that has it no more does not count, and what none has is not told.
        Keep("AR-9", 10, ("mark", 'b', "crew.svg"));
        Assert.Equal(
            [("crew.svg", 2), ("Wappen.svg", 7)],
            store.Artwork.Some("", null, 9).Select(a => (a.Name, a.Orders))
        );
        Assert.Null(store.Artwork.One(all[0].Id));
        Assert.Equal(7, store.Artwork.One(all[2].Id)!.Orders);

        // The version before is put back with the artwork that it had.
        var before = store.VersionBefore("AR-9")!;
        Assert.True(
            store.PutBack("AR-9", before.Number, Noon, new KeepNote("Mira"), _ => throw new InvalidOperationException())
        );
        Assert.Equal(("mark.svg", 1), (store.Artwork.One(all[0].Id)!.Name, store.Artwork.One(all[0].Id)!.Orders));

        void Keep(string name, int at, params (string Design, char Hash, string File)[] designs) =>
            store.Keep(
                Jobs.Of(name) with
                {
                    MadeAt = Noon.AddMinutes(at),
                },
                "[]",
                Jobs.Files(),
                [],
                new KeepNote("Mira")
                {
                    Look = new(
                        [],
                        null,
                        [
                            .. designs
                                .Index()
                                .Select(d => new StoredDesignOfFile(
                                    new string(d.Item.Hash, 64),
                                    d.Item.File,
                                    120,
                                    d.Index + 1,
                                    d.Item.Design,
                                    60,
                                    40.5,
                                    2,
                                    1,
                                    "art.png"
                                )),
                        ]
                    ),
                }
            );
    }

    [Theory]
    [InlineData("SQLite")]
    [InlineData("PostgreSQL")]
    public void What_an_earlier_version_kept_is_looked_over_once(string kind)
    {
        var store = Open(kind);
        store.Keep(Jobs.Of("AR-1"), "[7]", Jobs.Files(("a.svg", "abc")), []);
        store.Marks.Keep("AR-1", "Approve", "Approved", Noon, "Mira", "Jürgen");
        store.Shelf.Keep(new(0, "Sheet", "Folie für Müller", "Ständer", "sheets", 0, 0, null), Noon, "Mira");
        var seen = new List<string>();
        StoredLook Look(StoredContent order)
        {
            var (hash, bytes) = order.Hashes["a.svg"];
            seen.Add($"{order.FindingsJson} {Encoding.UTF8.GetString(order.Read(hash)!)}");
            return new(["Größe"], "[2]", [new(hash, "a.svg", bytes, 1, "crest", 60, 40, 0, 0, "art.png")]);
        }

        store.LookOver(Look);
        Assert.Equal(["[7] abc"], seen);
        Assert.Equal(["AR-1"], Names(store, "grosse"));
        Assert.Equal(["AR-1"], Names(store, "jurgen"));
        Assert.Equal("[2]", store.Jobs()[0].SheetsJson);
        Assert.Equal("crest", Assert.Single(store.Artwork.Some("", null, 9)).Latest.Design);
        Assert.Single(store.Shelf.Some(null, "muller", 0, 9));
        store.LookOver(Look);
        Assert.Single(seen);
    }

    private static IEnumerable<string> Names(WorkshopStore store, string words) =>
        store.Jobs(new JobAsk { Words = words }).Select(j => j.Name);

    [Theory]
    [InlineData("SQLite")]
    [InlineData("PostgreSQL")]
    public void What_was_said_at_the_bench_is_told_in_order_and_a_key_counts_once(string kind)
    {
        var store = Open(kind);
        var day = store.Bench.Open("AR-1", Noon, "{}", "[]");
        var said = new StoredBenchEvent(
            0,
            "key-one-of-many",
            "Done",
            "load polo-1.1",
            0,
            Noon.AddSeconds(3),
            Noon.AddSeconds(90),
            "tablet"
        );
        var first = store.Bench.Keep(day, said);
        var second = store.Bench.Keep(day, said with { Key = "key-two-of-many" });
        Assert.True(second.Number > first.Number);
        Assert.ThrowsAny<Exception>(() => store.Bench.Keep(day, said));
        Assert.Equal([first, second], store.Bench.Events(day));
        Assert.Equal([second], store.Bench.Events(day, first.Number));
        Assert.Equal(said with { Number = first.Number }, first);
        store.Bench.Close(day, Noon);
        Assert.True(store.Bench.IsClosed(day));
        store.Bench.Close(day, null);
        Assert.Null(store.Bench.Day(day)!.Closed);
    }

    [Theory]
    [InlineData("SQLite")]
    [InlineData("PostgreSQL")]
    public void Other_programs_are_answered_the_same_and_told_from_where_they_were(string kind)
    {
        var store = Open(kind);
        store.Keep(Jobs.Of("AR-1"), "[]", Jobs.Files(), []);
        var program = store.Rooms.LetIn("till", "program", new string('a', 64), Noon, "Mira");
        store.Programs.KeepAnswer(program, "order 1", new(new string('b', 64), 201, "{\"é\": 1}"), Noon);
        Assert.Equal(new(new string('b', 64), 201, "{\"é\": 1}"), store.Programs.Answer(program, "order 1"));
        Assert.Null(store.Programs.Answer(program + 1, "order 1"));
        Assert.ThrowsAny<Exception>(() =>
            store.Programs.KeepAnswer(program, "order 1", new(new string('c', 64), 201, "{}"), Noon)
        );

        var hook = store.Programs.AddHook("https://shop.example/coldpeel", "c2VjcmV0", Noon, "Mira");
        var told = Assert.Single(store.Programs.Hooks());
        Assert.Empty(store.History.After("order", told.ToldUpTo, 9));
        store.Keep(Jobs.Of("AR-2"), "[]", Jobs.Files(), []);
        store.Keep(Jobs.Of("AR-1"), "[]", Jobs.Files(), []);
        var waiting = store.History.After("order", told.ToldUpTo, 9);
        Assert.Equal([("AR-2", "made"), ("AR-1", "made again")], waiting.Select(c => (c.Name, c.What)));
        store.Programs.Missed(hook, 3, Noon.AddHours(1), "nobody answered");
        Assert.Equal((3, Noon.AddHours(1)), store.Programs.Hooks().Select(h => (h.Missed, h.Next)).Single());
        store.Programs.Told(hook, waiting[0].Number, "204 NoContent");
        Assert.Equal((0, waiting[0].Number), store.Programs.Hooks().Select(h => (h.Missed, h.ToldUpTo)).Single());
        Assert.True(store.Programs.EndHook(hook, Noon, "Mira"));
        Assert.False(store.Programs.EndHook(hook, Noon, "Mira"));
    }

    [Theory]
    [InlineData("SQLite")]
    [InlineData("PostgreSQL")]
    public void The_shelf_counts_exactly_never_below_zero_and_each_movement_once(string kind)
    {
        var store = Open(kind);
        var id = store.Shelf.Keep(
            new StoredStock(0, "sheet", "A4 film", "drawer 2", "sheets", 0, 20, null),
            Noon,
            "Mira"
        );
        Assert.Equal(10.125m, store.Shelf.Move(id, "key-1", 10.125m, "bought", Noon, "Mira"));
        Assert.Equal(10.125m, store.Shelf.Move(id, "key-1", 10.125m, "bought", Noon, "Mira"));
        Assert.Null(store.Shelf.Move(id, "key-2", -11, "printed", Noon, "Mira"));
        Assert.Equal(9.125m, store.Shelf.Move(id, "key-3", -1, "printed", Noon, "Mira"));
        Assert.Equal([id], store.Shelf.RunningOut(9).Select(s => s.Id));
        Assert.Equal([-1m, 10.125m], store.Shelf.Moves(id, 9).Select(m => m.By));
        Assert.Equal(3, store.History.Of("stock", "A4 film", null, 9).Count);
        Assert.Single(store.Shelf.Some(null, "DRAWER", 0, 9));
    }

    [Theory]
    [InlineData("SQLite")]
    [InlineData("PostgreSQL")]
    public void A_device_that_is_thrown_out_is_known_no_more_but_stays_in_the_list(string kind)
    {
        var store = Open(kind);
        var hash = new string('a', 64);
        var id = store.Rooms.LetIn("tablet", "helper", hash, Noon, "desk");
        Assert.Equal("tablet", store.Rooms.Known(hash)!.Name);
        Assert.True(store.Rooms.ThrowOut(id, Noon.AddHours(1), "desk"));
        Assert.False(store.Rooms.ThrowOut(id, Noon.AddHours(2), "desk"));
        Assert.Null(store.Rooms.Known(hash));
        Assert.Equal(Noon.AddHours(1), store.Rooms.Devices().Single().Out);
        store.Rooms.Set("language", "de", Noon, "desk");
        store.Rooms.Set("language", "en", Noon, "desk");
        Assert.Equal("en", store.Rooms.Setting("language"));
        Assert.Equal("de", store.History.Of("setting", "language", null, 1)[0].BeforeJson);
    }

    [Theory]
    [InlineData("SQLite", "SQLite")]
    [InlineData("SQLite", "PostgreSQL")]
    [InlineData("PostgreSQL", "SQLite")]
    public void A_backup_is_one_file_that_comes_back_whole_in_either_database(string from, string to)
    {
        var store = Open(from);
        store.Keep(Jobs.Of("AR-1"), "[1]", Jobs.Files(("a.pdf", "abc")), [new(1, "{}")], "Mira");
        store.Marks.Keep("AR-1", "approve", "approved", Noon, "Mira", "");
        var day = store.Bench.Open("AR-1", Noon, "{}", "[]");
        store.Bench.Keep(day, new(0, "key-one-of-many", "Done", "x", 0, Noon, Noon, "tablet"));
        var zip = Path.Combine(_folder, "backup.zip");
        Assert.Null(store.Backup(zip));
        Assert.Contains("is there already", store.Backup(zip)!.ToString(), StringComparison.Ordinal);

        var other = Open(to);
        other.Keep(Jobs.Of("AR-other"), "[]", Jobs.Files(("b.pdf", "b")), []);
        Assert.Null(other.Restore(zip));
        Assert.Equal(["AR-1"], other.Jobs().Select(j => j.Name));
        Assert.Equal("abc", Encoding.UTF8.GetString(other.Content("AR-1", "a.pdf")!));
        Assert.Equal(store.Bench.Events(day), other.Bench.Events(day));
        Assert.Equal(store.History.Of(null, null, null, 99), other.History.Of(null, null, null, 99));
        // What stood there before was kept first, and new rows go on after those that came back.
        Assert.Single(Directory.GetFiles(Path.Combine(other.Folder, "backups")));
        other.Keep(Jobs.Of("AR-2"), "[]", Jobs.Files(), []);
        Assert.Equal(2, other.Jobs().Count);
    }

    [Theory]
    [InlineData("SQLite")]
    [InlineData("PostgreSQL")]
    public void What_is_no_backup_changes_nothing(string kind)
    {
        var store = Open(kind);
        store.Keep(Jobs.Of("AR-1"), "[1]", Jobs.Files(("a.pdf", "abc")), []);
        var junk = Path.Combine(_folder, "junk.zip");
        File.WriteAllText(junk, "no archive");
        Assert.Contains("Nothing was changed", store.Restore(junk)!.ToString(), StringComparison.Ordinal);
        Assert.Single(store.Jobs());
    }

    [Theory]
    [InlineData("SQLite")]
    [InlineData("PostgreSQL")]
    public void Everything_leaves_as_JSON_and_CSV_but_for_secrets(string kind)
    {
        var store = Open(kind);
        store.Keep(Jobs.Of("=1+2, \"AR\"", 12.5m), "[1]", Jobs.Files(("a.pdf", "abc")), []);
        store.Rooms.LetIn("tablet", "helper", new string('e', 64), Noon, "desk");
        var folder = Path.Combine(_folder, "export");
        Assert.Null(store.Export(folder));
        using var json = JsonDocument.Parse(File.ReadAllText(Path.Combine(folder, "workshop.json")));
        Assert.Equal("=1+2, \"AR\"", json.RootElement.GetProperty("jobs")[0].GetProperty("name").GetString());
        Assert.Equal(12.5m, json.RootElement.GetProperty("jobs")[0].GetProperty("total").GetDecimal());
        // RFC 4180: a cell with a comma or a quote stands in quotes, a quote in it twice; and no table program runs it as a formula.
        Assert.Contains(
            "\"'=1+2, \"\"AR\"\"\"",
            File.ReadAllText(Path.Combine(folder, "jobs.csv")),
            StringComparison.Ordinal
        );
        Assert.DoesNotContain(
            new string('e', 64),
            File.ReadAllText(Path.Combine(folder, "workshop.json")),
            StringComparison.Ordinal
        );
        Assert.Single(Directory.GetFiles(Path.Combine(folder, "files")));
    }

    private WorkshopStore Open(string kind)
    {
        var opened = WorkshopStore.Open(
            Directory.CreateDirectory(Path.Combine(_folder, Guid.NewGuid().ToString("n"))).FullName,
            kind == "PostgreSQL" ? postgres.NewDatabase() : null
        );
        Assert.True(opened.Ok, opened.Fault?.ToString());
        _open.Add(opened.Value);
        return opened.Value;
    }
}
