using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using Coldpeel.Desk.Rooms;
using Coldpeel.Files.Orders;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using static Coldpeel.Desk.Orders.OrderParts;

namespace Coldpeel.Desk.Orders;

/// <summary>Takes an order's source apart into the fields of a form, and puts typed fields back into it; all else in the job file stays as it was.</summary>
internal sealed class OrderFields(OrderSource source)
{
    private const string DueKey = "due";
    private const string LanguageKey = "language";

    private readonly JsonObject _job = source.Job!;

    /// <summary>The fields as they stand.</summary>
    public ImmutableArray<OrderField> Read()
    {
        var fields = ImmutableArray.CreateBuilder<OrderField>();
        fields.Add(new(DueKey, OrderFieldKind.Due, "", "", Text(_job, "due")));
        fields.Add(new(LanguageKey, OrderFieldKind.Language, "", "", source.Language ?? ""));
        foreach (var (n, design) in Designs(_job))
        {
            var (kind, holder, property) = Measure(design);
            fields.Add(new($"design.{n}", kind, Text(design, "id"), "", Figure(holder[property])));
        }

        var lists = new HashSet<string>(StringComparer.Ordinal);
        foreach (var (n, item) in Items(_job))
        {
            var about = About(item);
            Add("material", OrderFieldKind.Material, Text(item, "material"));
            Add("colour", OrderFieldKind.Colour, Text(item, "colour"));
            Add("size", OrderFieldKind.Size, Text(item, "x-size"));
            if (Text(item, "roster") is not { Length: > 0 } roster)
            {
                Add("quantity", OrderFieldKind.Quantity, Figure(item["quantity"]));
            }
            else if (lists.Add(roster) && List(roster) is { } list)
            {
                Add("lines", OrderFieldKind.Lines, RosterLines.Written(list));
            }

            foreach (var (p, place) in Placements(item).Index())
            {
                fields.Add(
                    new($"item.{n}.at.{p}", OrderFieldKind.Placement, about, Text(place, "design"), Text(place, "at"))
                );
            }

            void Add(string name, OrderFieldKind kind, string value) =>
                fields.Add(new($"item.{n}.{name}", kind, about, "", value));
        }

        return fields.ToImmutable();
    }

    /// <summary>The source with what was typed in other words than it stands, what changed, and what is wrong: by the rules of an order that is entered.</summary>
    /// <param name="typed">Text by key of the field; a field that is not there stays as it is.</param>
    /// <param name="book">The workshop whose names hold.</param>
    public (OrderSource Source, ImmutableArray<ChangedField> Changes, ImmutableArray<Fault> Faults) Put(
        IReadOnlyDictionary<string, string> typed,
        WorkshopBook book
    )
    {
        var fields = Read();
        var words = fields.ToDictionary(f => f.Key, f => ChangedField.Plain(typed.GetValueOrDefault(f.Key, f.Value)));
        var changed = fields.Where(f => words[f.Key] != ChangedField.Plain(f.Value)).ToArray();
        var (lines, faults) = ItemLines.Read(
            Items(_job).SelectMany(i => Lines(i.Number, i.Item, words)),
            book,
            [.. Designs(_job).Select(d => Text(d.Design, "id"))]
        );
        var wrong = faults.ToList();
        var read = lines.ToLookup(l => l.Where.English);
        var next = source;
        foreach (var field in changed)
        {
            var key = field.Key.Split('.');
            switch (field.Kind)
            {
                case OrderFieldKind.Due:
                    if (
                        !DateOnly.TryParseExact(
                            words[field.Key],
                            "yyyy-MM-dd",
                            CultureInfo.InvariantCulture,
                            DateTimeStyles.None,
                            out _
                        )
                    )
                    {
                        wrong.Add(
                            new(
                                "The day it is due",
                                $"says “{words[field.Key]}”.",
                                "Write year-month-day, like 2027-05-21."
                            )
                        );
                    }

                    _job["due"] = words[field.Key];
                    break;
                case OrderFieldKind.Language when words[field.Key].Length == 0:
                    _job.Remove(OrderHead.LanguageKey);
                    break;
                case OrderFieldKind.Language:
                    if (!KeepSettings.Languages.Contains(words[field.Key]))
                    {
                        wrong.Add(
                            new(
                                "The language of the papers",
                                $"says “{words[field.Key]}”.",
                                "Choose one of the list, or the workshop's."
                            )
                        );
                    }

                    _job[OrderHead.LanguageKey] = words[field.Key];
                    break;
                case OrderFieldKind.Lines:
                    var list = RosterReader.Read(Encoding.UTF8.GetBytes(words[field.Key]), $"{field.About}, names");
                    if (!list.Ok)
                    {
                        wrong.Add(list.Fault);
                        break;
                    }

                    var item = Items(_job).First(i => i.Number == Number(key[1])).Item;
                    var name = Text(item, "roster");
                    next = next.With(name, Encoding.UTF8.GetBytes(RosterLines.Written(list.Value)));
                    foreach (var (_, same) in Items(_job).Where(i => Text(i.Item, "roster") == name))
                    {
                        same["quantity"] = list.Value.Rows.Length;
                    }

                    break;
                default:
                    PutInto(field, key, words[field.Key], read, wrong);
                    break;
            }
        }

        return (next.WithJob(_job), [.. changed.Select(f => new ChangedField(f, words[f.Key]))], [.. wrong.Distinct()]);
    }

    // A line of a list holds so many designs: an item with more is told in several.
    private static IEnumerable<RawItemLine> Lines(int number, JsonObject item, Dictionary<string, string> words)
    {
        foreach (var some in Placements(item).Index().Chunk(ItemColumns.MostArtwork))
        {
            var cells = new Dictionary<string, string>
            {
                ["item"] = Text(item, "what"),
                ["material"] = words[$"item.{number}.material"],
                ["fabric colour"] = words[$"item.{number}.colour"],
                ["size"] = words[$"item.{number}.size"],
                ["quantity"] = words.GetValueOrDefault($"item.{number}.quantity", "1"),
            };
            foreach (var (n, (p, place)) in some.Index())
            {
                var tail = n == 0 ? "" : $" {n + 1}";
                cells[$"design{tail}"] = Text(place, "design");
                cells[$"placement{tail}"] = words[$"item.{number}.at.{p}"];
                if (DesignOf(item, Text(place, "design")) is { } design)
                {
                    cells[$"width mm{tail}"] = words[$"design.{design}"];
                }
            }

            yield return new(About(item), cells);
        }
    }

    private void PutInto(
        OrderField field,
        string[] key,
        string typed,
        ILookup<string, ItemLine> read,
        List<Fault> wrong
    )
    {
        if (key[0] == "design")
        {
            var design = Designs(_job).First(d => d.Number == Number(key[1])).Design;
            var (kind, holder, property) = Measure(design);
            if (typed.Length > 0)
            {
                // What is no figure was told with the lines that use the design.
                holder[property] = Millimetres(typed) is { } mm ? mm : typed;
            }
            else if (kind == OrderFieldKind.Width)
            {
                holder.Remove(property);
            }
            else
            {
                wrong.Add(new($"Design {field.About}", "has no height.", "Write its height in millimetres."));
            }

            return;
        }

        var item = Items(_job).First(i => i.Number == Number(key[1])).Item;
        var line = read[About(item)].FirstOrDefault();
        switch (field.Kind)
        {
            case OrderFieldKind.Material:
                item["material"] = line?.Material ?? typed;
                break;
            case OrderFieldKind.Colour:
                item["colour"] = typed;
                break;
            case OrderFieldKind.Size when typed.Length == 0:
                item.Remove("x-size");
                break;
            case OrderFieldKind.Size:
                item["x-size"] = typed;
                break;
            case OrderFieldKind.Quantity:
                item["quantity"] = line?.Quantity ?? 1;
                break;
            default:
                Placements(item).ElementAt(Number(key[3]))["at"] = typed;
                break;
        }
    }

    private Roster? List(string name) =>
        source.Files.FirstOrDefault(f => f.Name == name) is { } file
        && RosterReader.Read(file.Content, name) is { Ok: true } read
            ? read.Value
            : null;

    private static double? Millimetres(string typed) =>
        double.TryParse(
            typed.Replace(',', '.').Replace("mm", "", StringComparison.OrdinalIgnoreCase).Trim(),
            NumberStyles.AllowDecimalPoint,
            CultureInfo.InvariantCulture,
            out var mm
        )
            ? mm
            : null;

    private static int Number(string text) => int.Parse(text, CultureInfo.InvariantCulture);
}
