using System.Collections.Immutable;
using System.Text.Json;
using Coldpeel.Craft.Press.Heat;
using Coldpeel.Files.Json;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Press;

/// <summary>Reads temperatures that probes have measured in a stack, and which contacts are to be found from them.</summary>
internal static class StackMeasured
{
    /// <summary>The readings and the contacts to be found from them, or null where the file has none.</summary>
    public static MeasuredHeat? Read(JsonElement root, HeatProblem problem, StackFaults faults)
    {
        if (!root.TryGetProperty("x-measured", out var e))
        {
            return null;
        }

        var unknown = ImmutableArray.CreateBuilder<HeatUnknown>();
        foreach (var (u, i) in e.GetProperty("unknown").EnumerateArray().Select((u, i) => (u, i)))
        {
            var at = $"/x-measured/unknown/{i}";
            HeatUnknown found =
                u.ValueKind == JsonValueKind.Object ? new HeatUnknown.Between(u.Text("above"), u.Text("below"))
                : u.GetString() == "upper" ? new HeatUnknown.UpperPlate()
                : new HeatUnknown.LowerPlate();
            var guessed = found switch
            {
                HeatUnknown.Between b => problem.Contacts.Any(c => c.Above == b.Above && c.Below == b.Below),
                HeatUnknown.UpperPlate => problem.Stages.Any(s => HasContact(s.Upper)),
                _ => problem.Stages.Any(s => HasContact(s.Lower)),
            };
            if (!guessed)
            {
                faults.Fail(at, "no such contact stands in the file.", "Give it there with a first guess of hWm2K.");
            }

            unknown.Add(found);
        }

        var readings = e.GetProperty("readings")
            .EnumerateArray()
            .Select(r => new HeatReading(
                r.Text("below"),
                r.NumberOrNull("atS"),
                r.Number("celsius"),
                r.NumberOrNull("withinK") ?? (r.NumberOrNull("atS") is null ? 2 : 1)
            ))
            .ToImmutableArray();
        var end = problem.Stages.Sum(s => s.Seconds);
        for (var i = 0; i < readings.Length; i++)
        {
            faults.Knows(readings[i].Layer, $"/x-measured/readings/{i}/below");
            if (readings[i].TimeS > end)
            {
                faults.Fail(
                    $"/x-measured/readings/{i}/atS",
                    FormattableString.Invariant($"all stages end after {end:0.#} s."),
                    "Give seconds from the start of the first stage."
                );
            }
        }

        if (readings.Length < unknown.Count)
        {
            faults.Fail(
                "/x-measured/readings",
                "there are fewer readings than contacts to find.",
                "Measure more, or leave contacts as they are."
            );
        }

        return new(unknown.ToImmutable(), readings);
    }

    private static bool HasContact(HeatSide side) =>
        side is HeatSide.Held { ContactWm2K: not null } or HeatSide.Course { ContactWm2K: not null };
}
