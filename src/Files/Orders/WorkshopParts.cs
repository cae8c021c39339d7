using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Sheets;
using Coldpeel.Files.Json;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;
using Coldpeel.Workshop.Sheets;
using Coldpeel.Workshop.Wash;

namespace Coldpeel.Files.Orders;

/// <summary>The workshop of a file that schema and rules have let through.</summary>
internal static class WorkshopParts
{
    /// <summary>All of it.</summary>
    public static WorkshopBook Book(JsonElement e) =>
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
            e.All("processes", ProcessParts.Process),
            e.All("materials", ProcessParts.Material),
            e.All("recipes", ProcessParts.Recipe),
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

    /// <summary>How something may be treated at most.</summary>
    public static CareLimits Care(JsonElement e) =>
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
}
