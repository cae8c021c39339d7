using System.Collections.Immutable;
using System.Globalization;

namespace Coldpeel.Workshop.Press;

/// <summary>What must be said beside every answer about heat.</summary>
public static class HeatCautions
{
    /// <summary>Beside every answer.</summary>
    public const string Always =
        "Hot plates burn: mind hands and faces; the makers' sheets, local rules and licensed practice come before anything told here.";

    // Above this a hot-melt glue may give off fumes: an estimate from memory, no source seen.
    private const double GlueC = 200;

    /// <summary>The cautions of an answer, the one that always holds last.</summary>
    /// <param name="ask">What was asked, for its materials.</param>
    /// <param name="report">What was answered.</param>
    public static ImmutableArray<string> Of(HeatAsk ask, HeatReport report)
    {
        ArgumentNullException.ThrowIfNull(ask);
        ArgumentNullException.ThrowIfNull(report);
        var hot = report
            .Hottest.Select(h => (h.Layer, h.Celsius, Limit: Limit(ask.Materials.GetValueOrDefault(h.Layer))))
            .Where(h => h.Celsius > h.Limit)
            .Select(h => Say($"{h.Layer} gets {h.Celsius:0} °C hot, above {h.Limit:0} °C"))
            .ToArray();
        return hot.Length == 0
            ? [Always]
            :
            [
                $"Fumes: {string.Join("; ", hot)}: work with fresh air that carries them off, press cooler, and follow the makers' sheets.",
                Always,
            ];
    }

    // PTFE, PET film and glue; the first two by the library's own limits.
    private static double? Limit(HeatMaterial? material) =>
        material?.Name switch
        {
            "ptfe" or "ptfe-cloth" or "polyester-film" => material.Harm?.LimitC,
            "hot-melt-film" => GlueC,
            _ => null,
        };

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
