using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;
using Coldpeel.Workshop.Artwork;

namespace Coldpeel.Workshop.Orders;

/// <summary>An order as the customer gave it: what is asked for, before anything is judged.</summary>
/// <param name="Name">Its number or name.</param>
/// <param name="Customer">Who asked.</param>
/// <param name="Due">The day it is due.</param>
/// <param name="Currency">ISO 4217 code of the quote.</param>
/// <param name="WorkshopFile">The workshop file, relative to the job file; null for the example workshop.</param>
/// <param name="Designs">Artwork and lettering.</param>
/// <param name="Items">What is to be decorated.</param>
public sealed record Job(
    string Name,
    string Customer,
    DateOnly Due,
    string Currency,
    string? WorkshopFile,
    ImmutableArray<DesignRequest> Designs,
    ImmutableArray<ItemRequest> Items
);

/// <summary>A design asked for: either a <see cref="Drawn"/> file or <see cref="Lettered"/>.</summary>
/// <param name="Id">Its name in the job.</param>
public abstract record DesignRequest(string Id)
{
    /// <summary>How many more of it the shelf wants made ahead, in room that is left on the sheets.</summary>
    public int Ahead { get; init; }

    /// <summary>Artwork from a file.</summary>
    /// <param name="Id">Its name in the job.</param>
    /// <param name="File">Path relative to the job file.</param>
    /// <param name="Page">Page of a many-page file, from 1.</param>
    /// <param name="WidthMm">Asked width of the artwork's page; null when the height or the own size rules.</param>
    /// <param name="HeightMm">Asked height; null when the width or the own size rules.</param>
    /// <param name="Prints">What of it prints.</param>
    /// <param name="Tone">How tints are printed.</param>
    public sealed record Drawn(
        string Id,
        string File,
        int? Page,
        double? WidthMm,
        double? HeightMm,
        Prints Prints,
        Tone Tone
    ) : DesignRequest(Id)
    {
        /// <summary>What strength in the picture prints as what, before any screen; null for as it is. Outlines, which are solid, do not feel it.</summary>
        public ToneCurve? Curve { get; init; }
    }

    /// <summary>Names and numbers set from type.</summary>
    /// <param name="Id">Its name in the job.</param>
    /// <param name="Lettering">Text, font and size.</param>
    public sealed record Lettered(string Id, LetteringRequest Lettering) : DesignRequest(Id);
}

/// <summary>Equal items to be decorated alike, or one a roster row.</summary>
/// <param name="Id">Its name in the job.</param>
/// <param name="What">The item, for people: "gilet".</param>
/// <param name="Material">A material of the workshop file.</param>
/// <param name="Colour">Colour of the item where it is printed: #rrggbb, or a CSS colour name.</param>
/// <param name="Quantity">How many.</param>
/// <param name="Roster">CSV with one row an item, relative to the job file; null for none.</param>
/// <param name="SuppliedBy">Who brings the blank.</param>
/// <param name="Uses">What the item is for, as far as it matters for safety.</param>
/// <param name="Placements">What goes where.</param>
public sealed record ItemRequest(
    string Id,
    string What,
    string Material,
    string Colour,
    int Quantity,
    string? Roster,
    Supplier SuppliedBy,
    ImmutableArray<ItemUse> Uses,
    ImmutableArray<PlacementRequest> Placements
)
{
    /// <summary>Size of the garments of this group; empty where they have none, or where the roster tells it.</summary>
    public string Size { get; init; } = "";
}

/// <summary>A design at a place of the item.</summary>
/// <param name="Design">A design of the job.</param>
/// <param name="At">A placement of the workshop file: "left chest".</param>
public sealed record PlacementRequest(string Design, string At);

/// <summary>Who brings the blank.</summary>
public enum Supplier
{
    /// <summary>The workshop buys it and charges for it.</summary>
    Workshop,

    /// <summary>It belongs to the customer: a spoilt one costs more than the job earns.</summary>
    Customer,
}

/// <summary>What the item is for, as far as it matters for safety.</summary>
public enum ItemUse
{
    /// <summary>Nothing special.</summary>
    Everyday,

    /// <summary>Sold as protective equipment: hi-vis, flame-resistant, chemical, arc, cleanroom.</summary>
    Protective,

    /// <summary>Touches food or mouth.</summary>
    Food,

    /// <summary>Gets hot in use.</summary>
    Hot,

    /// <summary>Children's clothing.</summary>
    Children,

    /// <summary>Children's nightwear.</summary>
    ChildrenNightwear,
}
