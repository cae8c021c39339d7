using System.Collections.Immutable;
using System.Text.Json;
using Coldpeel.Craft.Artwork;
using Coldpeel.Files.Json;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Orders;

/// <summary>Processes, materials and recipes of a workshop file that schema and rules have let through.</summary>
internal static class ProcessParts
{
    /// <summary>A process with its steps.</summary>
    public static Process Process(JsonElement e)
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
            Untried = e.TryGetProperty("untried", out var untried) && untried.GetBoolean(),
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

    /// <summary>What a material changes in the steps of its process.</summary>
    public static Recipe Recipe(JsonElement e) => new(e.Text("process"), e.Text("material"), e.All("changes", Change));

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

    /// <summary>A material.</summary>
    public static Material Material(JsonElement e) =>
        new(
            e.Text("id"),
            e.Text("name"),
            e.Text("process"),
            e.Number("thicknessMm"),
            e.All("cautions", c => Caution(c.GetString()!)),
            WorkshopParts.Care(e.GetProperty("care")),
            e.Text("source")
        )
        {
            EdgeMmPerCm2 = e.NumberOrNull("edgeMmPerCm2"),
            Heat = e.TextOrNull("heat"),
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
