using System.Collections.Immutable;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Workshop.Quotes;

/// <summary>What a job uses up: all that its price is made of.</summary>
/// <param name="Currency">ISO 4217 code of the job.</param>
/// <param name="Sheets">Sheets printed, by kind.</param>
/// <param name="InkMm2">Toner area in mm² over all pieces, tints counted by their strength; not below zero.</param>
/// <param name="PressSeconds">Seconds that presses are closed or held, bonding and pressing together.</param>
/// <param name="HandSeconds">Seconds of hands at work at the presses and the table, without set-up.</param>
/// <param name="Blanks">Blanks the workshop supplies; the customer's own are not counted.</param>
/// <param name="Prices">The workshop's prices.</param>
public sealed record QuoteBasis(
    string Currency,
    ImmutableArray<SheetUse> Sheets,
    double InkMm2,
    long PressSeconds,
    long HandSeconds,
    ImmutableArray<BlankUse> Blanks,
    PriceList Prices
);

/// <summary>Equal sheets that are printed.</summary>
/// <param name="Name">For people: "A4".</param>
/// <param name="WidthMm">Paper across.</param>
/// <param name="HeightMm">Paper down.</param>
/// <param name="Count">How many.</param>
/// <param name="Adhesive">Whether an adhesive sheet of the same size is used up with each.</param>
public sealed record SheetUse(string Name, decimal WidthMm, decimal HeightMm, int Count, bool Adhesive);

/// <summary>Blanks of one kind, with some for spoilage where the price list says so.</summary>
/// <param name="What">The item, as in the job and the price list: "gilet".</param>
/// <param name="Quantity">How many.</param>
public sealed record BlankUse(string What, int Quantity);
