using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Workshop.Findings;

/// <summary>What must be minded before an item goes under the press, by what it is, what it is made of and what it is for.</summary>
/// <remarks>Cautions, never permissions: makers' sheets, local rules and licensed practice come first.</remarks>
public static class Cautions
{
    // L* = 50: the lower half of the lightness scale; such colours hold much dye.
    private const double DarkLuminance = 0.184;

    // Boiling water, the hottest that a mug or dish meets in ordinary use.
    private const int BoilingC = 100;

    /// <summary>The cautions for a job, in the order of its items; worst first within an item.</summary>
    /// <param name="job">A job that <see cref="JobCheck"/> let through.</param>
    /// <param name="book">The workshop.</param>
    public static ImmutableArray<Finding> For(Job job, WorkshopBook book)
    {
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(book);
        return
        [
            .. job.Items.SelectMany(item =>
                ForItem(job, item, book).OrderByDescending(f => f.Severity).Select(f => f with { Item = item.Id })
            ),
        ];
    }

    private static IEnumerable<Finding> ForItem(Job job, ItemRequest item, WorkshopBook book)
    {
        var pressing = Pressings.For(book, item.Material);
        var name = Words.Item(item);
        return
        [
            .. item.Uses.Distinct().SelectMany(use => ForUse(use, name, pressing)),
            .. pressing.Material.Cautions.Distinct().SelectMany(c => ForMaterial(c, name, item, pressing)),
            .. ForProcess(book, name, pressing),
            .. ForWhatItSoundsLike(item, name),
            .. ForChildrensNames(job, item, name),
            .. ForOwner(item, name),
            .. ForPlaces(item, name, book),
        ];
    }

    private static IEnumerable<Finding> ForUse(ItemUse use, string name, Pressing pressing) =>
        use switch
        {
            ItemUse.Protective =>
            [
                new(
                    "protective-wear",
                    Severity.Stop,
                    $"{name}: sold as protective equipment, so do not press it: a print takes away from the least visible area that EN ISO 20471 asks of hi-vis clothing, melts in flame, "
                        + $"and whoever alters protective equipment may have to answer for it as its maker (Regulation (EU) 2016/425); print only with the maker's written consent."
                ),
            ],
            ItemUse.Food =>
            [
                new(
                    "food-contact",
                    Severity.Stop,
                    $"{name}: touches food or mouth, and toner and glue are not made for that (Regulation (EC) 1935/2004, article 3); print only a side that food and mouth never reach, and accept this by name then."
                ),
            ],
            ItemUse.Hot => [Hot(name, pressing.Process)],
            ItemUse.ChildrenNightwear =>
            [
                new(
                    "children-nightwear",
                    Severity.Stop,
                    $"{name}: children's nightwear must keep to flammability rules, and a melted-on print changes how the fabric burns; leave it unprinted, or get the maker's word and a test to the rules of your country."
                ),
            ],
            _ => [],
        };

    private static Finding Hot(string name, Process process) =>
        process.GlueSoftensC switch
        {
            null => new(
                "hot-use",
                Severity.Stop,
                $"{name}: gets hot in use, and the workshop file does not say where the glue of \"{Words.Data(process.Name)}\" softens; ask the film's maker and write it there as glueSoftensC."
            ),
            <= BoilingC => new(
                "hot-use",
                Severity.Stop,
                $"{name}: gets hot in use, and the glue of \"{Words.Data(process.Name)}\" softens from about {process.GlueSoftensC} °C, so the print will slide or lift; ask the customer how hot it gets, and print only what stays well below."
            ),
            _ => new(
                "hot-use",
                Severity.Warn,
                $"{name}: gets hot in use; the glue of \"{Words.Data(process.Name)}\" softens from about {process.GlueSoftensC} °C, so boiling water should not move it, but an oven or an iron will: ask the customer how hot it gets, and make a trial piece."
            ),
        };

    private static IEnumerable<Finding> ForMaterial(
        MaterialCaution caution,
        string name,
        ItemRequest item,
        Pressing pressing
    ) =>
        caution switch
        {
            MaterialCaution.Unknown =>
            [
                new(
                    "unknown-fabric",
                    Severity.Stop,
                    $"{name}: nobody knows what it is made of, and the wrong heat ruins it; read the sewn-in label or ask the customer, then name the material in the job."
                ),
            ],
            MaterialCaution.Coated =>
            [
                Trial(name, $"has a coating that may blister, let go of the print or lose its waterproofing"),
            ],
            MaterialCaution.Nylon => [Trial(name, $"is nylon, which shrinks and often holds glue badly")],
            MaterialCaution.Elastane =>
            [
                Trial(
                    name,
                    $"is rich in elastane, which loses its spring in heat and stretches further than the print"
                ),
            ],
            MaterialCaution.Leather =>
            [
                new(
                    "leather-heat",
                    Severity.Warn,
                    $"{name}: leather can shrink and harden in heat, the more the damper it is; keep it dry, press a scrap of the same hide first, and keep to the shortest time that holds."
                ),
            ],
            MaterialCaution.DyeMigration when IsDark(item.Colour) => [Migration(name, item, pressing)],
            _ => [],
        };

    private static IEnumerable<Finding> ForProcess(WorkshopBook book, string name, Pressing pressing) =>
        Trials.IsUntried(book, pressing)
            ?
            [
                new(
                    "trial-first",
                    Severity.Warn,
                    $"{name}: \"{Words.Data(pressing.Process.Name)}\" is not tried yet on this material here; press one trial piece, let it cool, stretch and wash it, and enter the trial, before you touch the rest."
                ),
            ]
            : [];

    private static Finding Trial(string name, Sentence why) =>
        new(
            "trial-first",
            Severity.Warn,
            $"{name}: the fabric {why}; press one trial piece, let it cool, stretch and wash it, before you touch the rest."
        );

    private static Finding Migration(string name, ItemRequest item, Pressing pressing)
    {
        var hottest = pressing.Step(StepKind.Press)?.Celsius;
        var asked = hottest is null ? Sentence.Nothing : $" (the recipe says {hottest} °C)";
        return new(
            "dye-migration",
            Severity.Warn,
            $"{name}: dark polyester ({item.Colour}) holds much dye, which can wander into the white above 130 to 140 °C and tint it days later; press as cool and short as holds{asked}, and look at a trial piece after two days."
        );
    }

    // Common practice, no source: a vest ordered as "everyday" may be protective all the same, and only a person can tell.
    private static IEnumerable<Finding> ForWhatItSoundsLike(ItemRequest item, string name) =>
        SpokenUse
            .Hints(item.What)
            .Where(use => !item.Uses.Contains(use))
            .Select(use => new Finding(
                "ask-use",
                Severity.Warn,
                $"{name}: sounds like {SpokenUse.Say(use)}, and the job does not say so; ask, and if it is, write \"{SpokenUse.Key(use)}\" into its use before anything is pressed."
            ));

    private static IEnumerable<Finding> ForChildrensNames(Job job, ItemRequest item, string name)
    {
        if (!item.Uses.Any(u => u is ItemUse.Children or ItemUse.ChildrenNightwear))
        {
            yield break;
        }

        var names = job
            .Designs.OfType<DesignRequest.Lettered>()
            .Where(d => IsPersonal(d.Lettering.Text))
            .Select(d => d.Id);
        foreach (var design in names.Where(d => item.Placements.Any(p => p.Design == d)))
        {
            yield return new(
                "child-name",
                Severity.Warn,
                $"{name}: \"{design}\" puts a child's name where strangers can read it; ask the customer whether a number, initials or a place inside the item would do."
            )
            {
                Design = design,
            };
        }
    }

    // A column called number or size is no name; any other text taken from the roster may be one.
    private static bool IsPersonal(string text)
    {
        string[] harmless = ["number", "no", "nr", "size", "team", "club", "year"];
        for (var at = text.IndexOf('{', StringComparison.Ordinal); at >= 0; )
        {
            var end = text.IndexOf('}', at);
            if (end < 0)
            {
                return false;
            }

            if (!harmless.Contains(text[(at + 1)..end].Trim(), StringComparer.OrdinalIgnoreCase))
            {
                return true;
            }

            at = text.IndexOf('{', end);
        }

        return false;
    }

    private static IEnumerable<Finding> ForOwner(ItemRequest item, string name) =>
        item.SuppliedBy == Supplier.Customer
            ?
            [
                new(
                    "customers-own",
                    Severity.Note,
                    $"{name}: the blanks belong to the customer and may not be had again; press a trial piece on a spare or a hidden place first, and agree beforehand who pays for a spoilt one."
                ),
            ]
            : [];

    private static IEnumerable<Finding> ForPlaces(ItemRequest item, string name, WorkshopBook book) =>
        item
            .Placements.Select(p => p.At)
            .Distinct()
            .Select(at => book.Placements.First(r => r.Name == at))
            .Where(rule => !rule.Crosses.IsDefaultOrEmpty)
            .Select(rule => new Finding(
                "under-the-plate",
                Severity.Note,
                $"{name}, {Words.Data(rule.Name)}: keep {Words.And([.. rule.Crosses.Select(Words.Data)])} off the plate, or raise the print on a pad: seams and zips take the pressure away from the print, and heat harms electronics and batteries."
            ));

    private static bool IsDark(string colour) =>
        FabricColour.Read(colour) is not { } rgb || Srgb.Luminance(rgb) < DarkLuminance;
}
