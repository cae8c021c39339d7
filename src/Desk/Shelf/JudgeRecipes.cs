using System.Collections.Immutable;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Desk.Shelf;

/// <summary>What to know of a changed recipe before it is kept. A caution, never a permission: the makers' sheets come first.</summary>
/// <param name="Material">The material's name for people.</param>
/// <param name="Minds">Why it wants care, where it is pressed hotter or longer than before, or where the workshop would not be told so any more.</param>
/// <param name="Findings">What the heat model says of the changed figures.</param>
public sealed record RecipeCaution(
    string Material,
    ImmutableArray<MaterialCaution> Minds,
    ImmutableArray<Finding> Findings
)
{
    /// <summary>Whether it is of a process that was not there before: <see cref="Material"/> is its name then.</summary>
    public bool NewProcess { get; init; }
}

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
        return
        [
            .. after
                .Processes.Where(p => before.Processes.All(b => b.Id != p.Id))
                .Select(p => new RecipeCaution(p.Name, [], []) { NewProcess = true }),
            .. judged.Materials.Select(m => Of(m, before, judged)).OfType<RecipeCaution>(),
        ];
    }

    private static RecipeCaution? Of(Material material, WorkshopBook before, WorkshopBook after)
    {
        var now = Pressings.For(after, material.Id);
        var was = before.Materials.Any(m => m.Id == material.Id) ? Pressings.For(before, material.Id) : null;
        MaterialCaution[] dropped = was is null ? [] : [.. was.Material.Cautions.Except(material.Cautions)];
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
            return dropped.Length == 0 ? null : new(material.Name, [.. dropped], []);
        }

        var hotter = changed.Any(s =>
            was?.Step(s.Kind) is not { } then || s.Celsius > then.Celsius || s.Seconds > then.Seconds
        );
        var item = new ItemRequest(material.Name, material.Name, material.Id, "", 1, null, Supplier.Workshop, [], []);
        ImmutableArray<Finding> findings =
        [
            .. HeatJudge
                .Judge(item, [], after)
                .Where(f => Harms.Contains(f.Kind))
                .Select(f => f with { Item = null, Say = Named(f.Say, material.Name) }),
        ];
        ImmutableArray<MaterialCaution> minds = [.. (hotter ? material.Cautions : []).Concat(dropped)];
        return findings.IsEmpty && minds.IsEmpty ? null : new(material.Name, minds, findings);
    }

    // The material stands where findings of an order name an item: it is worded where it is one of the built-in example's.
    private static Sentence Named(Sentence says, string material) =>
        new(
            says.Form,
            says.Parts.Select(p => p is Part.Text text && text.Value == material ? new Part.Inner(material) : p)
        );

    private static IEnumerable<ProcessStep> Heated(Pressing pressing) =>
        pressing.Steps.Where(s => s.Kind is StepKind.PrePress or StepKind.Press or StepKind.FinishPress);
}
