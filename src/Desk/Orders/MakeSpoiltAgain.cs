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
            var missing = workshop.Store.Shelf.Missing(name);
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
            if (Smaller(source.Value, use, missing, again) is not { } smaller)
            {
                return new Fault(
                    $"“{name}”",
                    "does not hold those pieces any more.",
                    "Enter what is to be made again by hand."
                );
            }

            var made = new MakeFromSource(workshop).Run(smaller, new(seconds, who, null), null, stop);
            if (made.Ok)
            {
                lock (workshop.OrderSteps)
                {
                    workshop.Store.Shelf.MadeAgain(name, again, missing, workshop.Now, who);
                }
            }

            return made;
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
        string again
    )
    {
        if (source.Job is not { } job || job["items"] is not JsonArray items)
        {
            return null;
        }

        var left = missing.ToDictionary(m => (m.Piece, m.Process), m => m.Count);
        var kept = new JsonArray();
        foreach (var item in items.OfType<JsonObject>())
        {
            if (use.Groups.FirstOrDefault(g => g.Id == (string?)item["id"]) is not { } group)
            {
                continue;
            }

            var numbers = Numbers(group, left);
            if (numbers.Length == 0)
            {
                continue;
            }

            var designs = numbers
                .SelectMany(n => group.Items[n - 1])
                .Where(p => missing.Any(m => m.Piece == p && m.Process == group.Process))
                .Select(p => p.Split('/')[0])
                .ToHashSet(StringComparer.Ordinal);
            var small = item.DeepClone().AsObject();
            small["quantity"] = numbers.Length;
            small["placements"] = new JsonArray([
                .. small["placements"]!
                    .AsArray()
                    .Where(p => designs.Contains((string?)p!["design"] ?? ""))
                    .Select(p => p!.DeepClone()),
            ]);
            if ((string?)small["roster"] is { } roster)
            {
                var list = Rows(source, roster, numbers);
                if (list is null)
                {
                    return null;
                }

                var file = $"again-{group.Id}.csv";
                source = source.With(file, list);
                small["roster"] = file;
            }

            kept.Add(small);
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
        return source.WithJob(job) with { FromShelf = [] };
    }

    // Items are taken one by one as long as a piece of theirs is missing; pieces of one's own name theirs.
    private static ImmutableArray<int> Numbers(UsedGroup group, Dictionary<(string, string), int> left)
    {
        var numbers = ImmutableArray.CreateBuilder<int>();
        var byName = Enumerable
            .Range(1, group.Items.Length)
            .OrderByDescending(n => group.Items[n - 1].Any(p => p.Contains('/', StringComparison.Ordinal) && Open(p)));
        foreach (var number in byName)
        {
            var open = group.Items[number - 1].Where(Open).ToArray();
            if (open.Length == 0)
            {
                continue;
            }

            foreach (var piece in open)
            {
                left[(piece, group.Process)]--;
            }

            numbers.Add(number);
        }

        numbers.Sort();
        return numbers.ToImmutable();

        bool Open(string piece) => left.GetValueOrDefault((piece, group.Process)) > 0;
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
