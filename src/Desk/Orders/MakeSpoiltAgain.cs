using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using Coldpeel.Desk.Shelf;
using Coldpeel.Files.Orders;
using Coldpeel.Storage.Shelf;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Shelf;

namespace Coldpeel.Desk.Orders;

/// <summary>Makes a small order of the pieces of another that were spoilt and had no spare.</summary>
public sealed class MakeSpoiltAgain(OpenedWorkshop workshop)
{
    private const int MostTries = 100;

    /// <summary>Makes and keeps it; the fault says why it cannot be.</summary>
    /// <param name="name">The order with the spoilt pieces.</param>
    /// <param name="who">Who asks for it.</param>
    /// <param name="seconds">Ends the searches after so long.</param>
    /// <param name="stop">Cancels everything.</param>
    public Outcome<MadeJob> Run(string name, string who, double seconds, CancellationToken stop)
    {
        workshop.Making.Wait(stop);
        try
        {
            var missing = workshop.Store.Outcomes.Missing(name);
            var source = new RemakeOrder(workshop).Source(name);
            if (!source.Ok)
            {
                return source.Fault;
            }

            if (missing.Count == 0 || new WorkOfSteps(workshop).UseOf(name) is not { } use)
            {
                return new Fault($"“{name}”", "has nothing to be made again.", "Look at the page again.");
            }

            var again = Name(name);
            if (Smaller(source.Value, use, missing, name, again) is not { } smaller)
            {
                return new Fault(
                    $"“{name}”",
                    "does not hold those pieces any more.",
                    "Enter what is to be made again by hand."
                );
            }

            return new MakeFromSource(workshop).Run(
                smaller,
                new(seconds, who, null) { Again = new(name, missing) },
                null,
                stop
            );
        }
        finally
        {
            workshop.Making.Release();
        }
    }

    private string Name(string name)
    {
        for (var i = 1; i < MostTries; i++)
        {
            var again = string.Create(CultureInfo.InvariantCulture, $"{name} again {i}");
            if (workshop.Store.Order(again) is null)
            {
                return again;
            }
        }

        throw new InvalidOperationException($"“{name}” was made again {MostTries} times.");
    }

    // The same job with fewer items and only the designs that are missing.
    private static OrderSource? Smaller(
        OrderSource source,
        OrderUse use,
        IReadOnlyList<StoredMissing> missing,
        string name,
        string again
    )
    {
        if (source.Job is not { } job || job["items"] is not JsonArray items)
        {
            return null;
        }

        var lost = LostItems.Of(use, WorkOfSteps.Lost(missing));
        var kept = new JsonArray();
        foreach (var item in items.OfType<JsonObject>())
        {
            // Items that lack the same are one group of the new order; others of them another.
            var alike = lost.Where(l => l.Group.Id == (string?)item["id"])
                .GroupBy(l => string.Join('|', Designs(l).Order(StringComparer.Ordinal)));
            foreach (var (at, some) in alike.Index())
            {
                var id = at == 0 ? (string?)item["id"] : Another(items, (string?)item["id"] ?? "", at);
                var numbers = some.Select(l => l.Number).ToImmutableArray();
                var small = item.DeepClone().AsObject();
                small["id"] = id;
                small["quantity"] = numbers.Length;
                small["placements"] = Placements(small["placements"]!.AsArray(), [.. Designs(some.First())]);
                if ((string?)small["roster"] is { } roster)
                {
                    if (Rows(source, roster, numbers) is not { } list)
                    {
                        return null;
                    }

                    var file = $"again-{id}.csv";
                    source = source.With(file, list);
                    small["roster"] = file;
                }

                kept.Add(small);
            }
        }

        if (kept.Count == 0)
        {
            return null;
        }

        var used = kept.SelectMany(i => i!["placements"]!.AsArray()).Select(p => (string?)p!["design"]).ToHashSet();
        job["designs"] = new JsonArray([
            .. (job["designs"] as JsonArray ?? [])
                .OfType<JsonObject>()
                .Where(d => used.Contains((string?)d["id"]))
                .Select(d =>
                {
                    var design = d.DeepClone().AsObject();
                    design.Remove("x-ahead"); // the shelf has had its share
                    return (JsonNode)design;
                }),
        ]);
        job["items"] = kept;
        job["job"] = again;
        return source.WithJob(job) with { FromShelf = [], AgainOf = name };
    }

    private static IEnumerable<string> Designs(LostItem item) => item.Pieces.Select(p => p.Split('/')[0]);

    // A design that is lost once is placed once, though the item may carry it twice.
    private static JsonArray Placements(JsonArray all, List<string> designs) =>
        [.. all.Where(p => designs.Remove((string?)p!["design"] ?? "")).Select(p => p!.DeepClone()).ToArray()];

    private static string Another(JsonArray items, string id, int at)
    {
        var taken = items.OfType<JsonObject>().Select(i => (string?)i["id"]).ToHashSet(StringComparer.Ordinal);
        var name = string.Create(CultureInfo.InvariantCulture, $"{id}-{(char)('a' + (at % 26))}{at}");
        while (taken.Contains(name))
        {
            name += "x";
        }

        return name;
    }

    private static byte[]? Rows(OrderSource source, string file, ImmutableArray<int> numbers)
    {
        if (
            source.Files.FirstOrDefault(f => f.Name == file) is not { } handed
            || RosterReader.Read(handed.Content, file) is not { Ok: true, Value: { } roster }
        )
        {
            return null;
        }

        var text = new StringBuilder();
        Line(roster.Columns);
        foreach (var number in numbers)
        {
            Line(roster.Columns.Select(c => roster.Rows[number - 1].Cells.GetValueOrDefault(c, "")));
        }

        return Encoding.UTF8.GetBytes(text.ToString());

        // RFC 4180.
        void Line(IEnumerable<string> cells) =>
            text.AppendJoin(',', cells.Select(c => $"\"{c.Replace("\"", "\"\"", StringComparison.Ordinal)}\""))
                .Append("\r\n");
    }
}
