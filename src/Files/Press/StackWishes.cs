using System.Collections.Immutable;
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
    StackFaults faults
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
        var harm = StackHarm.Read(root, _problem, materials, glue, faults);
        var window = Window(root);
        return new(_problem, materials.ToImmutableDictionary(), glue, evidence, harm)
        {
            Window = window,
            HotPeel = HotPeel(root),
            Cool = Cool(root, window),
            Measured = StackMeasured.Read(root, _problem, faults),
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
            faults.Fail(
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
            faults.Knows(remove[i], $"/x-cool/remove/{i}");
        }

        if (remove.Contains(_problem.GlueLineBelow))
        {
            faults.Fail("/x-cool/remove", "the layer above the glue line cools with the item.", "Leave it in.");
        }

        var (until, air) = (e.Number("untilC"), e.NumberOrNull("airC") ?? UsualAirC);
        if (until <= air)
        {
            faults.Fail(
                "/x-cool/untilC",
                FormattableString.Invariant($"nothing cools to {until:0.#} °C in air of {air:0.#} °C."),
                "Give a temperature above the air's."
            );
        }

        return after < 0 ? null : new(after, until, air, remove);
    }

    private ImmutableArray<double> Plate(JsonElement root, WindowWish? window)
    {
        var plate = root.All("x-plate", p => p.GetDouble());
        if (plate.Length > 0 && window is null)
        {
            faults.Fail("/x-plate", "nobody asked for a press window.", "Give \"x-window\" beside it.");
        }

        if (root.TryGetProperty("x-plate", out _) && plate.Length != 9)
        {
            faults.Fail(
                "/x-plate",
                FormattableString.Invariant($"there are {plate.Length} points."),
                "Give 9, row by row: top left to bottom right."
            );
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
            faults.Fail("/x-trials", "nobody asked for a press window.", "Give \"x-window\" beside it.");
        }
        else if (trials.Length > 0 && (trials.All(t => t.Held) || !trials.Any(t => t.Held)))
        {
            faults.Fail(
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
            faults.Fail("/x-chances", "nobody asked for a press window.", "Give \"x-window\" beside it.");
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

        faults.Fail(
            at,
            $"no stage is called \"{name}\".",
            $"Name one of: {string.Join(", ", _problem.Stages.Select(s => s.Name))}."
        );
        return -1;
    }
}
