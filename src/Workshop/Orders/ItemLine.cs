using System.Collections.Immutable;

namespace Coldpeel.Workshop.Orders;

/// <summary>What an order is called, whose it is and when it is due.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Customer">Who asked.</param>
/// <param name="Due">The day, year-month-day.</param>
/// <param name="Currency">ISO 4217.</param>
public sealed record OrderHead(string Name, string Customer, string Due, string Currency)
{
    /// <summary>Under this name a job file holds the language of the customer's papers.</summary>
    public const string LanguageKey = "x-language";

    /// <summary>Language of the customer's papers, "en" or "de"; empty for the workshop's.</summary>
    public string Language { get; init; } = "";
}

/// <summary>One line of a list of items, as it was read and understood.</summary>
/// <param name="Where">Where it stands, for messages: "items.csv, line 3".</param>
/// <param name="What">The item, for people.</param>
/// <param name="Material">A material of the workshop, by its id.</param>
/// <param name="Colour">Colour of the item, as it is written.</param>
/// <param name="Size">Size of the garment; empty where it has none.</param>
/// <param name="Quantity">How many.</param>
/// <param name="SuppliedBy">Who brings the blank.</param>
/// <param name="Use">What it is for.</param>
/// <param name="Artwork">Artwork on it.</param>
/// <param name="Letterings">Names and numbers on it.</param>
public sealed record ItemLine(
    Findings.Sentence Where,
    string What,
    string Material,
    string Colour,
    string Size,
    int Quantity,
    Supplier SuppliedBy,
    ItemUse Use,
    ImmutableArray<LineArtwork> Artwork,
    ImmutableArray<LineLettering> Letterings
);

/// <summary>Artwork of a line.</summary>
/// <param name="File">One of the files that came with the list.</param>
/// <param name="At">A placement of the workshop.</param>
/// <param name="WidthMm">Across; null for the artwork's own size.</param>
public sealed record LineArtwork(string File, string At, double? WidthMm);

/// <summary>A name or number of a line.</summary>
/// <param name="Column">"name" or "number".</param>
/// <param name="Text">What is set.</param>
/// <param name="At">A placement of the workshop.</param>
/// <param name="HeightMm">Height of a capital.</param>
/// <param name="MostWidthMm">Wider texts are set smaller.</param>
public sealed record LineLettering(string Column, string Text, string At, double HeightMm, double MostWidthMm);
