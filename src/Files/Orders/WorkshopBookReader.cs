using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Sheets;
using Coldpeel.Files.Json;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;
using Coldpeel.Workshop.Sheets;
using Coldpeel.Workshop.Wash;

namespace Coldpeel.Files.Orders;

/// <summary>Reads a workshop file: first held against docs/schemas/workshop.schema.json, then against the rules that a schema cannot hold.</summary>
public static class WorkshopBookReader
{
    private static readonly Lazy<(byte[] Text, WorkshopBook Book)> Built = new(ReadExample);

    /// <summary>The workshop, or the first fault in the order of the file.</summary>
    /// <param name="path">The workshop file.</param>
    /// <param name="shownName">How it is called in messages.</param>
    public static Outcome<WorkshopBook> Read(string path, string shownName)
    {
        var text = JsonText.Read(path, shownName);
        return text.Ok ? From(text.Value) : text.Fault;
    }

    /// <summary>The same of a text that is no file of its own.</summary>
    public static Outcome<WorkshopBook> Parse(byte[] utf8, string shownName)
    {
        var text = JsonText.Parse(utf8, shownName);
        return text.Ok ? From(text.Value) : text.Fault;
    }

    /// <summary>All that is wrong with a text, each with its place in it; first what the schema says, and the other rules where it is content.</summary>
    public static ImmutableArray<Fault> Faults(byte[] utf8, string shownName)
    {
        var text = JsonText.Parse(utf8, shownName);
        if (!text.Ok)
        {
            return [text.Fault];
        }

        ImmutableArray<Fault> schema = [.. SchemaCheck.Of("workshop").All(text.Value)];
        return schema.IsEmpty ? [.. WorkshopRules.All(text.Value)] : schema;
    }

    /// <summary>What a field of a workshop file may hold, by the schema; null where it has no such place.</summary>
    /// <param name="place">The place, as a JSON Pointer.</param>
    public static FieldLimits? Limits(string place)
    {
        if (SchemaCheck.Of("workshop").Place(place) is not { } schema)
        {
            return null;
        }

        var type =
            schema.TryGetProperty("type", out var told) && told.ValueKind == JsonValueKind.String
                ? told.GetString()
                : "string";
        return new(
            type switch
            {
                "integer" => FieldKind.Whole,
                "number" => FieldKind.Number,
                _ => FieldKind.Text,
            },
            Bound(schema, "minimum") ?? Bound(schema, "exclusiveMinimum"),
            Bound(schema, "maximum") ?? Bound(schema, "exclusiveMaximum")
        )
        {
            AboveLeast = schema.TryGetProperty("exclusiveMinimum", out _),
            MostLetters = (int?)Bound(schema, "maxLength"),
            Choices = schema.TryGetProperty("enum", out var choices)
                ? [.. choices.EnumerateArray().Select(c => c.ToString())]
                : [],
        };
    }

    private static double? Bound(JsonElement schema, string keyword) =>
        schema.TryGetProperty(keyword, out var bound) ? bound.GetDouble() : null;

    /// <summary>The example workshop that is built in: invented presses and prices, figures with their sources.</summary>
    public static WorkshopBook Example() => Built.Value.Book;

    /// <summary>The example's file, to be copied and changed.</summary>
    public static byte[] ExampleText() => [.. Built.Value.Text];

    private static (byte[] Text, WorkshopBook Book) ReadExample()
    {
        using var stream =
            typeof(WorkshopBookReader).Assembly.GetManifestResourceStream("example-workshop.json")
            ?? throw new InvalidOperationException("The example workshop is not built in.");
        using var bytes = new MemoryStream();
        stream.CopyTo(bytes);
        var text = JsonText.Parse(bytes.ToArray(), "the example workshop");
        var book = text.Ok ? From(text.Value) : text.Fault;
        return book.Ok ? (bytes.ToArray(), book.Value) : throw new InvalidOperationException(book.Fault.ToString());
    }

    private static Outcome<WorkshopBook> From(JsonText text)
    {
        if (SchemaCheck.Of("workshop").First(text) is { } broken)
        {
            return broken;
        }

        return WorkshopRules.First(text) is { } fault ? fault : Book(text.Root);
    }

    private static WorkshopBook Book(JsonElement e) =>
        new(
            e.Text("name"),
            e.Whole("printerDpi"),
            e.All("sheets", Sheet),
            e.Number("gapMm"),
            e.Text("trim") == "straight" ? Trim.Straight : Trim.Scissors,
            Turns(e.GetProperty("turns")),
            e.Number("heatCPerMin"),
            e.Number("coolCPerMin"),
            e.Whole("hands"),
            e.Whole("rackPlaces"),
            TimeOnly.ParseExact(e.Text("dayStart"), "HH:mm", CultureInfo.InvariantCulture),
            e.All(
                "presses",
                p => new HeatPress(
                    p.Text("id"),
                    p.Whole("plateWidthMm"),
                    p.Whole("plateHeightMm"),
                    p.Whole("setpointC")
                )
                {
                    ClearanceMm = p.NumberOrNull("clearanceMm"),
                    Contacts = p.TryGetProperty("contacts", out var c)
                        ? new(c.NumberOrNull("upperWm2K"), c.NumberOrNull("itemWm2K"), c.NumberOrNull("padWm2K"))
                        : null,
                }
            ),
            e.All("processes", Process),
            e.All("materials", Material),
            e.All("recipes", r => new Recipe(r.Text("process"), r.Text("material"), r.All("changes", Change))),
            e.All("placements", Placement),
            Prices(e.GetProperty("prices")),
            Care(e.GetProperty("printCare")),
            e.All("careTips", t => t.GetString()!),
            e.TextOrNull("careSymbolsLicence"),
            e.All("washTrials", Trial),
            e.Text("appUrl").TrimEnd('/'),
            e.Number("fabricShowsWhiteDeltaE")
        )
        {
            Remnants = e.All("remnants", Remnant),
            Spares = e.TryGetProperty("spares", out var spares) ? SparesOf(spares) : null,
            InRings = !e.TryGetProperty("inRings", out var inRings) || inRings.GetBoolean(),
            Sources = e.TryGetProperty("sources", out var sources)
                ? sources.EnumerateObject().ToImmutableDictionary(s => s.Name, s => s.Value.GetString()!)
                : ImmutableDictionary<string, string>.Empty,
        };

    private static SheetStock Sheet(JsonElement e) =>
        new(
            Length.FromMillimetres(e.Number("widthMm")),
            Length.FromMillimetres(e.Number("heightMm")),
            Length.FromMillimetres(e.Number("marginMm")),
            e.WholeOrNull("count"),
            e.NumberOrNull("cost") ?? 1
        );

    private static StartedSheet Remnant(JsonElement e) =>
        new(Sheet(e) with { Count = e.WholeOrNull("count") ?? 1, Cost = 0 }, e.TextOrNull("process"));

    private static SpareRule SparesOf(JsonElement e) =>
        new(
            e.Number("probability"),
            e.NumberOrNull("rejectRate"),
            e.WholeOrNull("rejects") is { } rejects ? new(rejects, e.Whole("of")) : null,
            e.TryGetProperty("always", out var always) && always.GetBoolean()
        );

    private static Turns Turns(JsonElement e) =>
        e.ValueKind == JsonValueKind.Array
            ? new([.. e.EnumerateArray().Select(d => d.GetDouble())], false)
            : new([], true);

    private static Process Process(JsonElement e)
    {
        var limits = e.GetProperty("limits");
        return new(
            e.Text("id"),
            e.Text("name"),
            new ProcessLimits(
                limits.Number("lineMm"),
                limits.Number("gapMm"),
                limits.Number("dotMm"),
                limits.Number("tintPercent"),
                limits.Number("pictureDpi")
            )
            {
                SolidMm = limits.NumberOrNull("solidMm"),
                TextMm = limits.NumberOrNull("textMm"),
            },
            limits.Text("source"),
            e.All("steps", Step)
        )
        {
            GlueSoftensC = e.WholeOrNull("glueSoftensC"),
            Gains = e.TryGetProperty("gain", out var gains)
                ? gains.EnumerateObject().ToImmutableDictionary(g => ToneWords.Read(g.Name)!.Value, g => Gain(g.Value))
                : ImmutableDictionary<Tone, DotGain>.Empty,
        };
    }

    private static DotGain Gain(JsonElement e) =>
        new(e.NumberOrNull("n") ?? 1, ToneCurve.Through(TonePoints.Read(e, "points")), e.Text("source"));

    private static ProcessStep Step(JsonElement e) =>
        new(
            Kind(e.Text("do")),
            e.Text("say"),
            e.WholeOrNull("celsius"),
            e.Whole("seconds"),
            e.WholeOrNull("kPa"),
            e.TextOrNull("cover"),
            e.WholeOrNull("loadSeconds") ?? 0,
            e.WholeOrNull("unloadSeconds") ?? 0,
            e.Text("source")
        )
        {
            Evidence = EvidenceOf(e),
        };

    private static StepChange Change(JsonElement e) =>
        new(
            Kind(e.Text("do")),
            e.WholeOrNull("celsius"),
            e.WholeOrNull("seconds"),
            e.WholeOrNull("kPa"),
            e.TextOrNull("cover"),
            e.Text("source")
        )
        {
            Evidence = EvidenceOf(e),
        };

    private static Evidence EvidenceOf(JsonElement e) =>
        e.TextOrNull("evidence") is { } words ? EvidenceWords.Read(words)!.Value : Evidence.CommonPractice;

    private static Material Material(JsonElement e) =>
        new(
            e.Text("id"),
            e.Text("name"),
            e.Text("process"),
            e.Number("thicknessMm"),
            e.All("cautions", c => Caution(c.GetString()!)),
            Care(e.GetProperty("care")),
            e.Text("source")
        )
        {
            EdgeMmPerCm2 = e.NumberOrNull("edgeMmPerCm2"),
            Heat = e.TextOrNull("heat"),
        };

    private static PlacementRule Placement(JsonElement e) =>
        new(
            e.Text("name"),
            e.Number("maxWidthMm"),
            e.Number("maxHeightMm"),
            e.Text("from"),
            e.Number("downMm"),
            e.Text("across"),
            e.Number("acrossMm"),
            e.Whole("plateWidthMm"),
            e.Whole("plateHeightMm"),
            e.Text("sketch"),
            e.Text("source")
        )
        {
            Crosses = e.All("keepOffThePlate", c => c.GetString()!),
        };

    private static PriceList Prices(JsonElement e) =>
        new(
            e.Text("currency"),
            e.Decimal("filmPerM2"),
            e.Decimal("adhesivePerM2"),
            e.Decimal("tonerPerGram"),
            e.Decimal("tonerGramPerM2"),
            e.Decimal("pressPerHour"),
            e.Decimal("handPerHour"),
            e.Decimal("setUpMinutes"),
            e.Decimal("spoilagePercent"),
            e.Decimal("marginPercent"),
            e.Decimal("taxPercent"),
            e.GetProperty("blanks").EnumerateObject().ToImmutableDictionary(b => b.Name, b => b.Value.GetDecimal()),
            e.Text("source")
        );

    private static CareLimits Care(JsonElement e) =>
        new(
            e.Whole("washC"),
            e.Whole("washGentle"),
            e.Whole("bleach"),
            e.Whole("tumbleC"),
            e.Whole("ironC"),
            e.GetProperty("dryClean").GetBoolean()
        );

    private static WashTrial Trial(JsonElement e) =>
        new(
            e.Text("process"),
            e.Text("material"),
            e.Whole("washes"),
            e.Whole("pieces"),
            e.Whole("survived"),
            DateOnly.ParseExact(e.Text("on"), "yyyy-MM-dd", CultureInfo.InvariantCulture)
        )
        {
            Source = e.Text("source"),
        };

    private static StepKind Kind(string word) =>
        word switch
        {
            "print" => StepKind.Print,
            "bond" => StepKind.Bond,
            "hot-peel" => StepKind.HotPeel,
            "trim" => StepKind.Trim,
            "pre-press" => StepKind.PrePress,
            "press" => StepKind.Press,
            "cool" => StepKind.Cool,
            "cold-peel" => StepKind.ColdPeel,
            "finish-press" => StepKind.FinishPress,
            "inspect" => StepKind.Inspect,
            _ => throw new InvalidOperationException($"The schema lets the step \"{word}\" through."),
        };

    private static MaterialCaution Caution(string word) =>
        word switch
        {
            "coated" => MaterialCaution.Coated,
            "nylon" => MaterialCaution.Nylon,
            "elastane" => MaterialCaution.Elastane,
            "leather" => MaterialCaution.Leather,
            "dye-migration" => MaterialCaution.DyeMigration,
            "unknown" => MaterialCaution.Unknown,
            _ => throw new InvalidOperationException($"The schema lets the caution \"{word}\" through."),
        };
}
