using Coldpeel.Storage;
using Coldpeel.Storage.Database;
using Coldpeel.Storage.Orders;
using Coldpeel.Storage.Shelf;

namespace Coldpeel.Desk.Tests.Storage;

/// <summary>The index of letters finds what reading everything finds, whatever is looked for and whatever happened to the rows.</summary>
public sealed class WordIndexTests : IDisposable
{
    private static readonly DateTimeOffset Noon = new(2027, 5, 3, 12, 0, 0, TimeSpan.Zero);
    private static readonly string[] Letters =
    [
        "a",
        "b",
        "Ø",
        "é",
        "ß",
        "\"",
        "%",
        "_",
        " ",
        "'",
        "*",
        "ı",
        "𝒜",
        "字",
        "-",
        "1",
        "ü",
        "\u0308",
        "Ł",
    ];

    private readonly string _folder = Place.NewFolder();
    private readonly List<WorkshopStore> _open = [];

    public void Dispose()
    {
        _open.ForEach(s => s.Dispose());
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public void Any_part_of_a_name_is_found_and_nothing_else()
    {
        var seed = Environment.TickCount;
        TestContext.Current.TestOutputHelper!.WriteLine("seed {0}", seed);
        var random = new Random(seed);
        var store = Open("one");
        var names = Enumerable.Range(0, 60).Select(i => $"{Word(random, 12)}{i}").ToArray();
        foreach (var name in names)
        {
            store.Keep(Jobs.Of(name) with { Customer = Word(random, 8) }, "[]", Jobs.Files(), []);
            store.Shelf.Keep(new StoredStock(0, "sheet", name, "drawer", "sheets", 0, 0, null), Noon, "Mira");
        }

        // Made again under another customer: the words of before must not be found any more.
        foreach (var name in names.Take(20))
        {
            store.Keep(Jobs.Of(name) with { Customer = Word(random, 8) }, "[]", Jobs.Files(), []);
        }

        Same(store, random, seed);
        Assert.Null(store.Backup(Path.Combine(_folder, "backup.zip")));
        var second = Open("two");
        second.Keep(Jobs.Of("was here before"), "[]", Jobs.Files(), []);
        Assert.Null(second.Restore(Path.Combine(_folder, "backup.zip")));
        Same(second, random, seed);
        Assert.Empty(second.Jobs(new JobAsk { Words = "was here" }));
    }

    private static void Same(WorkshopStore store, Random random, int seed)
    {
        var all = store.Jobs();
        for (var i = 0; i < 300; i++)
        {
            var words = i % 3 == 0 ? Part(random, all[random.Next(all.Count)].Name) : Word(random, 5);
            var sought = Sought.Asked(words);
            if (sought.Length == 0)
            {
                continue;
            }

            var expected = all.Where(j => Sought.Of(j.Name, j.Customer).Contains(sought, StringComparison.Ordinal))
                .Select(j => j.Name);
            var found = store.Jobs(new JobAsk { Words = words, Most = 100 }).Select(j => j.Name);
            Assert.True(expected.SequenceEqual(found), $"seed {seed}: “{words}”");
            var shelf = store.Shelf.Some(null, words, 0, 100).Select(s => s.Name).Order(StringComparer.Ordinal);
            var things = all.Select(j => j.Name)
                .Where(n => Sought.Of(n, "drawer").Contains(sought, StringComparison.Ordinal))
                .Order(StringComparer.Ordinal);
            Assert.True(things.SequenceEqual(shelf), $"seed {seed}: “{words}” on the shelf");
        }
    }

    private static string Word(Random random, int most) =>
        string.Concat(Enumerable.Range(0, random.Next(1, most)).Select(_ => Letters[random.Next(Letters.Length)]));

    private static string Part(Random random, string name)
    {
        var from = random.Next(name.Length);
        return name.Substring(from, random.Next(1, name.Length - from + 1))
            .Replace("\ud835", "", StringComparison.Ordinal)
            .Replace("\udc9c", "", StringComparison.Ordinal);
    }

    private WorkshopStore Open(string name)
    {
        var opened = WorkshopStore.Open(Path.Combine(_folder, name));
        Assert.True(opened.Ok, opened.Fault?.ToString());
        _open.Add(opened.Value);
        return opened.Value;
    }
}
