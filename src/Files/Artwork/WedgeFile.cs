using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Coldpeel.Craft.Artwork;
using Coldpeel.Files.Json;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Artwork;

/// <summary>What a measured wedge tells about one tone.</summary>
public sealed record MeasuredWedge(Tone Tone, DotGain Gain, bool Fitted);

/// <summary>The form of a step wedge: every patch with a place for its reading (docs/schemas/wedge.schema.json).</summary>
public static class WedgeFile
{
    private static readonly string[] Readings = ["reflectance", "density", "tint"];

    /// <summary>The form, without readings: each patch waits for a reflectance, a density or a tint.</summary>
    public static byte[] Form(Tone tone, IEnumerable<int> steps)
    {
        var rows = steps.Select(s =>
            string.Create(CultureInfo.InvariantCulture, $"    {{ \"asked\": {s}, \"reflectance\": null }}")
        );
        return Encoding.UTF8.GetBytes(
            $"{{\n  \"format\": \"coldpeel-wedge/1\",\n  \"tone\": \"{ToneWords.Say(tone)}\",\n  \"n\": 1,\n  \"source\": \"own wedge of (day)\",\n"
                + $"  \"steps\": [\n{string.Join(",\n", rows)}\n  ]\n}}\n"
        );
    }

    /// <summary>Reads readings into a curve.</summary>
    /// <param name="path">The filled form.</param>
    /// <param name="shownName">How it is called in messages.</param>
    public static Outcome<MeasuredWedge> Read(string path, string shownName)
    {
        var text = JsonText.Read(path, shownName);
        if (!text.Ok)
        {
            return text.Fault;
        }

        if (SchemaCheck.Of("wedge").First(text.Value) is { } broken)
        {
            return broken;
        }

        var root = text.Value.Root;
        var steps = root.All("steps", e => e);
        if (Unread(text.Value, steps) is { } unread)
        {
            return unread;
        }

        var (tone, source) = (ToneWords.Read(root.Text("tone"))!.Value, root.TextOrNull("source") ?? shownName);
        if (steps[0].TryGetProperty("tint", out _))
        {
            var told = steps.Select(s => new TonePoint(s.Number("asked") / 100, s.Number("tint") / 100));
            return new MeasuredWedge(tone, new(1, ToneCurve.Through(told), source), false);
        }

        return Reckoned(text.Value, steps, tone, source);
    }

    private static Outcome<MeasuredWedge> Reckoned(
        JsonText text,
        ImmutableArray<JsonElement> steps,
        Tone tone,
        string source
    )
    {
        var readings = steps
            .Select(s => new WedgeReading(
                s.Number("asked") / 100,
                s.NumberOrNull("reflectance") ?? DotGainFit.OfDensity(s.Number("density"))
            ))
            .GroupBy(r => r.Asked)
            .ToDictionary(g => g.Key, g => g.Average(r => r.Reflectance));
        if (!readings.TryGetValue(0, out var ground) || !readings.TryGetValue(1, out var solid))
        {
            return text.Fault(
                "/steps",
                "the bare ground (asked 0) or the solid (asked 100) is missing.",
                "Measure both: all steps are told against them."
            );
        }

        // Below this the instrument's own scatter would be taken for tints.
        if (Math.Abs(ground - solid) < 0.05)
        {
            return text.Fault(
                "/steps",
                "bare ground and solid read nearly alike.",
                "Measure a print on a fabric of another colour: white needs a dark one."
            );
        }

        var between = readings
            .Where(r => r.Key is > 0 and < 1)
            .Select(r => new WedgeReading(r.Key, r.Value))
            .ToImmutableArray();
        if (between.IsEmpty)
        {
            return text.Fault("/steps", "no step between bare and solid was read.", "Measure the patches too.");
        }

        var fitted = text.Root.TryGetProperty("n", out var asked) && asked.ValueKind == JsonValueKind.String;
        var n = fitted ? DotGainFit.FitN(between, ground, solid) : text.Root.NumberOrNull("n") ?? 1;
        return new MeasuredWedge(tone, new(n, DotGainFit.Curve(between, ground, solid, n), source), fitted);
    }

    /// <summary>Every step has exactly one reading, and all have the same kind.</summary>
    private static Fault? Unread(JsonText text, ImmutableArray<JsonElement> steps)
    {
        string? first = null;
        for (var k = 0; k < steps.Length; k++)
        {
            var kinds = Readings.Where(r => steps[k].TryGetProperty(r, out _)).ToArray();
            if (kinds.Length != 1 || kinds[0] != (first ??= kinds[0]))
            {
                return text.Fault(
                    string.Create(CultureInfo.InvariantCulture, $"/steps/{k}"),
                    kinds.Length == 0 ? (Sentence)"the step has no reading."
                        : kinds.Length > 1 ? (Sentence)"the step has more than one reading."
                        : $"the step has a {kinds[0]} where others have a {first}.",
                    "Give every step one reading of the same kind: reflectance, density or tint; leave out patches that you did not measure."
                );
            }
        }

        return null;
    }
}
