using System.Collections.Immutable;
using System.Text.Json;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Press.Heat;
using Coldpeel.Files.Json;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Press;

/// <summary>Reads STACK.json: held against docs/schemas/stack.schema.json, then against the rules that a schema cannot hold.</summary>
public static class StackFile
{
    private const double UsualStartC = 20;
    private const double UsualOutputS = 1;

    /// <summary>The stack, or the first fault in the order of the file.</summary>
    public static Outcome<HeatProblem> Read(string path, string shownName)
    {
        var text = JsonText.Read(path, shownName);
        if (!text.Ok)
        {
            return text.Fault;
        }

        if (SchemaCheck.Of("stack").First(text.Value) is { } broken)
        {
            return broken;
        }

        return new StackReading(text.Value).Problem();
    }

    /// <summary>One reading; the first fault ends it.</summary>
    private sealed class StackReading(JsonText file)
    {
        private readonly List<string> _present = [];
        private Fault? _fault;

        public Outcome<HeatProblem> Problem()
        {
            var root = file.Root;
            var start = root.NumberOrNull("startC") ?? UsualStartC;
            var layers = root.GetProperty("layers")
                .EnumerateArray()
                .Select((l, i) => Layer(l, $"/layers/{i}", start))
                .ToImmutableArray();
            foreach (var (layer, i) in layers.Select((l, i) => (l, i)))
            {
                Enter(layer.Name, $"/layers/{i}/name", _present.Count);
            }

            var glue = root.Text("glueLineBelow");
            if (!_present.Contains(glue))
            {
                Fail(
                    "/glueLineBelow",
                    $"no layer is called \"{glue}\".",
                    $"Name one of: {string.Join(", ", _present)}."
                );
            }

            var (upper, lower) = (Side(root.GetProperty("upper"), "/upper"), Side(root.GetProperty("lower"), "/lower"));
            var stages = root.GetProperty("stages")
                .EnumerateArray()
                .Select((s, i) => Stage(s, $"/stages/{i}", upper, lower, start))
                .ToImmutableArray();
            var contacts = root.All(
                "contacts",
                c => new HeatContact(c.Text("above"), c.Text("below"), c.Number("hWm2K"))
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

            return _fault is { } fault
                ? fault
                : new HeatProblem(
                    layers,
                    contacts,
                    glue,
                    root.NumberOrNull("reachC") is { } reach ? Temperature.FromCelsius(reach) : null,
                    stages,
                    root.NumberOrNull("outputEveryS") ?? UsualOutputS
                );
        }

        private readonly HashSet<string> _ever = new(StringComparer.Ordinal);

        private HeatStage Stage(JsonElement e, string at, HeatSide upper, HeatSide lower, double start)
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

                added.Add(new(Layer(layer, $"{at}/add/{i}", start), below));
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
            );
        }

        private void Enter(string name, string at, int position)
        {
            if (_present.Contains(name))
            {
                Fail(at, $"two layers are called \"{name}\".", "Give each its own name.");
            }

            _present.Insert(position, name);
            _ever.Add(name);
        }

        private HeatLayer Layer(JsonElement e, string at, double start)
        {
            var (k, density, heat) = (
                e.NumberOrNull("kWmK"),
                e.NumberOrNull("densityKgM3"),
                e.NumberOrNull("heatJkgK")
            );
            if (e.TextOrNull("material") is { } name)
            {
                if (HeatMaterials.Find(name) is not { } material)
                {
                    Fail(
                        $"{at}/material",
                        $"\"{name}\" is not known.",
                        $"Give kWmK, densityKgM3 and heatJkgK, or one of: {string.Join(", ", HeatMaterials.Names)}."
                    );
                }
                else
                {
                    // Figures that the file gives itself come first.
                    (k, density, heat) = (
                        k ?? material.WmK,
                        density ?? material.DensityKgM3,
                        heat ?? material.HeatJkgK
                    );
                }
            }

            if (k is null || density is null || heat is null)
            {
                Fail(
                    at,
                    "the layer's heat properties are not whole.",
                    "Give \"material\", or all of kWmK, densityKgM3 and heatJkgK."
                );
            }

            return new(
                e.Text("name"),
                k ?? 1,
                density ?? 1,
                heat ?? 1,
                Length.FromMillimetres(Math.Max(0.001, e.Number("thicknessMm"))),
                Temperature.FromCelsius(e.NumberOrNull("startC") ?? start)
            );
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
                return new HeatSide.Held(Temperature.FromCelsius(plate), h);
            }

            if (air is { } c && h is { } wm2K && held is null && !insulated)
            {
                return new HeatSide.Open(Temperature.FromCelsius(c), wm2K);
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

        private void Fail(string at, string what, string mend) => _fault ??= file.Fault(at, what, mend);
    }
}
