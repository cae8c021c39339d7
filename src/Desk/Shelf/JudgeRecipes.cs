using System.Collections.Immutable;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Desk.Shelf;

/// <summary>What to know of a changed recipe before it is kept. A caution, never a permission: the makers' sheets come first.</summary>
/// <param name="Material">The material's name for people.</param>
/// <param name="Minds">Why it wants care, where it is pressed hotter or longer than before.</param>
/// <param name="Findings">What the heat model says of the changed figures.</param>
public sealed record RecipeCaution(
    string Material,
    ImmutableArray<MaterialCaution> Minds,
    ImmutableArray<Finding> Findings
);

/// <summary>Judges the recipes that differ between two workshop files.</summary>
internal static class JudgeRecipes
{
    private static readonly string[] Harms = ["hotter-than-fabric", "above-fabric-limit"];

    public static ImmutableArray<RecipeCaution> Run(WorkshopBook before, WorkshopBook after)
    {
        // Whoever says "trial" is believed at the press, but asked once here: a slip of the hand says so too.
        var judged = after with
        {
            Recipes =
            [
                .. after.Recipes.Select(r =>
                    r with
                    {
                        Changes = [.. r.Changes.Select(c => c with { Evidence = default })],
                    }
                ),
            ],
            Processes =
            [
                .. after.Processes.Select(p =>
                    p with
                    {
                        Steps = [.. p.Steps.Select(s => s with { Evidence = default })],
                    }
                ),
            ],
        };
        return [.. judged.Materials.Select(m => Of(m, before, judged)).OfType<RecipeCaution>()];
    }

    private static RecipeCaution? Of(Material material, WorkshopBook before, WorkshopBook after)
    {
        var now = Pressings.For(after, material.Id);
        var was = before.Materials.Any(m => m.Id == material.Id) ? Pressings.For(before, material.Id) : null;
        var changed = Heated(now)
            .Where(s =>
                was is null
                || was.Material.Heat != material.Heat
                || was.Process.Id != now.Process.Id
                || was.Step(s.Kind) is not { } then
                || (then.Celsius, then.Seconds, then.KPa, then.Cover) != (s.Celsius, s.Seconds, s.KPa, s.Cover)
            )
            .ToArray();
        if (changed.Length == 0)
        {
            return null;
        }

        var hotter = changed.Any(s =>
            was?.Step(s.Kind) is not { } then || s.Celsius > then.Celsius || s.Seconds > then.Seconds
        );
        var item = new ItemRequest(material.Name, material.Name, material.Id, "", 1, null, Supplier.Workshop, [], []);
        ImmutableArray<Finding> findings =
        [
            .. HeatJudge.Judge(item, [], after).Where(f => Harms.Contains(f.Kind)).Select(f => f with { Item = null }),
        ];
        var minds = hotter ? material.Cautions : [];
        return findings.IsEmpty && minds.IsEmpty ? null : new(material.Name, minds, findings);
    }

    private static IEnumerable<ProcessStep> Heated(Pressing pressing) =>
        pressing.Steps.Where(s => s.Kind is StepKind.PrePress or StepKind.Press or StepKind.FinishPress);
}
