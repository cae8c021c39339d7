using System.Text.Json.Nodes;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Press;

/// <summary>The answer of <c>heat</c> as JSON; temperatures to a thousandth of a degree, null where the boundary is not there.</summary>
public static class HeatAnswerFile
{
    /// <summary>One JSON document.</summary>
    public static string Write(HeatAsk ask, HeatReport report)
    {
        ArgumentNullException.ThrowIfNull(ask);
        ArgumentNullException.ThrowIfNull(report);
        var answer = report.Heat;
        var document = new JsonObject
        {
            ["reachedS"] = answer.ReachedS is { } reached ? Number(reached) : null,
            ["heldAboveS"] = Number(answer.HeldAboveS),
            ["boundaries"] = new JsonArray([
                .. answer.Boundaries.Select(b => new JsonObject
                {
                    ["between"] = new JsonArray(b.Above, b.Below),
                    ["upperSideC"] = Numbers(b.UpperSideC),
                    ["lowerSideC"] = Numbers(b.LowerSideC),
                }),
            ]),
            ["timesS"] = Numbers(answer.TimesS),
            ["glueLineC"] = Numbers(answer.GlueLineC),
            ["hottestC"] = new JsonObject(
                answer
                    .HottestC.OrderBy(h => h.Key, StringComparer.Ordinal)
                    .Select(h => KeyValuePair.Create(h.Key, Number(h.Value)))
            ),
        };
        if (answer.CoolS is { } cool)
        {
            document["coolS"] = Number(cool);
        }

        document["energyBalance"] = new JsonObject
        {
            ["inUpperJm2"] = Number(answer.Balance.InUpperJm2),
            ["inLowerJm2"] = Number(answer.Balance.InLowerJm2),
            ["laidInJm2"] = Number(answer.Balance.LaidInJm2),
            ["takenOutJm2"] = Number(answer.Balance.TakenOutJm2),
            ["storedJm2"] = Number(answer.Balance.StoredJm2),
            ["errorPercent"] = JsonValue.Create(answer.Balance.ErrorPercent),
            ["x-driedJm2"] = Number(answer.Balance.DriedJm2),
        };
        HeatExtras.Add(document, ask, report);
        document["x-stages"] = new JsonArray([
            .. answer.Stages.Select(s => new JsonObject
            {
                ["name"] = s.Name,
                ["startS"] = Number(s.StartS),
                ["endS"] = Number(s.EndS),
                ["passed"] = s.Passed,
            }),
        ]);
        return document.ToJsonString();
    }

    internal static JsonArray Numbers(IEnumerable<double> values) => new([.. values.Select(Number)]);

    internal static JsonNode? Number(double value) =>
        double.IsFinite(value) ? JsonValue.Create(Math.Round(value, 3)) : null;
}
