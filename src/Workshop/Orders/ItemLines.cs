using System.Collections.Immutable;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Workshop.Orders;

/// <summary>A line of a list of items before it is understood.</summary>
/// <param name="Where">Where it stands: "items.csv, line 3".</param>
/// <param name="Cells">Text by column, as <see cref="ItemColumns"/> names them.</param>
public sealed record RawItemLine(Sentence Where, IReadOnlyDictionary<string, string> Cells);

/// <summary>Reads lines of items by the names of the trade and of the workshop; every fault is told with its line and column.</summary>
public static class ItemLines
{
    /// <summary>Height of a name where the list says none (common practice, no source).</summary>
    private const double UsualNameMm = 24;

    /// <summary>Height of a number where the list says none and the place has room (common practice, no source).</summary>
    private const double UsualNumberMm = 200;

    /// <summary>Where the place has less room: this share of its height, so that nothing reaches its edge.</summary>
    private const double Share = 0.8;

    private static readonly (string Id, string[] Spelt)[] Suppliers =
    [
        ("workshop", ["werkstatt"]),
        ("customer", ["kunde"]),
    ];

    private static readonly (string Id, string[] Spelt)[] Uses =
    [
        ("everyday", ["alltag"]),
        ("protective", ["schutz", "schutzkleidung"]),
        ("food", ["lebensmittel"]),
        ("hot", ["heiß"]),
        ("children", ["kinder"]),
        ("children-nightwear", ["children nightwear", "kindernachtwäsche"]),
    ];

    /// <summary>The lines that were understood, and everything that is wrong with the others.</summary>
    /// <param name="lines">The lines.</param>
    /// <param name="book">The workshop whose names hold.</param>
    /// <param name="files">Names of the artwork that came with them.</param>
    public static (ImmutableArray<ItemLine> Lines, ImmutableArray<Fault> Faults) Read(
        IEnumerable<RawItemLine> lines,
        WorkshopBook book,
        IReadOnlyCollection<string> files
    )
    {
        ArgumentNullException.ThrowIfNull(lines);
        ArgumentNullException.ThrowIfNull(book);
        ArgumentNullException.ThrowIfNull(files);
        var faults = new List<Fault>();
        var read = lines.Select(l => Line(l, new(l.Where, l.Cells, faults), book, files)).ToImmutableArray();
        return (read, [.. faults]);
    }

    private static ItemLine Line(
        RawItemLine line,
        ItemCells cells,
        WorkshopBook book,
        IReadOnlyCollection<string> files
    )
    {
        var materials = book.Materials.Select(m => (m.Id, new[] { m.Name, m.Name.Split(" (")[0] }));
        var colour = cells.Needed("fabric colour", "Write #rrggbb or a CSS colour name, like navy.");
        if (colour.Length > 0 && FabricColour.Read(colour) is null)
        {
            cells.Wrong(
                "fabric colour",
                $"says “{colour}”, which is no colour we know.",
                $"Write #rrggbb or a CSS colour name; alike are {Closest.Listed(colour, Closest.Order(colour, FabricColour.Names).Take(3))}."
            );
        }

        var what = cells.Needed("item", "Write what it is, like T-shirt.");
        var priced = book.Prices.Blanks.Keys.FirstOrDefault(b =>
            string.Equals(b, what, StringComparison.OrdinalIgnoreCase)
        );
        var artwork = Artwork(cells, book, files);
        var letterings = Letterings(cells, book);
        var supplier = Supplier(cells);
        if (what.Length > 0 && priced is null && supplier == Orders.Supplier.Workshop)
        {
            cells.Wrong(
                "item",
                $"names “{what}”, a blank without a price.",
                $"Give it one under Prices, Blanks, or say that the customer brings it; priced are: {Closest.Listed(what, book.Prices.Blanks.Keys)}."
            );
        }

        if (artwork.IsEmpty && letterings.IsEmpty)
        {
            cells.Wrong("design", "is empty, and there is no name or number either.", "Name what is printed on it.");
        }

        return new(
            line.Where,
            priced ?? what,
            cells.OneOf("material", cells.Needed("material", "Write a material of the workshop."), materials),
            colour,
            cells.Text("size"),
            cells.Count("quantity"),
            supplier,
            Use(cells),
            artwork,
            letterings
        );
    }

    private static ImmutableArray<LineArtwork> Artwork(
        ItemCells cells,
        WorkshopBook book,
        IReadOnlyCollection<string> files
    )
    {
        var artwork = ImmutableArray.CreateBuilder<LineArtwork>();
        for (var n = 1; n <= ItemColumns.MostArtwork; n++)
        {
            var tail = n == 1 ? "" : $" {n}";
            var design = cells.Text($"design{tail}");
            if (design.Length == 0)
            {
                continue;
            }

            artwork.Add(
                new(
                    cells.OneOf(
                        $"design{tail}",
                        design,
                        files.Select(f => (f, new[] { Path.GetFileNameWithoutExtension(f) }))
                    ),
                    At(cells, $"placement{tail}", book),
                    cells.Mm($"width mm{tail}")
                )
            );
        }

        return artwork.ToImmutable();
    }

    private static ImmutableArray<LineLettering> Letterings(ItemCells cells, WorkshopBook book)
    {
        var letterings = ImmutableArray.CreateBuilder<LineLettering>();
        foreach (var (column, usual) in new[] { ("name", UsualNameMm), ("number", UsualNumberMm) })
        {
            var text = cells.Text(column);
            if (text.Length == 0)
            {
                continue;
            }

            var at = At(cells, $"{column} placement", book);
            var rule = book.Placements.FirstOrDefault(p => p.Name == at);
            var room = rule is null ? usual : rule.MaxHeightMm * Share;
            letterings.Add(
                new(
                    column,
                    text,
                    at,
                    cells.Mm($"{column} height mm") ?? Math.Round(Math.Min(usual, room), 1),
                    rule?.MaxWidthMm ?? 200
                )
            );
        }

        return letterings.ToImmutable();
    }

    private static string At(ItemCells cells, string column, WorkshopBook book) =>
        cells.OneOf(
            column,
            cells.Needed(column, "Write a placement of the workshop, like left chest."),
            book.Placements.Select(p => (p.Name, Array.Empty<string>()))
        );

    private static Supplier Supplier(ItemCells cells) =>
        cells.OneOf("supplied by", cells.Text("supplied by"), Suppliers) == "customer"
            ? Orders.Supplier.Customer
            : Orders.Supplier.Workshop;

    private static ItemUse Use(ItemCells cells) =>
        cells.OneOf("use", cells.Text("use"), Uses) switch
        {
            "protective" => ItemUse.Protective,
            "food" => ItemUse.Food,
            "hot" => ItemUse.Hot,
            "children" => ItemUse.Children,
            "children-nightwear" => ItemUse.ChildrenNightwear,
            _ => ItemUse.Everyday,
        };
}
