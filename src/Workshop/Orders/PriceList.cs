using System.Collections.Immutable;

namespace Coldpeel.Workshop.Orders;

/// <summary>What things cost the workshop; all in one currency, before tax.</summary>
/// <param name="Currency">ISO 4217.</param>
/// <param name="FilmPerM2">Film, per m² of paper sheet.</param>
/// <param name="AdhesivePerM2">Adhesive sheet, per m².</param>
/// <param name="TonerPerGram">White toner.</param>
/// <param name="TonerGramPerM2">Toner of a solid area, in g/m².</param>
/// <param name="PressPerHour">A press in use: power, wear, pads.</param>
/// <param name="HandPerHour">A pair of hands.</param>
/// <param name="SetUpMinutes">Hands for taking the order, artwork and printing.</param>
/// <param name="SpoilagePercent">Share of film, adhesive, toner and own blanks that is spoilt.</param>
/// <param name="MarginPercent">On all of it.</param>
/// <param name="TaxPercent">On the net sum.</param>
/// <param name="Blanks">Price of a blank the workshop supplies, by "what" of the item.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record PriceList(
    string Currency,
    decimal FilmPerM2,
    decimal AdhesivePerM2,
    decimal TonerPerGram,
    decimal TonerGramPerM2,
    decimal PressPerHour,
    decimal HandPerHour,
    decimal SetUpMinutes,
    decimal SpoilagePercent,
    decimal MarginPercent,
    decimal TaxPercent,
    ImmutableDictionary<string, decimal> Blanks,
    string Source
);
