using System.Collections.Immutable;

namespace Coldpeel.Workshop.Quotes;

/// <summary>One line of a price, with what it is made of.</summary>
/// <param name="Kind">Short name: film, adhesive, toner, press-time, hand-time, set-up, blanks, spoilage, margin.</param>
/// <param name="What">For people.</param>
/// <param name="Quantity">How many units, exact.</param>
/// <param name="Unit">"sheet", "g", "h", "piece", "%".</param>
/// <param name="UnitPrice">Price of one unit, exact.</param>
/// <param name="Amount">Rounded to the minor unit.</param>
/// <param name="Explain">What the figure is made of, in one sentence.</param>
public sealed record QuoteLine(
    string Kind,
    string What,
    decimal Quantity,
    string Unit,
    Money UnitPrice,
    Money Amount,
    string Explain
);

/// <summary>A price with all its lines; tax is taken on the rounded net sum.</summary>
/// <param name="Lines">In the order they are added up.</param>
/// <param name="Net">Sum of the lines.</param>
/// <param name="TaxPercent">Rate.</param>
/// <param name="Tax">Tax on the net sum, rounded once.</param>
/// <param name="Total">What the customer pays.</param>
/// <param name="Rounding">Which way of rounding was used, in words.</param>
public sealed record Quote(
    ImmutableArray<QuoteLine> Lines,
    Money Net,
    decimal TaxPercent,
    Money Tax,
    Money Total,
    string Rounding
);

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
