using System.Collections.Immutable;
using System.Text.Json;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Press;

/// <summary>A plan file as read: the name of its day, and the plan.</summary>
public sealed record DayPlanDocument(string Day, DayPlan Plan);

/// <summary>Reads and writes day plans.</summary>
public static class DayPlanFile
{
    /// <summary>What no press can take stands under this key: a list of what and why.</summary>
    public const string LeftOutKey = "x-leftOut";

    /// <summary>The text of a plan file.</summary>
    /// <param name="problem">The day.</param>
    /// <param name="plan">Its plan.</param>
    /// <param name="extras">Writes keys of our own (x-…) at the end.</param>
    public static string Write(DayProblem problem, DayPlan plan, Action<Utf8JsonWriter>? extras = null)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, DayFileWriter.Options))
        {
            json.WriteStartObject();
            json.WriteString("day", problem.Name);
            json.WriteStartArray("ops");
            foreach (var step in plan.Steps)
            {
                Step(json, step);
            }

            json.WriteEndArray();
            json.WriteNumber("makespanS", plan.MakespanS);
            json.WriteNumber("boundS", plan.BoundS);
            json.WriteBoolean("proved", plan.Proved);
            if (!plan.LeftOut.IsEmpty)
            {
                LeftOut(json, plan.LeftOut);
            }

            extras?.Invoke(json);

            json.WriteEndObject();
        }

        return System.Text.Encoding.UTF8.GetString(stream.ToArray()) + "\n";
    }

    /// <summary>The plan in a file; <paramref name="shownName"/> is what its faults call it.</summary>
    public static Outcome<DayPlanDocument> Read(string path, string shownName) =>
        DayFileText.Read(path, shownName, Plan);

    private static DayPlanDocument Plan(DayFileObject root)
    {
        var day = root.Text("day");
        var steps = root.List("ops", 200_000)
            .Select(o =>
            {
                var step = new DayStep(
                    o.Text("op"),
                    o.Text("ref"),
                    o.Whole("start", 0, 100_000_000),
                    o.Whole("end", 0, 100_000_000),
                    o.OptionalText("press"),
                    o.Has("hand") ? o.Whole("hand", 1, 100) : null,
                    o.Has("rack") ? o.Whole("rack", 1, 10_000) : null
                );
                o.NothingElse();
                return step;
            })
            .ToImmutableArray();
        var leftOut = root.Has(LeftOutKey)
            ? root.List(LeftOutKey, 20_000).Select(o => new DayLeftOut(o.Text("ref"), o.Text("why"))).ToImmutableArray()
            : [];
        return new(
            day,
            new DayPlan(
                steps,
                leftOut,
                root.Whole("makespanS", 0, 100_000_000),
                root.Whole("boundS", 0, 100_000_000),
                root.Truth("proved")
            )
        );
    }

    private static void Step(Utf8JsonWriter json, DayStep step)
    {
        json.WriteStartObject();
        json.WriteString("op", step.Op);
        json.WriteString("ref", step.Ref);
        json.WriteNumber("start", step.Start);
        json.WriteNumber("end", step.End);
        if (step.Press is not null)
        {
            json.WriteString("press", step.Press);
        }

        if (step.Hand is { } hand)
        {
            json.WriteNumber("hand", hand);
        }

        if (step.Rack is { } rack)
        {
            json.WriteNumber("rack", rack);
        }

        json.WriteEndObject();
    }

    private static void LeftOut(Utf8JsonWriter json, ImmutableArray<DayLeftOut> all)
    {
        json.WriteStartArray(LeftOutKey);
        foreach (var one in all)
        {
            json.WriteStartObject();
            json.WriteString("ref", one.Ref);
            json.WriteString("why", one.Why);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
