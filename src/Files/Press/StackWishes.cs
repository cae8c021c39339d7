using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using Coldpeel.Craft.Press.Heat;
using Coldpeel.Files.Json;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Press;

/// <summary>Reads what is asked about a stack beyond its temperatures: the keys that lead with x-.</summary>
internal sealed class StackWishes(
    JsonText file,
    HeatProblem problem,
    IReadOnlyDictionary<string, HeatMaterial> materials,
    Action<string, string, string> fail
)
{
    private const double UsualLongestS = 600;
    private const double UsualAirC = 22;
    private const ulong UsualSeed = 1;
    private const int UsualSamples = 2000;

    private HeatProblem _problem = problem;

    public HeatAsk Read()
    {
        var root = file.Root;
        var (glue, evidence) = Glue(root);
        var harm = Harm(root, glue);
        var window = Window(root);
        return new(_problem, materials.ToImmutableDictionary(), glue, evidence, harm)
        {
            Window = window,
            HotPeel = HotPeel(root),
            Cool = Cool(root, window),
            Measured = Measured(root),
            PlateC = Plate(root, window),
            Trials = Trials(root, window),
            Chances = Chances(root, window),
        };
    }

    private static (GlueLaw, Evidence) Glue(JsonElement root)
    {
        var usual = GlueLaws.Usual;
        if (!root.TryGetProperty("x-glue", out var e))
        {
            return (usual, Evidence.Model);
        }

        return (
            usual with
            {
                SoftensC = e.NumberOrNull("softensC") ?? usual.SoftensC,
                Heals = new(
                    e.NumberOrNull("healsAtC") ?? usual.Heals.AtC,
                    e.NumberOrNull("healsS") ?? usual.Heals.Seconds,
                    e.NumberOrNull("healsKJmol") ?? usual.Heals.KJmol
                ),
                PaS = e.NumberOrNull("paS") ?? usual.PaS,
                PaSAtC = e.NumberOrNull("paSAtC") ?? usual.PaSAtC,
                FlowKJmol = e.NumberOrNull("flowKJmol") ?? usual.FlowKJmol,
                DepthMm = e.NumberOrNull("depthMm") ?? usual.DepthMm,
            },
            e.TextOrNull("evidence") is { } words ? EvidenceWords.Read(words)!.Value : Evidence.Model
        );
    }

    private ImmutableDictionary<string, HarmLaw> Harm(JsonElement root, GlueLaw glue)
    {
        var harm = materials.Where(m => m.Value.Harm is not null).ToImmutableDictionary(m => m.Key, m => m.Value.Harm!);
        var list = root.TryGetProperty("x-harm", out var own) ? own.EnumerateArray().ToArray() : [];
        for (var i = 0; i < list.Length; i++)
        {
            var (at, name) = ($"/x-harm/{i}", list[i].Text("layer"));
            var layer = _problem.EveryLayer.FirstOrDefault(l => l.Name == name);
            if (layer is null)
            {
                Unknown($"{at}/layer", name);
                continue;
            }

            var (limit, seconds) = (list[i].NumberOrNull("limitC"), list[i].NumberOrNull("doseS"));
            if (limit is null && seconds is null)
            {
                fail(at, "it says neither limit nor dose.", "Give \"limitC\", or \"doseS\" with \"atC\".");
            }

            if (seconds is not null && list[i].NumberOrNull("atC") is null)
            {
                fail($"{at}/doseS", "a dose holds at a temperature.", "Give \"atC\" beside it.");
            }

            if (limit <= layer.Start.InCelsius)
            {
                fail(
                    $"{at}/limitC",
                    Say($"{name} would be harmed before it is pressed: it starts at {layer.Start.InCelsius:0} °C."),
                    "Give a limit above where it starts."
                );
            }
            else if (limit <= glue.SoftensC && UnderGlue(name))
            {
                fail(
                    $"{at}/limitC",
                    Say(
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

    private bool UnderGlue(string name)
    {
        var at = _problem.Layers.Select(l => l.Name).ToList();
        var glue = at.IndexOf(_problem.GlueLineBelow);
        return glue >= 0 && glue + 1 < at.Count && at[glue + 1] == name;
    }

    private WindowWish? Window(JsonElement root)
    {
        if (!root.TryGetProperty("x-window", out var e))
        {
            return null;
        }

        var stage = StageOf(e.Text("stage"), "/x-window/stage");
        if (stage < 0)
        {
            return null;
        }

        if (_problem.Stages[stage].UntilGlueLine is not null)
        {
            fail(
                "/x-window/stage",
                "this stage ends by the glue line, not by a time.",
                "Ask for a stage with \"seconds\"."
            );
        }

        // A glue is pressed in by something: without a pressure of the file's own the usual one holds, for this stage.
        if (_problem.Stages[stage].PressureKPa <= 0)
        {
            _problem = _problem with
            {
                Stages = _problem.Stages.SetItem(
                    stage,
                    _problem.Stages[stage] with
                    {
                        PressureKPa = GlueLaws.UsualKPa,
                    }
                ),
            };
        }

        return new(
            stage,
            e.NumberOrNull("longestS") ?? UsualLongestS,
            e.TryGetProperty("bonded", out var bonded) && bonded.GetBoolean()
        );
    }

    private HotPeelWish? HotPeel(JsonElement root) =>
        root.TryGetProperty("x-hotPeel", out var e)
        && StageOf(e.Text("stage"), "/x-hotPeel/stage") is >= 0 and var stage
            ? new(stage, e.Number("aboveC"))
            : null;

    private CoolWish? Cool(JsonElement root, WindowWish? window)
    {
        if (!root.TryGetProperty("x-cool", out var e))
        {
            return null;
        }

        var after = e.TextOrNull("after") is { } name ? StageOf(name, "/x-cool/after") : window?.Stage ?? 0;
        var remove = e.All("remove", r => r.GetString()!);
        for (var i = 0; i < remove.Length; i++)
        {
            if (_problem.EveryLayer.All(l => l.Name != remove[i]))
            {
                Unknown($"/x-cool/remove/{i}", remove[i]);
            }
        }

        if (remove.Contains(_problem.GlueLineBelow))
        {
            fail("/x-cool/remove", "the layer above the glue line cools with the item.", "Leave it in.");
        }

        var (until, air) = (e.Number("untilC"), e.NumberOrNull("airC") ?? UsualAirC);
        if (until <= air)
        {
            fail(
                "/x-cool/untilC",
                Say($"nothing cools to {until:0.#} °C in air of {air:0.#} °C."),
                "Give a temperature above the air's."
            );
        }

        return after < 0 ? null : new(after, until, air, remove);
    }

    private MeasuredHeat? Measured(JsonElement root)
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
                HeatUnknown.Between b => _problem.Contacts.Any(c => c.Above == b.Above && c.Below == b.Below),
                HeatUnknown.UpperPlate => _problem.Stages.Any(s => HasContact(s.Upper)),
                _ => _problem.Stages.Any(s => HasContact(s.Lower)),
            };
            if (!guessed)
            {
                fail(at, "no such contact stands in the file.", "Give it there with a first guess of hWm2K.");
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
        var end = _problem.Stages.Sum(s => s.Seconds);
        for (var i = 0; i < readings.Length; i++)
        {
            if (_problem.EveryLayer.All(l => l.Name != readings[i].Layer))
            {
                Unknown($"/x-measured/readings/{i}/below", readings[i].Layer);
            }

            if (readings[i].TimeS > end)
            {
                fail(
                    $"/x-measured/readings/{i}/atS",
                    Say($"all stages end after {end:0.#} s."),
                    "Give seconds from the start of the first stage."
                );
            }
        }

        if (readings.Length < unknown.Count)
        {
            fail(
                "/x-measured/readings",
                "there are fewer readings than contacts to find.",
                "Measure more, or leave contacts as they are."
            );
        }

        return new(unknown.ToImmutable(), readings);
    }

    private static bool HasContact(HeatSide side) =>
        side is HeatSide.Held { ContactWm2K: not null } or HeatSide.Course { ContactWm2K: not null };

    private ImmutableArray<double> Plate(JsonElement root, WindowWish? window)
    {
        var plate = root.All("x-plate", p => p.GetDouble());
        if (plate.Length > 0 && window is null)
        {
            fail("/x-plate", "nobody asked for a press window.", "Give \"x-window\" beside it.");
        }

        if (root.TryGetProperty("x-plate", out _) && plate.Length != 9)
        {
            fail("/x-plate", Say($"there are {plate.Length} points."), "Give 9, row by row: top left to bottom right.");
        }

        return plate;
    }

    private ImmutableArray<PressTrial> Trials(JsonElement root, WindowWish? window)
    {
        var trials = root.All(
            "x-trials",
            t => new PressTrial(t.Number("seconds"), t.NumberOrNull("plateC"), t.GetProperty("held").GetBoolean())
        );
        if (trials.Length > 0 && window is null)
        {
            fail("/x-trials", "nobody asked for a press window.", "Give \"x-window\" beside it.");
        }
        else if (trials.Length > 0 && (trials.All(t => t.Held) || !trials.Any(t => t.Held)))
        {
            fail(
                "/x-trials",
                trials[0].Held ? "every trial held." : "no trial held.",
                "Add one of the other kind: only between the two does the glue's speed lie."
            );
        }

        return trials;
    }

    private ChancesWish? Chances(JsonElement root, WindowWish? window)
    {
        if (!root.TryGetProperty("x-chances", out var e))
        {
            return null;
        }

        if (window is null)
        {
            fail("/x-chances", "nobody asked for a press window.", "Give \"x-window\" beside it.");
        }

        return new(e.WholeOrNull("samples") ?? UsualSamples, (ulong)(e.NumberOrNull("seed") ?? UsualSeed));
    }

    private int StageOf(string name, string at)
    {
        for (var i = 0; i < _problem.Stages.Length; i++)
        {
            if (_problem.Stages[i].Name == name)
            {
                return i;
            }
        }

        fail(
            at,
            $"no stage is called \"{name}\".",
            $"Name one of: {string.Join(", ", _problem.Stages.Select(s => s.Name))}."
        );
        return -1;
    }

    private void Unknown(string at, string name) =>
        fail(
            at,
            $"no layer is called \"{name}\".",
            $"Name one of: {string.Join(", ", _problem.EveryLayer.Select(l => l.Name))}."
        );

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
