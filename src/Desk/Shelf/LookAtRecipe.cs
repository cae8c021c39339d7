using System.Collections.Immutable;
using System.Text.Json.Nodes;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Press;
using Coldpeel.Workshop.Wash;

namespace Coldpeel.Desk.Shelf;

/// <summary>The figures of a step.</summary>
public sealed record StepFigures(int? Celsius, int? Seconds, int? KPa, string? Cover);

/// <summary>A step of a recipe with what its figures rest on.</summary>
/// <param name="Step">The step with the figures that hold.</param>
/// <param name="Own">Whether the recipe has figures of its own for it, and does not take the process's.</param>
/// <param name="SourceOf">The earlier figures that its source was written for; null where it was written for those that hold.</param>
public sealed record StepBasis(ProcessStep Step, bool Own, StepFigures? SourceOf);

/// <summary>A wash trial of a recipe.</summary>
/// <param name="Trial">The trial.</param>
/// <param name="Earlier">The figures of the press that held when it ended, where others hold now.</param>
/// <param name="Number">Which one of the workshop file it is, from 0 on.</param>
public sealed record TrialBasis(WashTrial Trial, StepFigures? Earlier, int Number);

/// <summary>A recipe with all it rests on.</summary>
/// <param name="Pressing">Process, material, and the steps that hold.</param>
/// <param name="IsOwn">Whether the material has a recipe, and does not take all of its process.</param>
/// <param name="Steps">Its steps.</param>
/// <param name="Trials">Its wash trials, newest first.</param>
/// <param name="Pressed">Pressings that the bench has recorded, by the setting they were pressed with.</param>
/// <param name="ModelSays">What the heat model says; null where its library does not know the material.</param>
/// <param name="Changes">The versions in which it was changed, newest first, with what was.</param>
public sealed record RecipeBasis(
    Pressing Pressing,
    bool IsOwn,
    ImmutableArray<StepBasis> Steps,
    ImmutableArray<TrialBasis> Trials,
    ImmutableArray<RecordedPressings> Pressed,
    Sentence? ModelSays,
    ImmutableArray<(BookVersion Version, ImmutableArray<BookDifference> Differences)> Changes
)
{
    /// <summary>Whether its process is new here and no trial stands behind it on this material.</summary>
    public bool Untried { get; init; }
}

/// <summary>Looks at a recipe: what holds, what it rests on, and whether that was found out at these figures or at earlier ones.</summary>
public sealed class LookAtRecipe(OpenedWorkshop workshop)
{
    /// <summary>The recipe of a material; null for no such material.</summary>
    public RecipeBasis? Run(string material)
    {
        var book = new ReadBook(workshop).Run();
        if (book.Materials.All(m => m.Id != material))
        {
            return null;
        }

        var pressing = Pressings.For(book, material);
        var then = Then();
        var stands = then.Select(t => Told.Of(t.Recipes, material)).ToArray();
        var recipe = book.Recipes.FirstOrDefault(r => r.Process == pressing.Process.Id && r.Material == material);
        return new(
            pressing,
            recipe is not null,
            [
                .. pressing.Steps.Select(s => new StepBasis(
                    s,
                    recipe?.Changes.Any(c => c.Kind == s.Kind) == true,
                    SourceOf(s, stands)
                )),
            ],
            [
                .. book
                    .WashTrials.Index()
                    .Where(t => t.Item.Material == material && t.Item.Process == pressing.Process.Id)
                    .OrderByDescending(t => t.Item.On)
                    .Select(t => new TrialBasis(t.Item, Earlier(t.Item, then, stands), t.Index)),
            ],
            new CountPressings(workshop).Of(pressing.Material.Name),
            PressEvidence.Of(pressing, book),
            [.. Changes(material, pressing.Process.Id, then)]
        )
        {
            Untried = Coldpeel.Workshop.Press.Trials.IsUntried(book, pressing),
        };
    }

    // What stood, newest first: each until the change that ended it.
    private List<(JsonObject Recipes, BookVersion? EndedBy)> Then()
    {
        var own = new OwnBook(workshop);
        var stood = new List<(JsonObject, BookVersion?)> { (own.Whole, null) };
        foreach (
            var (change, version) in own.Changes(BookSection.Recipes)
                .Zip(new BookVersions(workshop).List(BookSection.Recipes))
        )
        {
            stood.Add((BookParts.Read(change.BeforeJson!), version));
        }

        return stood;
    }

    // A source belongs to the figures it was first written beside.
    private static StepFigures? SourceOf(ProcessStep step, Told?[] stands)
    {
        var (now, first) = (stands[0]?.Step(step.Kind), (ToldStep?)null);
        foreach (var stand in stands.TakeWhile(s => s?.Step(step.Kind)?.Source == step.Source))
        {
            first = stand!.Step(step.Kind);
        }

        return first is null || first.Figures == now?.Figures ? null : first.Figures;
    }

    private static StepFigures? Earlier(
        WashTrial trial,
        List<(JsonObject Recipes, BookVersion? EndedBy)> then,
        Told?[] stands
    )
    {
        // What stood before the day it ended: its pieces were pressed before they were washed.
        var at = then.FindLastIndex(t =>
            t.EndedBy is { At: { } ended } && DateOnly.FromDateTime(ended.Date) >= trial.On
        );
        var was = at < 0 ? stands[0] : stands[at];
        var press = was?.Step(StepKind.Press)?.Figures;
        var changed = new[] { StepKind.Bond, StepKind.Press, StepKind.FinishPress }.Any(k =>
            was?.Step(k)?.Figures != stands[0]?.Step(k)?.Figures
        );
        return changed ? press : null;
    }

    private static IEnumerable<(BookVersion, ImmutableArray<BookDifference>)> Changes(
        string material,
        string process,
        List<(JsonObject Recipes, BookVersion? EndedBy)> then
    )
    {
        foreach (var (newer, older) in then.Zip(then.Skip(1)))
        {
            ImmutableArray<BookDifference> mine =
            [
                .. BookDiff
                    .Of(older.Recipes, newer.Recipes, BookSection.Recipes)
                    .Where(d => d.IsOf(material) || d.Process == process),
            ];
            if (!mine.IsEmpty)
            {
                yield return (older.EndedBy!, mine);
            }
        }
    }

    private sealed record ToldStep(StepFigures Figures, string? Source);

    // The steps of a material as an earlier text has them: only what is asked here is read.
    private sealed record Told(ImmutableDictionary<StepKind, ToldStep> Steps)
    {
        public ToldStep? Step(StepKind kind) => Steps.GetValueOrDefault(kind);

        public static Told? Of(JsonObject recipes, string material)
        {
            if (
                BookPlaces.Entry(recipes, "materials", material) is not { } found
                || (string?)found["process"] is not { } process
                || BookPlaces.Entry(recipes, "processes", process) is not { } steps
            )
            {
                return null;
            }

            var changes = (recipes["recipes"] as JsonArray ?? [])
                .Where(r => BookPlaces.IsRecipe(r, process, material))
                .SelectMany(r => (JsonArray)r!["changes"]!)
                .ToLookup(c => (string)c!["do"]!);
            return new(
                ((JsonArray)steps["steps"]!)
                    .GroupBy(s => (string)s!["do"]!)
                    .ToImmutableDictionary(
                        g => StepWord.Read(g.Key),
                        g => Laid(g.First()!, changes[g.Key].FirstOrDefault())
                    )
            );
        }

        private static ToldStep Laid(JsonNode step, JsonNode? change) =>
            new(
                new(
                    Whole(change?["celsius"] ?? step["celsius"]),
                    Whole(change?["seconds"] ?? step["seconds"]),
                    Whole(change?["kPa"] ?? step["kPa"]),
                    (string?)(change?["cover"] ?? step["cover"])
                ),
                (string?)(change ?? step)["source"]
            );

        private static int? Whole(JsonNode? number) => number is null ? null : (int)(double)number;
    }
}
