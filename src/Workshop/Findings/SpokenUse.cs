using System.Collections.Immutable;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Workshop.Findings;

/// <summary>What an item's name gives away about its use: a hi-vis vest is protective whatever its line in the order says.</summary>
/// <remarks>A list of English words (common practice, no source): it asks a question and decides nothing.</remarks>
internal static class SpokenUse
{
    private static readonly ImmutableArray<(ItemUse Use, string[] Words)> Told =
    [
        (
            ItemUse.Protective,
            [
                "hi vis",
                "hivis",
                "high vis",
                "flame",
                "firefighter",
                "welder",
                "welding",
                "arc flash",
                "chemical",
                "cleanroom",
                "clean room",
                "chainsaw",
                "cut resistant",
                "protective",
                "ppe",
                "harness",
                "helmet",
                "life jacket",
                "lifejacket",
                "buoyancy",
            ]
        ),
        (ItemUse.Food, ["mug", "cup", "bowl", "tumbler", "cutting board", "drinking", "baby bib", "pacifier"]),
        (ItemUse.Hot, ["oven", "pot holder", "trivet", "ironing board"]),
        (ItemUse.ChildrenNightwear, ["pyjama", "pajama", "nightdress", "nightshirt", "sleepsuit"]),
    ];

    /// <summary>The uses that the name hints at, worst first.</summary>
    public static IEnumerable<ItemUse> Hints(string what)
    {
        var plain = " " + string.Concat(what.Select(c => char.IsLetter(c) ? char.ToLowerInvariant(c) : ' '));
        return Told.Where(t => t.Words.Any(w => plain.Contains(" " + w, StringComparison.Ordinal))).Select(t => t.Use);
    }

    /// <summary>The use, for people.</summary>
    public static Sentence Say(ItemUse use) =>
        use switch
        {
            ItemUse.Protective => (Sentence)$"protective equipment",
            ItemUse.Food => $"something that touches food or mouth",
            ItemUse.Hot => $"something that gets hot in use",
            _ => $"nightwear, which has flammability rules for children",
        };

    /// <summary>The word of the job file for the use.</summary>
    public static string Key(ItemUse use) =>
        use switch
        {
            ItemUse.Protective => "protective",
            ItemUse.Food => "food",
            ItemUse.Hot => "hot",
            _ => "children-nightwear",
        };
}
