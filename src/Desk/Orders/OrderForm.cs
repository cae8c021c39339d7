using System.Collections.Immutable;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Orders;

/// <summary>What of a kept order can be changed in a form.</summary>
public enum OrderFieldKind
{
    /// <summary>The day it is due, year-month-day.</summary>
    Due,

    /// <summary>Language of the customer's papers; empty for the workshop's.</summary>
    Language,

    /// <summary>Width of a design in mm; empty for the artwork's own size.</summary>
    Width,

    /// <summary>Height of a design in mm, where the order asks for that.</summary>
    Height,

    /// <summary>Height of a capital in mm.</summary>
    Letters,

    /// <summary>A material of the workshop.</summary>
    Material,

    /// <summary>Colour of the item.</summary>
    Colour,

    /// <summary>Size of the garment.</summary>
    Size,

    /// <summary>How many.</summary>
    Quantity,

    /// <summary>Where a design goes.</summary>
    Placement,

    /// <summary>Names and numbers: column names first, then one line an item.</summary>
    Lines,
}

/// <summary>One field of the form.</summary>
/// <param name="Key">Its name in the form.</param>
/// <param name="Kind">What it is.</param>
/// <param name="About">The design, item group or list that it belongs to; empty for the order.</param>
/// <param name="Of">The design of a placement; empty elsewhere.</param>
/// <param name="Value">As it stands.</param>
public sealed record OrderField(string Key, OrderFieldKind Kind, string About, string Of, string Value);

/// <summary>A kept order as a form.</summary>
/// <param name="Version">What it was made of when the form was opened.</param>
/// <param name="Fields">Its fields: the order's, then the designs', then those of each group of items.</param>
/// <param name="Materials">Materials of its workshop by id, with their names.</param>
/// <param name="Placements">Placements of its workshop.</param>
/// <param name="Closed">Why it cannot be changed as it stands; null when it can.</param>
public sealed record OrderForm(
    string Version,
    ImmutableArray<OrderField> Fields,
    ImmutableArray<(string Id, string Name)> Materials,
    ImmutableArray<string> Placements,
    Fault? Closed
)
{
    /// <summary>Language of the workshop's papers, "en" or "de".</summary>
    public string Language { get; init; } = "en";
}

/// <summary>An order changed in a form: made again, or everything that is wrong with what was typed.</summary>
/// <param name="Made">The order; null while something is wrong.</param>
/// <param name="Faults">What is wrong.</param>
public sealed record ChangedOrder(MadeJob? Made, ImmutableArray<Fault> Faults)
{
    /// <summary>Whether nothing was kept because the customer's approval, or what the shelf gives, is not what it was when the change was shown: it is to be shown again.</summary>
    public bool ShowsAgain { get; init; }
}
