using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Workshop.Findings;

/// <summary>Whether white shows on the fabric.</summary>
public static class FabricJudge
{
    /// <summary>Least contrast at which a graphic is easily made out: WCAG 2.x, success criterion 1.4.11.</summary>
    public const double EasilySeen = 3;

    /// <summary>A stop where white cannot be told from the fabric, a warning where it shows weakly.</summary>
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
        ArgumentNullException.ThrowIfNull(book);
        var colour = $"{item.Colour} (#{fabric.R:x2}{fabric.G:x2}{fabric.B:x2})";
        if (deltaE < book.FabricShowsWhiteDeltaE)
        {
            return
            [
                new(
                    "white-on-light",
                    Severity.Stop,
                    $"{item.What} ({item.Id}): white will not show on {colour}: the colour difference is {Words.Figure(deltaE, "0.#")} and at least {Words.Figure(book.FabricShowsWhiteDeltaE, "0.#")} is needed; choose a darker item or another way of printing."
                )
                {
                    Item = item.Id,
                },
            ];
        }

        return contrast < EasilySeen
            ?
            [
                new(
                    "white-on-light",
                    Severity.Warn,
                    $"{item.What} ({item.Id}): white shows only weakly on {colour}: the contrast is {Words.Figure(contrast, "0.0")} to 1, and 3 to 1 is easily seen; show the customer a sample, or choose a darker item."
                )
                {
                    Item = item.Id,
                },
            ]
            : [];
    }
}
