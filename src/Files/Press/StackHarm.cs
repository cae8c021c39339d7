using System.Collections.Immutable;
using System.Text.Json;
using Coldpeel.Craft.Press.Heat;
using Coldpeel.Files.Json;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Press;

/// <summary>Reads what the layers of a stack bear: a highest temperature, or a dose of heat.</summary>
internal static class StackHarm
{
    /// <summary>What materials bear at most: their own laws, and those that the file gives for a layer.</summary>
    public static ImmutableDictionary<string, HarmLaw> Read(
        JsonElement root,
        HeatProblem problem,
        IReadOnlyDictionary<string, HeatMaterial> materials,
        GlueLaw glue,
        StackFaults faults
    )
    {
        var harm = materials.Where(m => m.Value.Harm is not null).ToImmutableDictionary(m => m.Key, m => m.Value.Harm!);
        var list = root.TryGetProperty("x-harm", out var own) ? own.EnumerateArray().ToArray() : [];
        for (var i = 0; i < list.Length; i++)
        {
            var (at, name) = ($"/x-harm/{i}", list[i].Text("layer"));
            if (!faults.Knows(name, $"{at}/layer"))
            {
                continue;
            }

            var layer = problem.EveryLayer.First(l => l.Name == name);

            var (limit, seconds) = (list[i].NumberOrNull("limitC"), list[i].NumberOrNull("doseS"));
            if (limit is null && seconds is null)
            {
                faults.Fail(at, "it says neither limit nor dose.", "Give \"limitC\", or \"doseS\" with \"atC\".");
            }

            if (seconds is not null && list[i].NumberOrNull("atC") is null)
            {
                faults.Fail($"{at}/doseS", "a dose holds at a temperature.", "Give \"atC\" beside it.");
            }

            if (limit <= layer.Start.InCelsius)
            {
                faults.Fail(
                    $"{at}/limitC",
                    FormattableString.Invariant(
                        $"{name} would be harmed before it is pressed: it starts at {layer.Start.InCelsius:0} °C."
                    ),
                    "Give a limit above where it starts."
                );
            }
            else if (limit <= glue.SoftensC && UnderGlue(problem, name))
            {
                faults.Fail(
                    $"{at}/limitC",
                    FormattableString.Invariant(
                        $"{name} must stay below {limit:0} °C, and the glue that lies on it softens only at {glue.SoftensC:0} °C."
                    ),
                    "No press time can satisfy both: check the limit, or choose a glue that softens lower."
                );
            }

            harm = harm.SetItem(
                name,
                new(
                    limit,
                    seconds is { } s
                        ? new(list[i].NumberOrNull("atC") ?? 0, s, list[i].NumberOrNull("kJmol") ?? 120)
                        : null,
                    list[i].TextOrNull("what") ?? "it is harmed"
                )
            );
        }

        return harm;
    }

    private static bool UnderGlue(HeatProblem problem, string name)
    {
        var at = problem.Layers.Select(l => l.Name).ToList();
        var glue = at.IndexOf(problem.GlueLineBelow);
        return glue >= 0 && glue + 1 < at.Count && at[glue + 1] == name;
    }
}
