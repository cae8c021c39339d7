using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using Coldpeel.Craft.Artwork;
using Coldpeel.Files.Json;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Files.Orders;

/// <summary>Reads a job file: first held against docs/schemas/job.schema.json, then against the rules that a schema cannot hold.</summary>
public static class JobReader
{
    /// <summary>Largest colour difference that counts as the colour asked for, where the job says nothing.</summary>
    public const double UsualTolerance = 12;

    /// <summary>The job, or the first fault in the order of the file.</summary>
    /// <param name="path">The job file; paths in it start at its folder.</param>
    public static Outcome<Job> Read(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        var text = JsonText.Read(path, path);
        if (!text.Ok)
        {
            return text.Fault;
        }

        if (SchemaCheck.Of("job").First(text.Value) is { } broken)
        {
            return broken;
        }

        var folder = Path.GetDirectoryName(Path.GetFullPath(path))!;
        return JobRules.First(text.Value, folder) is { } fault ? fault : Job(text.Value.Root);
    }

    private static Job Job(JsonElement root) =>
        new(
            root.Text("job"),
            root.Text("customer"),
            DateOnly.ParseExact(root.Text("due"), "yyyy-MM-dd", CultureInfo.InvariantCulture),
            root.Text("currency"),
            root.TextOrNull("workshop"),
            root.All("designs", Design),
            root.All("items", Item)
        );

    private static DesignRequest Design(JsonElement e) => Asked(e) with { Ahead = e.WholeOrNull("x-ahead") ?? 0 };

    private static DesignRequest Asked(JsonElement e) =>
        e.TryGetProperty("lettering", out var lettering)
            ? new DesignRequest.Lettered(
                e.Text("id"),
                new LetteringRequest(
                    lettering.Text("text"),
                    lettering.Text("font"),
                    lettering.Number("heightMm"),
                    lettering.NumberOrNull("trackingPercent") ?? 0,
                    lettering.NumberOrNull("maxWidthMm")
                )
                {
                    FillWidth = lettering.TextOrNull("fit") == "fill",
                    LineSpacingPercent = lettering.NumberOrNull("lineSpacingPercent") ?? 100,
                    Align = lettering.TextOrNull("align") switch
                    {
                        "left" => LineAlign.Left,
                        "right" => LineAlign.Right,
                        _ => LineAlign.Centre,
                    },
                    Arc = lettering.TryGetProperty("arc", out var arc)
                        ? new LetterArc(arc.Number("radiusMm"), arc.TextOrNull("side") == "below")
                        : null,
                    Ring = lettering.TryGetProperty("outline", out var ring)
                        ? new LetterRing(ring.Number("widthMm"), ring.TextOrNull("side") == "inside")
                        : null,
                }
            )
            : new DesignRequest.Drawn(
                e.Text("id"),
                e.Text("file"),
                e.WholeOrNull("page"),
                e.NumberOrNull("widthMm"),
                e.NumberOrNull("heightMm"),
                Prints(e),
                ToneWords.Read(e.TextOrNull("tone")) ?? Tone.Solid
            )
            {
                Curve = e.TryGetProperty("toneCurve", out _)
                    ? ToneCurve.Through(TonePoints.Read(e, "toneCurve"))
                    : null,
            };

    private static Prints Prints(JsonElement design)
    {
        if (!design.TryGetProperty("prints", out var prints))
        {
            return new Prints.Auto();
        }

        return prints.ValueKind == JsonValueKind.Object
            ? new Prints.Colours(
                [
                    .. prints
                        .GetProperty("colours")
                        .EnumerateArray()
                        .Select(c => FabricColour.Read(c.GetString()!)!.Value),
                ],
                prints.NumberOrNull("tolerance") ?? UsualTolerance
            )
            : prints.GetString() switch
            {
                "dark" => new Prints.Dark(),
                "light" => new Prints.Light(),
                "opaque" => new Prints.Opaque(),
                _ => new Prints.Auto(),
            };
    }

    private static ItemRequest Item(JsonElement e) =>
        new(
            e.Text("id"),
            e.Text("what"),
            e.Text("material"),
            e.Text("colour"),
            e.Whole("quantity"),
            e.TextOrNull("roster"),
            e.TextOrNull("suppliedBy") == "customer" ? Supplier.Customer : Supplier.Workshop,
            Uses(e),
            e.All("placements", p => new PlacementRequest(p.Text("design"), p.Text("at")))
        )
        {
            Size = e.TextOrNull("x-size") ?? "",
        };

    private static ImmutableArray<ItemUse> Uses(JsonElement item)
    {
        if (!item.TryGetProperty("use", out var use))
        {
            return [ItemUse.Everyday];
        }

        return use.ValueKind == JsonValueKind.Array
            ? [.. use.EnumerateArray().Select(u => Use(u.GetString()!))]
            : [Use(use.GetString()!)];
    }

    private static ItemUse Use(string word) =>
        word switch
        {
            "everyday" => ItemUse.Everyday,
            "protective" => ItemUse.Protective,
            "food" => ItemUse.Food,
            "hot" => ItemUse.Hot,
            "children" => ItemUse.Children,
            "children-nightwear" => ItemUse.ChildrenNightwear,
            _ => throw new InvalidOperationException($"The schema lets \"{word}\" through, and nobody knows it."),
        };
}
