using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Coldpeel.Craft.Artwork;
using Coldpeel.Files.Json;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Artwork;

/// <summary>The limits that a ticked target tells.</summary>
/// <param name="Limits">Those that were tried; those of the process for what was left out.</param>
/// <param name="Source">Whose trial it is.</param>
/// <param name="Kept">Parts that were left out.</param>
public sealed record TickedTarget(ProcessLimits Limits, string Source, ImmutableArray<string> Kept);

/// <summary>The form of a test target: every mark of the print with a place for its tick (docs/schemas/target.schema.json).</summary>
public static class TargetFile
{
    private static readonly string[] Directions = [.. TestTarget.Angles.Select(TestTarget.Say)];

    /// <summary>The form with nothing ticked.</summary>
    public static byte[] Form()
    {
        var text = new StringBuilder("{\n  \"format\": \"coldpeel-target/1\",\n  \"source\": \"own target of (day)\"");
        foreach (var part in Enum.GetValues<TargetPart>())
        {
            var ticks = TestTarget.AnglesOf(part).Length > 1 ? Directions : ["survived"];
            var rows = TestTarget
                .Sizes(part)
                .Select(size =>
                    $"    {{ \"{SizeKey(part)}\": {JsonSerializer.Serialize(size)}, {string.Join(", ", ticks.Select(t => $"\"{t}\": false"))} }}"
                );
            text.Append(CultureInfo.InvariantCulture, $",\n  \"{Key(part)}\": [\n{string.Join(",\n", rows)}\n  ]");
        }

        return Encoding.UTF8.GetBytes(text.Append("\n}\n").ToString());
    }

    /// <summary>Reads ticks into limits.</summary>
    /// <param name="path">The filled form.</param>
    /// <param name="shownName">How it is called in messages.</param>
    /// <param name="process">The limits that hold for what was not tried.</param>
    public static Outcome<TickedTarget> Read(string path, string shownName, ProcessLimits process)
    {
        ArgumentNullException.ThrowIfNull(process);
        var text = JsonText.Read(path, shownName);
        if (!text.Ok)
        {
            return text.Fault;
        }

        if (SchemaCheck.Of("target").First(text.Value) is { } broken)
        {
            return broken;
        }

        var found = new Dictionary<TargetPart, double>();
        foreach (var part in Enum.GetValues<TargetPart>())
        {
            var ticks = Ticks(text.Value.Root, part);
            if (ticks.Length == 0)
            {
                continue;
            }

            if (TestTarget.Limit(ticks) is not { } limit)
            {
                return text.Value.Fault(
                    "/" + Key(part),
                    $"the largest of them did not survive, so no limit for {Key(part)} can be told.",
                    $"Try again with more heat, time or pressure, within the makers' sheets; or leave {Key(part)} out to keep the process's figure."
                );
            }

            found.Add(part, limit);
        }

        if (found.Count == 0)
        {
            return text.Value.Fault("", "nothing was tried.", "Start from the form that --form writes.");
        }

        double Of(TargetPart part, double kept) => found.GetValueOrDefault(part, kept);
        return new TickedTarget(
            new(
                Of(TargetPart.Lines, process.LineMm),
                Of(TargetPart.Gaps, process.GapMm),
                Of(TargetPart.Dots, process.DotMm),
                Of(TargetPart.Tints, process.TintPercent),
                process.PictureDpi
            )
            {
                SolidMm = process.SolidMm,
                TextMm = found.TryGetValue(TargetPart.Text, out var cap) ? cap : process.TextMm,
            },
            text.Value.Root.TextOrNull("source") ?? shownName,
            [.. Enum.GetValues<TargetPart>().Where(p => !found.ContainsKey(p)).Select(Key)]
        );
    }

    private static (double Size, bool Survived)[] Ticks(JsonElement root, TargetPart part) =>
        [
            .. root.All(Key(part), e => e)
                .SelectMany(e =>
                    Directions
                        .Append("survived")
                        .Where(d => e.TryGetProperty(d, out _))
                        .Select(d => (e.Number(SizeKey(part)), e.GetProperty(d).GetBoolean()))
                ),
        ];

    private static string Key(TargetPart part) =>
        part switch
        {
            TargetPart.Lines => "lines",
            TargetPart.Gaps => "gaps",
            TargetPart.Dots => "dots",
            TargetPart.Text => "text",
            TargetPart.Tints => "tints",
            _ => throw new ArgumentOutOfRangeException(nameof(part), part, "No such part."),
        };

    private static string SizeKey(TargetPart part) => part == TargetPart.Tints ? "percent" : "mm";
}
