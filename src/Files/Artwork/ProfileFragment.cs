using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Coldpeel.Workshop.Artwork;

namespace Coldpeel.Files.Artwork;

/// <summary>Parts of a process as the workshop file writes them, to be copied there.</summary>
public static partial class ProfileFragment
{
    private static readonly JsonSerializerOptions Written = new()
    {
        WriteIndented = true,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>The key <c>limits</c> of a process.</summary>
    public static string Of(TickedTarget ticked)
    {
        ArgumentNullException.ThrowIfNull(ticked);
        var l = ticked.Limits;
        var limits = new JsonObject
        {
            ["lineMm"] = l.LineMm,
            ["gapMm"] = l.GapMm,
            ["dotMm"] = l.DotMm,
            ["tintPercent"] = l.TintPercent,
            ["pictureDpi"] = l.PictureDpi,
        };
        if (l.SolidMm is { } solid)
        {
            limits["solidMm"] = solid;
        }

        if (l.TextMm is { } text)
        {
            limits["textMm"] = text;
        }

        limits["source"] =
            ticked.Source + (ticked.Kept.IsEmpty ? "" : $"; {string.Join(", ", ticked.Kept)} not tried: as before");
        return new JsonObject { ["limits"] = limits }.ToJsonString(Written);
    }

    /// <summary>The key <c>gain</c> of a process, with one tone.</summary>
    public static string Of(MeasuredWedge wedge)
    {
        ArgumentNullException.ThrowIfNull(wedge);
        var points = wedge.Gain.Curve.Points.Select(p =>
            (JsonNode)new JsonArray(Math.Round(100 * p.Asked, 2), Math.Round(100 * p.Printed, 2))
        );
        var text = new JsonObject
        {
            ["gain"] = new JsonObject
            {
                [ToneWords.Say(wedge.Tone)] = new JsonObject
                {
                    ["n"] = wedge.Gain.N,
                    ["points"] = new JsonArray([.. points]),
                    ["source"] = wedge.Gain.Source,
                },
            },
        }.ToJsonString(Written);
        // A pair a line is read at a glance.
        return Pair().Replace(text, "[$1, $2]");
    }

    [GeneratedRegex(@"\[\s+([0-9.]+),\s+([0-9.]+)\s+\]")]
    private static partial Regex Pair();
}
