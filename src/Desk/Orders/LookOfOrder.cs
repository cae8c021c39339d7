using System.Collections.Immutable;
using System.Text;
using System.Text.Json;
using Coldpeel.Desk.Artwork;
using Coldpeel.Desk.Sheets;
using Coldpeel.Desk.Shelf;
using Coldpeel.Storage;
using Coldpeel.Storage.Orders;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Shelf;

namespace Coldpeel.Desk.Orders;

/// <summary>Looks at an order's files for what lists show of it and find it by.</summary>
internal static class LookOfOrder
{
    /// <summary>Of an order that is about to be kept.</summary>
    public static StoredLook Of(IReadOnlyDictionary<string, byte[]> files, IReadOnlyCollection<Finding> findings) =>
        Of(
            files.Keys,
            name => files.GetValueOrDefault(name),
            name => files.TryGetValue(name, out var content) ? (WorkshopStore.HashOf(content), content.Length) : null,
            findings
        );

    /// <summary>Of a kept one; what cannot be read any more is left out.</summary>
    public static StoredLook Of(StoredContent order) =>
        Of(
            order.Hashes.Keys,
            name => order.Hashes.TryGetValue(name, out var kept) ? order.Read(kept.Hash) : null,
            name => order.Hashes.TryGetValue(name, out var kept) ? kept : null,
            Read<Finding[]>(order.FindingsJson) ?? []
        );

    private static StoredLook Of(
        IEnumerable<string> names,
        Func<string, byte[]?> read,
        Func<string, (string Hash, long Bytes)?> hash,
        IReadOnlyCollection<Finding> findings
    )
    {
        T? Part<T>(string name)
            where T : class => read(name) is { } content ? Read<T>(Encoding.UTF8.GetString(content)) : null;

        var designs = Part<KeptDesign[]>(KeptArtwork.List) ?? [];
        var taken = Part<SaidSince>(OrderSource.Said)?.Mends ?? [];
        return new(
            [
                .. designs.SelectMany(d => new[] { d.Id, d.Text }).OfType<string>(),
                .. names
                    .Where(n => n.StartsWith(OrderSource.Prefix, StringComparison.Ordinal))
                    .Select(n => n[OrderSource.Prefix.Length..])
                    .Order(StringComparer.Ordinal),
            ],
            Part<OrderUse>(ReckonUse.File) is { } use ? KeptJson.Write(SheetsOfSize.Of(use)) : null,
            [
                .. designs
                    .Index()
                    .Where(d => d.Item.File is not null && hash(OrderSource.Prefix + d.Item.File) is not null)
                    .Select(d =>
                        Use(d.Item, d.Index + 1, hash(OrderSource.Prefix + d.Item.File)!.Value, findings, taken)
                    ),
            ]
        );
    }

    private static StoredDesignOfFile Use(
        KeptDesign design,
        int number,
        (string Hash, long Bytes) file,
        IEnumerable<Finding> findings,
        ImmutableArray<TakenMend> taken
    ) =>
        new(
            file.Hash,
            design.File!,
            file.Bytes,
            number,
            design.Id,
            design.WidthMm,
            design.HeightMm,
            findings
                .Where(f => !f.Accepted && f.Design is { } of && KeptArtwork.IsOf(of, design.Id))
                .Select(f => (int)f.Severity + 1)
                .DefaultIfEmpty(0)
                .Max(),
            taken.Where(m => m.Design == design.Id).Sum(m => m.Mends.Length),
            design.Small ?? design.OnFabric
        );

    // An order of an early version may have another form: then it is found by its name and customer alone.
    private static T? Read<T>(string json)
        where T : class
    {
        try
        {
            return KeptJson.Read<T>(json);
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
