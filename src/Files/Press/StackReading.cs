using System.Collections.Immutable;
using System.Text.Json;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Press.Heat;
using Coldpeel.Files.Json;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Press;

/// <summary>One reading of a stack file that its schema has let through; the first fault ends it.</summary>
internal sealed class StackReading
{
    private const double UsualStartC = 20;
    private const double UsualOutputS = 1;
    private const double LongestCourseS = 100000;

    private readonly JsonText _file;
    private readonly StackLayers _layers;
    private readonly double _start;
    private readonly List<string> _present = [];
    private readonly HashSet<string> _ever = new(StringComparer.Ordinal);
    private Fault? _fault;

    public StackReading(JsonText file)
    {
        _file = file;
        _start = file.Root.NumberOrNull("startC") ?? UsualStartC;
        _layers = new(_start, Fail);
    }

    /// <summary>The stack and what is asked about it.</summary>
    public Outcome<HeatAsk> Ask()
    {
        var root = _file.Root;
        _layers.Own(root);
        if (_fault is { } own)
        {
            return own;
        }

        var problem = Problem(root);
        if (_fault is { } broken)
        {
            return broken;
        }

        var ask = new StackWishes(_file, problem, _layers.Of, new(problem, Fail)).Read();
        if (_fault is null)
        {
            new StackContradictions(root, ask, Fail).Find();
        }

        return _fault is { } fault ? fault : ask;
    }

    private HeatProblem Problem(JsonElement root)
    {
        var layers = root.GetProperty("layers")
            .EnumerateArray()
            .Select((l, i) => _layers.Read(l, $"/layers/{i}"))
            .ToImmutableArray();
        foreach (var (layer, i) in layers.Select((l, i) => (l, i)))
        {
            Enter(layer.Name, $"/layers/{i}/name", _present.Count);
        }

        var glue = root.Text("glueLineBelow");
        if (!_present.Contains(glue))
        {
            Fail("/glueLineBelow", $"no layer is called \"{glue}\".", $"Name one of: {string.Join(", ", _present)}.");
        }

        var (upper, lower) = (Side(root.GetProperty("upper"), "/upper"), Side(root.GetProperty("lower"), "/lower"));
        var stages = root.GetProperty("stages")
            .EnumerateArray()
            .Select((s, i) => Stage(s, $"/stages/{i}", upper, lower))
            .ToImmutableArray();
        var contacts = root.All(
            "contacts",
            c => new HeatContact(c.Text("above"), c.Text("below"), c.Number("hWm2K")) { Growth = Growth(c) }
        );
        for (var i = 0; i < contacts.Length; i++)
        {
            if (!_ever.Contains(contacts[i].Above) || !_ever.Contains(contacts[i].Below))
            {
                Fail(
                    $"/contacts/{i}",
                    "it names a layer that is never in the stack.",
                    $"Layers are: {string.Join(", ", _ever)}."
                );
            }
        }

        return new(
            layers,
            contacts,
            glue,
            root.NumberOrNull("reachC") is { } reach ? Temperature.FromCelsius(reach) : null,
            stages,
            root.NumberOrNull("outputEveryS") ?? Math.Max(UsualOutputS, LongestS(stages) / StackContradictions.MostRows)
        );
    }

    private static double LongestS(ImmutableArray<HeatStage> stages) =>
        stages.Sum(s => Math.Min(s.Seconds, new HeatSearch().LongestStageS));

    private HeatStage Stage(JsonElement e, string at, HeatSide upper, HeatSide lower)
    {
        var removed = e.All("remove", r => r.GetString()!);
        for (var i = 0; i < removed.Length; i++)
        {
            if (!_present.Remove(removed[i]))
            {
                Fail(
                    $"{at}/remove/{i}",
                    $"no layer \"{removed[i]}\" lies in the stack then.",
                    $"There lie: {string.Join(", ", _present)}."
                );
            }
        }

        var added = ImmutableArray.CreateBuilder<HeatAdded>();
        foreach (
            var (layer, i) in (e.TryGetProperty("add", out var list) ? list.EnumerateArray() : default).Select(
                (l, i) => (l, i)
            )
        )
        {
            var below = layer.TextOrNull("below");
            var position = below is null ? 0 : _present.IndexOf(below) + 1;
            if (below is not null && position == 0)
            {
                Fail(
                    $"{at}/add/{i}/below",
                    $"no layer \"{below}\" lies in the stack then.",
                    $"There lie: {string.Join(", ", _present)}."
                );
            }

            added.Add(new(_layers.Read(layer, $"{at}/add/{i}"), below));
            Enter(added[^1].Layer.Name, $"{at}/add/{i}/name", position);
        }

        if (_present.Count == 0)
        {
            Fail(at, "nothing is left in the stack.", "Leave at least one layer in.");
        }

        var (seconds, until) = (e.NumberOrNull("seconds"), e.NumberOrNull("untilGlueLineC"));
        if (seconds is null && until is null)
        {
            Fail(at, "the stage never ends.", "Give \"seconds\" or \"untilGlueLineC\".");
        }

        return new(
            e.Text("name"),
            seconds ?? double.PositiveInfinity,
            until is { } c ? Temperature.FromCelsius(c) : null,
            e.TryGetProperty("upper", out var u) ? Side(u, $"{at}/upper") : upper,
            e.TryGetProperty("lower", out var l) ? Side(l, $"{at}/lower") : lower,
            added.ToImmutable(),
            removed
        )
        {
            PressureKPa = e.NumberOrNull("x-kPa") ?? 0,
        };
    }

    private void Enter(string name, string at, int position)
    {
        if (_present.Contains(name))
        {
            Fail(at, $"two layers are called \"{name}\".", "Give each its own name.");
        }

        _present.Insert(Math.Clamp(position, 0, _present.Count), name);
        _ever.Add(name);
    }

    private HeatSide Side(JsonElement e, string at)
    {
        var (held, air, h, insulated) = (
            e.NumberOrNull("heldC"),
            e.NumberOrNull("airC"),
            e.NumberOrNull("hWm2K"),
            e.TryGetProperty("insulated", out _)
        );
        if (held is { } plate && air is null && !insulated)
        {
            return e.TryGetProperty("x-courseC", out var course)
                ? Course(course, h, Growth(e), at)
                : new HeatSide.Held(Temperature.FromCelsius(plate), h) { Growth = Growth(e) };
        }

        if (air is { } c && h is { } wm2K && held is null && !insulated)
        {
            return new HeatSide.Open(Temperature.FromCelsius(c), wm2K, e.NumberOrNull("x-emissivity") ?? 0);
        }

        if (!insulated || held is not null || air is not null)
        {
            Fail(
                at,
                "what lies there is not clear.",
                "Give { \"heldC\": … }, or { \"airC\": …, \"hWm2K\": … }, or { \"insulated\": true }."
            );
        }

        return new HeatSide.Insulated();
    }

    private HeatSide.Course Course(JsonElement list, double? h, HeatGrowth? growth, string at)
    {
        ImmutableArray<(double S, double Celsius)> points =
        [
            .. list.EnumerateArray().Select(p => (p[0].GetDouble(), p[1].GetDouble())),
        ];
        if (points.Zip(points.Skip(1)).Any(p => p.Second.S <= p.First.S))
        {
            Fail($"{at}/x-courseC", "its times do not rise.", "Give pairs of seconds and °C, earliest first.");
        }

        if (points.Any(p => p is not { S: >= 0 and <= LongestCourseS, Celsius: >= -200 and <= 1000 }))
        {
            Fail(
                $"{at}/x-courseC",
                "no plate has such a course.",
                "Give seconds from 0 to 100000 and temperatures from -200 to 1000 °C."
            );
        }

        return new(points, h) { Growth = growth };
    }

    private static HeatGrowth? Growth(JsonElement e) =>
        e.NumberOrNull("x-atKPa") is { } at && e.NumberOrNull("x-power") is { } power ? new(at, power) : null;

    private void Fail(string at, string what, string mend) => _fault ??= _file.Fault(at, what, mend);
}
