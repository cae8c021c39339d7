using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Workshop.Findings;

/// <summary>Whether white shows on the fabric.</summary>
public static class FabricJudge
{
    /// <summary>Least contrast at which a graphic is easily made out: WCAG 2.x, success criterion 1.4.11.</summary>
    public const double EasilySeen = 3;

    /// <summary>Below this contrast white stands out by its hue alone, if at all (common practice, no source).</summary>
    public const double NoLighter = 1.25;

    /// <summary>A stop where white cannot be told from the fabric, a warning where it shows weakly.</summary>
    /// <remarks>
    /// White cannot be told from a fabric nearer to it than the workshop's own least colour difference; nor from one hardly darker than
    /// white (<see cref="NoLighter"/>) that is also less than twice that difference away in colour: cream (#fffdd0: 15.5, 1.04 to 1),
    /// pale pink (#fde4e8: 11.4, 1.20 to 1). A strong yellow is as light as those, but another colour: hi-vis yellow (#d8f21b: 30.4,
    /// 1.26 to 1) shows white weakly, which warns. Figures by CIEDE2000 and by the contrast ratio of WCAG 2.2.
    /// </remarks>
    /// <param name="item">The item.</param>
    /// <param name="fabric">Its colour.</param>
    /// <param name="deltaE">CIEDE2000 difference between white and the fabric.</param>
    /// <param name="contrast">Contrast ratio of white to the fabric by WCAG 2.x, 1 to 21.</param>
    /// <param name="book">The workshop.</param>
    public static ImmutableArray<Finding> Judge(
        ItemRequest item,
        Rgb fabric,
        double deltaE,
        double contrast,
        WorkshopBook book
    )
    {
        ArgumentNullException.ThrowIfNull(item);
        return
        [
            .. Judge(Words.Item(item), item.Colour, fabric, deltaE, contrast, book)
                .Select(f => f with { Item = item.Id }),
        ];
    }

    /// <summary>The same of a design on a fabric, without an item.</summary>
    /// <param name="what">What is printed or on what, for people.</param>
    /// <param name="named">The colour as it was named.</param>
    /// <param name="fabric">The colour.</param>
    /// <param name="deltaE">CIEDE2000 difference between white and the fabric.</param>
    /// <param name="contrast">Contrast ratio of white to the fabric by WCAG 2.x, 1 to 21.</param>
    /// <param name="book">The workshop.</param>
    public static ImmutableArray<Finding> Judge(
        Sentence what,
        string named,
        Rgb fabric,
        double deltaE,
        double contrast,
        WorkshopBook book
    )
    {
        ArgumentNullException.ThrowIfNull(named);
        ArgumentNullException.ThrowIfNull(book);
        var hex = $"#{fabric.R:x2}{fabric.G:x2}{fabric.B:x2}";
        var colour = named.Trim().Equals(hex, StringComparison.OrdinalIgnoreCase) ? hex : $"{named} ({hex})";
        Sentence figures =
            $"the colour difference is {Words.Figure(deltaE, "0.#")} (ΔE00), the contrast {Words.Figure(contrast, "0.00")} to 1";
        var least = book.FabricShowsWhiteDeltaE * (contrast < NoLighter ? 2 : 1);
        if (deltaE < least)
        {
            return
            [
                new(
                    "white-on-light",
                    Severity.Stop,
                    $"{what}: white will not show on {colour}: {figures}, and a difference of at least {Words.Figure(least, "0.#")} is needed on a fabric this light; choose a darker item or another way of printing."
                ),
            ];
        }

        return contrast < EasilySeen
            ?
            [
                new(
                    "white-on-light",
                    Severity.Warn,
                    $"{what}: white shows only weakly on {colour}: {figures}, and 3 to 1 is easily seen; show the customer a sample, or choose a darker item."
                ),
            ]
            : [];
    }
}
