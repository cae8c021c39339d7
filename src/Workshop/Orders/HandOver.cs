using System.Collections.Immutable;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Wash;

namespace Coldpeel.Workshop.Orders;

/// <summary>What goes along when the customer gets an order: what it is, what was put on it, how to care for it, what to mind. Without prices.</summary>
/// <param name="Workshop">Who made it.</param>
/// <param name="Job">The order.</param>
/// <param name="Customer">Who asked for it.</param>
/// <param name="Received">Who received it, when, and from whom; null while nobody has it.</param>
/// <param name="Groups">Its items.</param>
public sealed record HandOver(
    string Workshop,
    string Job,
    string Customer,
    Receipt? Received,
    ImmutableArray<HandedItems> Groups
)
{
    /// <summary>Language in which the customer reads it; null for the workshop's.</summary>
    public string? Language { get; init; }
}

/// <summary>That somebody received it.</summary>
/// <param name="By">Who; empty where nobody said.</param>
/// <param name="At">When, local time.</param>
/// <param name="From">Who handed it over.</param>
public sealed record Receipt(string By, DateTimeOffset At, string From);

/// <summary>Equal items.</summary>
/// <param name="Title">"12 × gilet".</param>
/// <param name="Material">What they are made of.</param>
/// <param name="Places">What was put on them, where.</param>
/// <param name="Who">Whom they are for, in order, where they have names.</param>
/// <param name="Care">How to care for them; null where it is not known.</param>
/// <param name="Cautions">What to mind.</param>
public sealed record HandedItems(
    string Title,
    string Material,
    ImmutableArray<HandedPlace> Places,
    ImmutableArray<string> Who,
    CareSlip? Care,
    ImmutableArray<HandOverCaution> Cautions
)
{
    /// <summary>What was spoilt and is not handed over with them; null for nothing.</summary>
    public Sentence? Follows { get; init; }
}

/// <summary>A design on an item.</summary>
/// <param name="Design">The design.</param>
/// <param name="At">The place.</param>
/// <param name="WidthMm">Across.</param>
/// <param name="HeightMm">Down.</param>
public sealed record HandedPlace(string Design, string At, double WidthMm, double HeightMm);

/// <summary>What whoever receives an item is to be told beside the care advice.</summary>
public enum HandOverCaution
{
    /// <summary>Sold as protective equipment.</summary>
    Protective,

    /// <summary>Children's nightwear.</summary>
    ChildrenNightwear,

    /// <summary>A child's name stands where strangers can read it.</summary>
    ChildName,

    /// <summary>Gets hot in use.</summary>
    Hot,

    /// <summary>Touches food or mouth.</summary>
    Food,
}

/// <summary>Finds what is to be told with items.</summary>
public static class HandOverCautions
{
    /// <summary>The cautions for a group of items.</summary>
    /// <param name="item">The group.</param>
    /// <param name="childName">Whether a child's name is on it.</param>
    public static ImmutableArray<HandOverCaution> For(ItemRequest item, bool childName)
    {
        ArgumentNullException.ThrowIfNull(item);
        return
        [
            .. Enum.GetValues<HandOverCaution>()
                .Where(c =>
                    c switch
                    {
                        HandOverCaution.Protective => item.Uses.Contains(ItemUse.Protective),
                        HandOverCaution.ChildrenNightwear => item.Uses.Contains(ItemUse.ChildrenNightwear),
                        HandOverCaution.Hot => item.Uses.Contains(ItemUse.Hot),
                        HandOverCaution.Food => item.Uses.Contains(ItemUse.Food),
                        _ => childName,
                    }
                ),
        ];
    }
}
