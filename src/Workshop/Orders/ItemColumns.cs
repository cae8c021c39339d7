using System.Collections.Frozen;

namespace Coldpeel.Workshop.Orders;

/// <summary>Columns of a list of items, by every name they may have.</summary>
public static class ItemColumns
{
    /// <summary>How many artworks one line may name.</summary>
    public const int MostArtwork = 4;

    private static readonly FrozenDictionary<string, string> Others = new Dictionary<string, string>
    {
        ["article"] = "item",
        ["artikel"] = "item",
        ["stück"] = "item",
        ["stoff"] = "material",
        ["fabric"] = "material",
        ["colour"] = "fabric colour",
        ["color"] = "fabric colour",
        ["fabric color"] = "fabric colour",
        ["farbe"] = "fabric colour",
        ["stofffarbe"] = "fabric colour",
        ["größe"] = "size",
        ["groesse"] = "size",
        ["qty"] = "quantity",
        ["pieces"] = "quantity",
        ["menge"] = "quantity",
        ["anzahl"] = "quantity",
        ["artwork"] = "design",
        ["motiv"] = "design",
        ["place"] = "placement",
        ["platz"] = "placement",
        ["width"] = "width mm",
        ["breite"] = "width mm",
        ["breite mm"] = "width mm",
        ["nummer"] = "number",
        ["name place"] = "name placement",
        ["platz name"] = "name placement",
        ["number place"] = "number placement",
        ["platz nummer"] = "number placement",
        ["name height"] = "name height mm",
        ["höhe name mm"] = "name height mm",
        ["number height"] = "number height mm",
        ["höhe nummer mm"] = "number height mm",
        ["gestellt von"] = "supplied by",
        ["verwendung"] = "use",
    }.ToFrozenDictionary();

    /// <summary>The columns, as the guide names them.</summary>
    public static IReadOnlyList<string> All { get; } =
    [
        "item",
        "material",
        "fabric colour",
        "size",
        "quantity",
        "design",
        "placement",
        "width mm",
        .. Enumerable
            .Range(2, MostArtwork - 1)
            .SelectMany(n => new[] { $"design {n}", $"placement {n}", $"width mm {n}" }),
        "name",
        "name placement",
        "name height mm",
        "number",
        "number placement",
        "number height mm",
        "supplied by",
        "use",
    ];

    /// <summary>The column that a heading means, whatever its case, dashes and brackets; null for none that we know.</summary>
    public static string? Named(string heading)
    {
        ArgumentNullException.ThrowIfNull(heading);
        var plain = string.Join(
            ' ',
            heading
                .ToLowerInvariant()
                .Split([' ', '_', '-', '(', ')', '.', ',', '[', ']'], StringSplitOptions.RemoveEmptyEntries)
        );
        return All.Contains(plain) ? plain
            : Others.TryGetValue(plain, out var known) ? known
            // "design 2" in other words: "artwork 2", "width 2".
            : plain.Length > 2
            && char.IsAsciiDigit(plain[^1])
            && Others.TryGetValue(plain[..^2], out var first)
            && All.Contains($"{first} {plain[^1]}")
                ? $"{first} {plain[^1]}"
            : null;
    }
}
