using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Craft.Wash;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Workshop.Wash;

/// <summary>Writes the care slip of an item group, in words.</summary>
/// <remarks>
/// A label states the hardest treatment that the most critical part stands, "including applications" (GINETEX): so print and item are joined element by
/// element to the milder of the two. The five groups and their order are those of ISO 3758.
/// </remarks>
public static class CareSlips
{
    private const double Confidence = 0.95;

    /// <summary>The slip.</summary>
    /// <param name="item">An item whose material the workshop knows.</param>
    /// <param name="book">The workshop.</param>
    public static CareSlip Make(ItemRequest item, WorkshopBook book)
    {
        ArgumentNullException.ThrowIfNull(item);
        ArgumentNullException.ThrowIfNull(book);
        var pressing = Pressings.For(book, item.Material);
        var limits = pressing.Material.Care.Milder(book.PrintCare).CoolerThan(pressing.Process.GlueSoftensC);
        return new(
            item.Id,
            $"{item.Quantity.ToString(CultureInfo.InvariantCulture)} × {item.What}",
            Groups(limits),
            limits.WashC == 0 ? [] : [.. book.CareTips.Select(Words.Data)],
            Washes(pressing, limits, book.WashTrials)
        )
        {
            Limits = limits,
        };
    }

    /// <summary>The advice of the five groups, in the order of ISO 3758.</summary>
    public static ImmutableArray<CareLine> Groups(CareLimits limits)
    {
        ArgumentNullException.ThrowIfNull(limits);
        return
        [
            new($"Washing", Washing(limits)),
            new(
                $"Bleaching",
                limits.Bleach switch
                {
                    0 => (Sentence)$"Do not bleach.",
                    1 => $"Oxygen bleach only, no chlorine.",
                    _ => $"Any bleach allowed.",
                }
            ),
            new(
                $"Drying",
                limits switch
                {
                    { WashC: 0 } => (Sentence)$"Do not tumble dry; let damp go off in the air, away from heat.",
                    { TumbleC: 0 } => $"Do not tumble dry; dry on the line or lying flat.",
                    _ => $"Tumble dry at most at {limits.TumbleC} °C; line drying is kinder to the print.",
                }
            ),
            new(
                $"Ironing",
                limits.IronC switch
                {
                    0 => (Sentence)$"Do not iron.",
                    <= 110 => $"Iron inside out at most at {limits.IronC} °C, without steam, never on the print.",
                    _ => $"Iron inside out at most at {limits.IronC} °C, never on the print.",
                }
            ),
            new($"Professional care", limits.DryClean ? (Sentence)$"Dry cleaning allowed." : $"Do not dry clean."),
        ];
    }

    private static Sentence Washing(CareLimits limits) =>
        (limits.WashC, limits.WashGentle) switch
        {
            (0, _) => (Sentence)$"Do not wash; wipe with a soft damp cloth.",
            (_, 0) => $"Wash at most at {limits.WashC} °C, normal cycle.",
            (_, 1) => $"Wash at most at {limits.WashC} °C, mild cycle.",
            _ => $"Wash at most at {limits.WashC} °C, very mild cycle.",
        };

    private static Sentence Washes(Pressing pressing, CareLimits limits, ImmutableArray<WashTrial> trials)
    {
        if (limits.WashC == 0)
        {
            return $"Not made to be washed.";
        }

        var longest = trials
            .Where(t => t.Process == pressing.Process.Id && t.Material == pressing.Material.Id && t.Pieces > 0)
            .GroupBy(t => t.Washes)
            .MaxBy(g => g.Key);
        if (longest is null)
        {
            return $"We have not washed trial prints on this material yet. On cotton 35 to 45 cold washes are usual (common practice, no source); that is no promise.";
        }

        var (pieces, survived) = (longest.Sum(t => t.Pieces), longest.Sum(t => t.Survived));
        var interval = Proportion.Wilson(survived, pieces, Confidence);
        var sources = Words.Row(longest.Select(t => Words.Data(t.Source)).Distinct(), "; ");
        return $"{survived} of {pieces} test prints were still good after {longest.Key} washes ({sources}): with 95 % confidence {interval.Low * 100:0} to {interval.High * 100:0} % of such prints last so long.";
    }
}
