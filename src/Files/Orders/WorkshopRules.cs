using System.Globalization;
using System.Text.Json;
using Coldpeel.Files.Json;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Quotes;

namespace Coldpeel.Files.Orders;

/// <summary>The rules of a workshop file that a schema cannot hold.</summary>
internal static class WorkshopRules
{
    private static readonly string[] Heated = ["bond", "pre-press", "press", "finish-press"];

    /// <summary>The first rule that is broken, or null.</summary>
    public static Fault? First(JsonText file) => All(file).FirstOrDefault();

    /// <summary>The rules that are broken, each once; where names do not belong together, what builds on them is not asked.</summary>
    public static IEnumerable<Fault> All(JsonText file)
    {
        Func<JsonText, Fault?>[] names =
        [
            f => Twice(f, "presses", "id"),
            f => Twice(f, "processes", "id"),
            f => Twice(f, "materials", "id"),
            f => Twice(f, "placements", "name"),
            f => Sheets(f, "sheets"),
            f => Sheets(f, "remnants"),
            f => Names(f, "remnants", "process", "processes"),
            Spares,
            Steps,
            Gains,
            f => Names(f, "materials", "process", "processes"),
            f => Names(f, "recipes", "process", "processes"),
            f => Names(f, "recipes", "material", "materials"),
        ];
        Func<JsonText, Fault?>[] rest =
        [
            Recipes,
            f => Names(f, "washTrials", "process", "processes"),
            f => Names(f, "washTrials", "material", "materials"),
            Trials,
            Currency,
        ];
        var broken = false;
        foreach (var fault in names.Select(rule => rule(file)).OfType<Fault>())
        {
            broken = true;
            yield return fault;
        }

        foreach (var fault in broken ? [] : rest.Select(rule => rule(file)).OfType<Fault>())
        {
            yield return fault;
        }
    }

    private static Fault? Currency(JsonText file)
    {
        var currency = file.Root.GetProperty("prices").Text("currency");
        return Currencies.MinorUnits(currency) is null
            ? file.Fault(
                "/prices/currency",
                $"\"{currency}\" is no currency we know.",
                "Write an ISO 4217 code, like EUR."
            )
            : null;
    }

    private static Fault? Twice(JsonText file, string list, string key)
    {
        var seen = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        return Each(file.Root, list)
            .Where(x => !seen.Add(x.Element.Text(key)))
            .Select(x =>
                file.Fault(
                    $"{x.At}/{key}",
                    $"\"{x.Element.Text(key)}\" stands twice in {list} (capitals do not count).",
                    "Give each a name of its own."
                ) with
                {
                    Kind = FaultKind.Twice,
                }
            )
            .FirstOrDefault();
    }

    private static Fault? Names(JsonText file, string list, string key, string among)
    {
        var known = file.Root.All(among, e => e.Text("id"));
        return Each(file.Root, list)
            .Where(x => x.Element.TextOrNull(key) is { } name && !known.Contains(name))
            .Select(x =>
                file.Fault(
                    $"{x.At}/{key}",
                    key == "process"
                        ? (Sentence)$"there is no process \"{x.Element.Text(key)}\"."
                        : $"there is no material \"{x.Element.Text(key)}\".",
                    $"{among} holds {Closest.Listed(x.Element.Text(key), known)}: use one of these, or add yours."
                )
            )
            .FirstOrDefault();
    }

    private static Fault? Sheets(JsonText file, string list) =>
        Each(file.Root, list)
            .Where(x =>
                Math.Min(x.Element.Number("widthMm"), x.Element.Number("heightMm")) <= 2 * x.Element.Number("marginMm")
            )
            .Select(x =>
                file.Fault($"{x.At}/marginMm", "the margins leave nothing to print on.", "Write a smaller margin.")
            )
            .FirstOrDefault();

    private static Fault? Spares(JsonText file)
    {
        if (!file.Root.TryGetProperty("spares", out var spares))
        {
            return null;
        }

        var (rate, record) = (spares.TryGetProperty("rejectRate", out _), spares.WholeOrNull("rejects"));
        return rate == record is not null
                ? file.Fault(
                    "/spares",
                    "the share that is spoilt is needed, once.",
                    "Write rejectRate, or rejects and of from your own record."
                )
            : record is not null && !(spares.WholeOrNull("of") >= record)
                ? file.Fault(
                    "/spares/of",
                    "more prints are spoilt than made.",
                    "Write how many were made in all as of."
                )
            : null;
    }

    private static Fault? Steps(JsonText file)
    {
        foreach (var (process, at) in Each(file.Root, "processes"))
        {
            foreach (var (step, here) in Each(process, "steps", at))
            {
                var heated = Heated.Contains(step.Text("do"));
                if (heated != step.TryGetProperty("celsius", out _))
                {
                    return heated
                        ? file.Fault(
                            here,
                            $"the step \"{step.Text("do")}\" has no set-point.",
                            "Write celsius for it."
                        ) with
                        {
                            At = here + "/celsius",
                            Kind = FaultKind.Missing,
                        }
                        : file.Fault(
                            here + "/celsius",
                            $"the step \"{step.Text("do")}\" is done without heat.",
                            "Leave celsius out."
                        );
                }
            }

            var press = process.GetProperty("steps").EnumerateArray().Any(s => s.Text("do") == "press");
            if (!press)
            {
                return file.Fault(at + "/steps", "the process never presses an item.", "Add a step with do: press.");
            }
        }

        return null;
    }

    private static Fault? Gains(JsonText file) =>
        Each(file.Root, "processes")
            .Where(p => p.Element.TryGetProperty("gain", out _))
            .SelectMany(p =>
                p.Element.GetProperty("gain")
                    .EnumerateObject()
                    .Select(tone =>
                        TonePoints.Fault(file, tone.Value, $"{p.At}/gain{JsonText.Step(tone.Name)}", "points")
                    )
            )
            .FirstOrDefault(f => f is not null);

    private static Fault? Recipes(JsonText file)
    {
        var steps = file
            .Root.GetProperty("processes")
            .EnumerateArray()
            .ToDictionary(p => p.Text("id"), p => p.All("steps", s => s.Text("do")));
        var seen = new HashSet<(string, string)>();
        foreach (var (recipe, at) in Each(file.Root, "recipes"))
        {
            if (!seen.Add((recipe.Text("process"), recipe.Text("material"))))
            {
                return file.Fault(
                    at,
                    $"there are two recipes for {recipe.Text("material")} by {recipe.Text("process")}.",
                    "Keep one of them."
                );
            }

            foreach (var (change, here) in Each(recipe, "changes", at))
            {
                var kind = change.Text("do");
                if (!steps[recipe.Text("process")].Contains(kind))
                {
                    return file.Fault(
                        here + "/do",
                        $"the process \"{recipe.Text("process")}\" has no step \"{kind}\".",
                        $"It has {Closest.Listed(kind, steps[recipe.Text("process")].Distinct(), 10)}."
                    );
                }

                if (!Heated.Contains(kind) && change.TryGetProperty("celsius", out _))
                {
                    return file.Fault(
                        here + "/celsius",
                        $"the step \"{kind}\" is done without heat.",
                        "Leave celsius out."
                    );
                }
            }
        }

        return null;
    }

    private static Fault? Trials(JsonText file)
    {
        foreach (var (trial, at) in Each(file.Root, "washTrials"))
        {
            if (trial.Whole("survived") > trial.Whole("pieces"))
            {
                return file.Fault(
                    at + "/survived",
                    "more pieces came through than were washed.",
                    "Correct one of the two."
                );
            }

            if (
                !DateOnly.TryParseExact(
                    trial.Text("on"),
                    "yyyy-MM-dd",
                    CultureInfo.InvariantCulture,
                    DateTimeStyles.None,
                    out _
                )
            )
            {
                return file.Fault(
                    at + "/on",
                    $"{trial.Text("on")} is no day of the calendar.",
                    "Write year-month-day."
                );
            }
        }

        return null;
    }

    private static IEnumerable<(JsonElement Element, string At)> Each(JsonElement e, string list, string at = "") =>
        e.All(list, x => x).Select((x, i) => (x, string.Create(CultureInfo.InvariantCulture, $"{at}/{list}/{i}")));
}
