using System.Collections.Immutable;
using Coldpeel.Craft.Press.Heat;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Workshop.Findings;

/// <summary>Judges what the press does to an item: clearance, the fabric's limit, too short a press, and a print that is heated again by the next one.</summary>
/// <remarks>
/// A recipe that rests on a trial outranks the model and is not judged by it. The model's glue is not yet calibrated, so what it says of bonding is a note; what
/// it says of a fabric's limit is a warning, for that does not rest on the glue.
/// </remarks>
public static class HeatJudge
{
    private const double LongestS = 300;

    /// <summary>What the press does to an item group.</summary>
    /// <param name="item">The group.</param>
    /// <param name="rules">The places of its prints, in the order they are pressed.</param>
    /// <param name="book">The workshop.</param>
    public static ImmutableArray<Finding> Judge(
        ItemRequest item,
        ImmutableArray<PlacementRule> rules,
        WorkshopBook book
    )
    {
        ArgumentNullException.ThrowIfNull(item);
        ArgumentNullException.ThrowIfNull(book);
        var pressing = Pressings.For(book, item.Material);
        Finding?[] found =
        [
            Clearance(item, rules, pressing.Material, book),
            .. Pressed(item, pressing, book),
            Again(item, rules, pressing),
        ];
        return [.. found.OfType<Finding>().Select(f => f with { Item = item.Id })];
    }

    // What has two sides lies double under the plate unless it is pulled over the lower one; nobody can press what is too thick even single.
    private static Finding? Clearance(
        ItemRequest item,
        ImmutableArray<PlacementRule> rules,
        Material material,
        WorkshopBook book
    )
    {
        var clearances = book.Presses.Select(p => p.ClearanceMm).ToArray();
        var twoSided = rules.Any(r => r.Sketch is not ("flat" or "tag"));
        var stack = material.ThicknessMm * (twoSided ? 2 : 1);
        if (clearances.Length == 0 || clearances.Any(c => c is null || c >= stack))
        {
            return null;
        }

        var most = clearances.Max()!.Value;
        var single = material.ThicknessMm > most;
        return new(
            "thicker-than-clearance",
            single ? Severity.Stop : Severity.Warn,
            single
                ? (Sentence)
                    $"{Words.Item(item)}: {Words.Data(material.Name)} is {Words.Mm(material.ThicknessMm)} thick, and no press opens wider than {Words.Mm(most)}; use a thinner blank or a press with more clearance."
                : $"{Words.Item(item)}: its two sides of {Words.Data(material.Name)} are {Words.Mm(stack)} thick together, and no press opens wider than {Words.Mm(most)}; pull the item over the lower plate so that one side lies under the upper one."
        )
        {
            WorstMm = single ? material.ThicknessMm : stack,
            LimitMm = most,
        };
    }

    // Every step in which a plate lies on the item: pre-press, press, finish; at every press with contacts of its own, as nobody knows yet where it will be pressed.
    private static IEnumerable<Finding?> Pressed(ItemRequest item, Pressing pressing, WorkshopBook book)
    {
        var presses = book.Presses.DistinctBy(p => p.Contacts).DefaultIfEmpty().ToArray();
        foreach (var step in pressing.Steps.Where(s => s.Evidence != Evidence.Trial && !Verb(s.Kind).IsEmpty))
        {
            var found = presses.SelectMany(p => Pressed(item, pressing, step, p)).ToArray();
            foreach (var worst in found.GroupBy(f => f.Kind).Select(g => g.First()))
            {
                yield return worst;
            }
        }
    }

    private static IEnumerable<Finding> Pressed(ItemRequest item, Pressing pressing, ProcessStep step, HeatPress? press)
    {
        if (PressLayers.For(step, pressing.Material, LongestS, contacts: press?.Contacts) is not { } ask)
        {
            yield break;
        }

        var answer = PressAdvice.On(ask, HeatSearch.Quick);
        if (answer.Window.LongestS is { } longest && longest <= step.Seconds)
        {
            // A pre-press has no glue that a cooler plate would have to bond.
            var softer =
                step.Kind != StepKind.PrePress && answer.SetpointC is { } c && c < step.Celsius
                    ? (Sentence)$"lower the plate to {Words.Figure(c, "0")} °C"
                    : $"press for less time or cooler";
            var harmed = answer.Window.Harmed is { } layer and not PressLayers.Item
                ? (Sentence)$"the {Words.Data(layer)}"
                : pressing.Material.Name;
            var from = press?.Contacts is null
                ? (Sentence)$"figures from tables"
                : $"contacts measured here, at {press.Id}";
            yield return new(
                "hotter-than-fabric",
                Severity.Warn,
                $"{Words.Item(item)}: at {step.Celsius} °C {harmed} is harmed after about {Words.Figure(longest, "0")} s ({Words.Data(answer.Window.Harm ?? "")}), and the recipe {Verb(step.Kind)} {step.Seconds} s; {softer}, and make a trial first (heat model, {from})."
            );
        }
        else if (
            step.Celsius is { } plate
            && ask.Harm.GetValueOrDefault(PressLayers.Item)?.LimitC is { } limit
            && plate > limit
        )
        {
            yield return new(
                "above-fabric-limit",
                Severity.Note,
                $"{Words.Item(item)}: the plate is set to {plate} °C and {Words.Data(pressing.Material.Name)} is harmed from {Words.Figure(limit, "0")} °C on; within the {step.Seconds} s that the recipe {Verb(step.Kind)} it stays below by the heat model: do not press longer, and make a trial first."
            );
        }

        if (step.Kind == StepKind.Press && Short(item, pressing, step, answer.Window) is { } brief)
        {
            yield return brief;
        }
    }

    private static Sentence Verb(StepKind kind) =>
        kind switch
        {
            StepKind.PrePress => (Sentence)$"pre-presses",
            StepKind.Press => $"presses",
            StepKind.FinishPress => $"finishes",
            _ => Sentence.Nothing,
        };

    private static Finding? Short(ItemRequest item, Pressing pressing, ProcessStep step, HeatWindow window)
    {
        if (window.ShortestS <= step.Seconds)
        {
            return null;
        }

        var when = window.ShortestS is { } shortest
            ? (Sentence)$"bonds only after about {Words.Figure(shortest, "0")} s"
            : $"does not bond within {Words.Figure(LongestS, "0")} s";
        return new(
            "short-press",
            Severity.Note,
            $"{Words.Item(item)}: by the heat model the glue on {Words.Data(pressing.Material.Name)} {when} at {step.Celsius} °C, and the recipe presses {step.Seconds} s; the model's glue is {Words.Data(GlueLaws.NotCalibrated)}: pull at a trial piece before you go on."
        );
    }

    // The next print's plate lies on the one before, or heats it through the item.
    private static Finding? Again(ItemRequest item, ImmutableArray<PlacementRule> rules, Pressing pressing)
    {
        if (
            pressing.Process.GlueSoftensC is not { } softens
            || pressing.Step(StepKind.Press) is not { Celsius: { } plate } step
        )
        {
            return null;
        }

        for (var second = 1; second < rules.Length; second++)
        {
            for (var first = 0; first < second; first++)
            {
                var celsius = SameFace(rules[first], rules[second])
                    ? UnderPlate(rules[first], rules[second])
                        ? plate
                        : double.NegativeInfinity
                    : OtherFace(rules[first], rules[second])
                        ? Behind(step, pressing.Material)
                        : double.NegativeInfinity;
                if (celsius > softens)
                {
                    return new(
                        "heated-again",
                        Severity.Note,
                        $"{Words.Item(item)}: pressing the {Words.Data(rules[second].Name)} heats the {Words.Data(rules[first].Name)}, pressed before, to about {Words.Figure(celsius, "0")} °C, and its glue softens from {softens} °C; leave its film on until both are cold, or keep it off the plate."
                    );
                }
            }
        }

        return null;
    }

    private static bool SameFace(PlacementRule a, PlacementRule b) => a.Sketch == b.Sketch;

    private static bool OtherFace(PlacementRule a, PlacementRule b) =>
        a.Sketch.Split('-') is [var thing, "front" or "back"]
        && b.Sketch.Split('-') is [var same, "front" or "back"]
        && thing == same
        && a.Sketch != b.Sketch;

    // Where both are measured from one seam, the first must lie within what lies on the plate for the second; else it may, and that is enough.
    private static bool UnderPlate(PlacementRule first, PlacementRule second)
    {
        if (first.From != second.From)
        {
            return true;
        }

        var across = Math.Abs(first.AcrossMm - second.AcrossMm);
        var down = Math.Abs(first.DownMm + (first.MaxHeightMm / 2) - second.DownMm - (second.MaxHeightMm / 2));
        return across < (second.PlateWidthMm + first.MaxWidthMm) / 2
            && down < (second.PlateHeightMm + first.MaxHeightMm) / 2;
    }

    // Hottest behind two layers of the material, by the model; nothing where the library does not know it.
    private static double Behind(ProcessStep step, Material material)
    {
        if (PressLayers.For(step, material, LongestS, layers: 2) is not { } ask)
        {
            return double.NegativeInfinity;
        }

        var face = HeatSolver.Solve(ask.Problem, HeatSearch.Quick).Faces[PressLayers.Item].Lower;
        return Enumerable.Range(0, face.Points).Max(face.Celsius);
    }
}
