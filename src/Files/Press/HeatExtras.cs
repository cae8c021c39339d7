using System.Text.Json.Nodes;
using Coldpeel.Craft.Press.Heat;
using Coldpeel.Workshop.Press;
using static Coldpeel.Files.Press.HeatAnswerFile;

namespace Coldpeel.Files.Press;

/// <summary>What was asked beyond temperatures, as keys of the answer that lead with x-.</summary>
internal static class HeatExtras
{
    // Press times at which chances are told, s.
    private static readonly double[] ChanceTimes = [5, 10, 15, 20, 25, 30, 45, 60, 90, 120, 180, 300];

    public static void Add(JsonObject document, HeatAsk ask, HeatReport report)
    {
        document["x-errorC"] = Number(report.Error.Kelvin);
        document["x-errorS"] = Number(report.Error.Seconds);
        document["x-evidence"] = EvidenceWords.Of(report.Evidence);
        if (report.Window is { } window)
        {
            document["x-window"] = Window(window, ask, report);
        }

        if (report.GlueFitted is { } glue)
        {
            document["x-trials"] = new JsonObject
            {
                ["speed"] = Number(glue.Speed),
                ["lowSpeed"] = Number(glue.Low),
                ["highSpeed"] = Number(glue.High),
                ["trials"] = ask.Trials.Length,
                ["doubt"] = report.GlueDoubt,
            };
        }

        if (ask.HotPeel is { } peel)
        {
            document["x-hotPeel"] = new JsonObject
            {
                ["stage"] = ask.Problem.Stages[peel.Stage].Name,
                ["aboveC"] = Number(peel.AboveC),
                ["holdsS"] = Number(report.HotPeel!.GlueLineS),
                ["under"] = report.HotPeel.Under,
                ["underHoldsS"] = Maybe(report.HotPeel.UnderS),
            };
        }

        if (report.Cool is { } cool)
        {
            document["x-cool"] = new JsonObject
            {
                ["untilC"] = Number(ask.Cool!.UntilC),
                ["rackS"] = Maybe(cool.RackS),
                ["tableS"] = Maybe(cool.TableS),
                ["metalS"] = Maybe(cool.MetalS),
            };
        }

        if (report.Fitted is { } fitted)
        {
            document["x-measured"] = Measured(fitted, report.Doubt);
        }

        if (report.Plate.Length > 0)
        {
            document["x-plate"] = Plate(report);
        }

        if (report.Chances is { } chances)
        {
            document["x-chances"] = Chances(chances, report, ask);
        }

        document["x-cautions"] = new JsonArray([.. HeatCautions.Of(ask, report).Select(c => JsonValue.Create(c))]);
    }

    /// <summary>The name of a contact for people.</summary>
    public static string Name(HeatUnknown contact) =>
        contact switch
        {
            HeatUnknown.Between b => $"{b.Above} on {b.Below}",
            HeatUnknown.UpperPlate => "upper plate",
            _ => "lower plate",
        };

    private static JsonObject Window(WindowAnswer answer, HeatAsk ask, HeatReport report) =>
        new()
        {
            ["stage"] = answer.Stage,
            ["open"] = answer.Window.Open,
            ["shortestS"] = Maybe(answer.Window.ShortestS),
            ["longestS"] = Maybe(answer.Window.LongestS),
            ["healedS"] = Maybe(answer.Window.HealedS),
            ["enteredS"] = Maybe(answer.Window.EnteredS),
            ["harmed"] = answer.Window.Harmed,
            ["harm"] = answer.Window.Harm,
            ["setpointC"] = Maybe(answer.SetpointC),
            ["glue"] = report.GlueFrom(ask),
            ["say"] = answer.Say.English,
        };

    private static JsonObject Measured(HeatFitted fitted, string? doubt) =>
        new()
        {
            ["found"] = new JsonArray([
                .. fitted.Found.Select(f => new JsonObject
                {
                    ["contact"] = Name(f.Contact),
                    ["hWm2K"] = Number(f.Wm2K),
                    ["lowWm2K"] = Number(f.LowWm2K),
                    ["highWm2K"] = Number(f.HighWm2K),
                    ["from"] = doubt is null ? "measured here" : "not measured",
                }),
            ]),
            ["residualK"] = Number(fitted.ResidualK),
            ["settled"] = fitted.Settled,
            ["doubt"] = doubt,
            ["contacts"] = doubt is null && PressContacts.Of(fitted) is { } kept ? PressContactsText.Json(kept) : null,
        };

    private static JsonObject Plate(HeatReport report)
    {
        var (shortest, longest) = WholePlate(report);
        return new()
        {
            ["points"] = new JsonArray([
                .. report.Plate.Select(p => new JsonObject
                {
                    ["celsius"] = Number(p.Celsius),
                    ["shortestS"] = Maybe(p.Window.ShortestS),
                    ["longestS"] = Maybe(p.Window.LongestS),
                }),
            ]),
            ["shortestS"] = Maybe(shortest),
            ["longestS"] = Maybe(longest),
        };
    }

    /// <summary>The window of the whole plate: the coldest point must bond, the hottest must not harm.</summary>
    public static (double? ShortestS, double? LongestS) WholePlate(HeatReport report) =>
        (
            report.Plate.All(p => p.Window.ShortestS is not null) ? report.Plate.Max(p => p.Window.ShortestS) : null,
            report.Plate.Min(p => p.Window.LongestS)
        );

    private static JsonObject Chances(HeatChances chances, HeatReport report, HeatAsk ask) =>
        new()
        {
            ["samples"] = chances.Samples,
            ["seed"] = ask.Chances!.Seed,
            ["at"] = new JsonArray([
                .. ChanceTimes
                    .Append(report.Problem.Stages[ask.Window!.Stage].Seconds)
                    .Distinct()
                    .Order()
                    .Select(chances.At)
                    .Select(c => new JsonObject
                    {
                        ["seconds"] = Number(c.Seconds),
                        ["bonds"] = Number(c.Bonds),
                        ["harms"] = Number(c.Harms),
                    }),
            ]),
            ["bonds95S"] = Number(chances.ShortestS(0.95)),
            ["harms5S"] = Number(chances.LongestS(0.05)),
        };

    private static JsonNode? Maybe(double? value) => value is { } v ? Number(v) : null;
}
