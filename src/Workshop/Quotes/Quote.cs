using System.Collections.Immutable;
using Coldpeel.Workshop.Findings;

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
    Sentence What,
    decimal Quantity,
    string Unit,
    Money UnitPrice,
    Money Amount,
    Sentence Explain
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
