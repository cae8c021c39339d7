using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Files.Orders;

/// <summary>Writes a job file and its rosters from lines of items: equal lines become one group, names and numbers its roster.</summary>
public static class ItemsJob
{
    private const string NameFont = "Inter SemiBold";
    private const string NumberFont = "Inter Bold";

    /// <summary>Name and content of job.json and of every roster.</summary>
    public static ImmutableArray<(string Name, byte[] Content)> Write(OrderHead head, IReadOnlyList<ItemLine> lines)
    {
        ArgumentNullException.ThrowIfNull(head);
        ArgumentNullException.ThrowIfNull(lines);
        var designs = new DesignList();
        var files = new List<(string, byte[])>();
        var items = new JsonArray();
        foreach (var (at, group) in lines.GroupBy(Key).Index())
        {
            var first = group.First();
            var lettered = !first.Letterings.IsEmpty;
            var item = new JsonObject
            {
                ["id"] = Id(first, at + 1),
                ["what"] = first.What,
                ["material"] = first.Material,
                ["colour"] = first.Colour,
                ["quantity"] = group.Sum(l => l.Quantity),
                ["suppliedBy"] = first.SuppliedBy == Supplier.Customer ? "customer" : "workshop",
                ["use"] = Use(first.Use),
                ["placements"] = new JsonArray([
                    .. first.Artwork.Select(a => Placement(designs.Drawn(a), a.At)),
                    .. first.Letterings.Select(l => Placement(designs.Lettered(l), l.At)),
                ]),
            };
            if (first.Size.Length > 0)
            {
                item["x-size"] = first.Size;
            }

            if (lettered)
            {
                var roster = string.Create(CultureInfo.InvariantCulture, $"names-{at + 1}.csv");
                item["roster"] = roster;
                files.Add((roster, Roster([.. first.Letterings.Select(l => l.Column)], group)));
            }

            items.Add(item);
        }

        var job = new JsonObject
        {
            ["job"] = head.Name,
            ["customer"] = head.Customer,
            ["due"] = head.Due,
            ["currency"] = head.Currency,
            ["designs"] = designs.Written,
            ["items"] = items,
        };
        if (head.Language.Length > 0)
        {
            job[OrderHead.LanguageKey] = head.Language;
        }

        return [("job.json", Encoding.UTF8.GetBytes(job.ToJsonString())), .. files];
    }

    // What is alike but for the names is pressed as one.
    private static string Key(ItemLine line) =>
        string.Join(
            '\n',
            [
                line.What,
                line.Material,
                line.Colour.ToLowerInvariant(),
                line.Size,
                $"{line.SuppliedBy} {line.Use}",
                .. line.Artwork.Select(a => a.ToString()),
                .. line.Letterings.Select(l => (l with { Text = "" }).ToString()),
            ]
        );

    private static byte[] Roster(string[] columns, IEnumerable<ItemLine> lines)
    {
        var text = new StringBuilder();
        text.AppendJoin(',', columns).Append('\n');
        foreach (var line in lines)
        {
            for (var n = 0; n < line.Quantity; n++)
            {
                text.AppendJoin(',', line.Letterings.Select(l => Quoted(l.Text))).Append('\n');
            }
        }

        return Encoding.UTF8.GetBytes(text.ToString());
    }

    // RFC 4180, 2.5 to 2.7.
    private static string Quoted(string cell) => $"\"{cell.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";

    private static JsonObject Placement(string design, string at) => new() { ["design"] = design, ["at"] = at };

    private static string Id(ItemLine line, int number) =>
        Short(string.Create(CultureInfo.InvariantCulture, $"{line.What} {line.Size} {number}"));

    /// <summary>A name of letters, digits, dots and dashes, as the job file takes it.</summary>
    internal static string Short(string text)
    {
        var plain = string.Concat(
            text.Normalize(NormalizationForm.FormD)
                .Select(c =>
                    char.IsAsciiLetterOrDigit(c) || c is '.' ? c
                    : c is ' ' or '-' or '_' ? '-'
                    : '\0'
                )
                .Where(c => c != '\0')
        );
        var one = string.Join('-', plain.Split('-', StringSplitOptions.RemoveEmptyEntries)).TrimStart('.');
        return one.Length == 0 ? "item" : one[..Math.Min(one.Length, 50)];
    }

    private static string Use(ItemUse use) =>
        use switch
        {
            ItemUse.Protective => "protective",
            ItemUse.Food => "food",
            ItemUse.Hot => "hot",
            ItemUse.Children => "children",
            ItemUse.ChildrenNightwear => "children-nightwear",
            _ => "everyday",
        };

    /// <summary>The designs of the job, each once.</summary>
    private sealed class DesignList
    {
        private readonly Dictionary<string, string> _known = new(StringComparer.Ordinal);
        private readonly HashSet<string> _taken = new(StringComparer.OrdinalIgnoreCase);

        public JsonArray Written { get; } = [];

        public string Drawn(LineArtwork art) =>
            Once(
                $"{art.File}\n{art.WidthMm}",
                Path.GetFileNameWithoutExtension(art.File),
                id =>
                {
                    var design = new JsonObject { ["id"] = id, ["file"] = art.File };
                    if (art.WidthMm is { } width)
                    {
                        design["widthMm"] = width;
                    }

                    return design;
                }
            );

        public string Lettered(LineLettering text) =>
            Once(
                $"{text.Column}\n{text.HeightMm}\n{text.MostWidthMm}",
                text.Column,
                id =>
                    new()
                    {
                        ["id"] = id,
                        ["lettering"] = new JsonObject
                        {
                            ["text"] = $"{{{text.Column}}}",
                            ["font"] = text.Column == "number" ? NumberFont : NameFont,
                            ["heightMm"] = text.HeightMm,
                            ["maxWidthMm"] = text.MostWidthMm,
                        },
                    }
            );

        private string Once(string key, string name, Func<string, JsonObject> write)
        {
            if (!_known.TryGetValue(key, out var id))
            {
                var stem = Short(name);
                id = stem;
                for (var n = 2; !_taken.Add(id); n++)
                {
                    id = string.Create(CultureInfo.InvariantCulture, $"{stem}-{n}");
                }

                _known[key] = id;
                Written.Add(write(id));
            }

            return id;
        }
    }
}
