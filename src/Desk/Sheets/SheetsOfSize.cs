using System.Collections.Immutable;
using Coldpeel.Workshop.Shelf;

namespace Coldpeel.Desk.Sheets;

/// <summary>Equal sheets of an order.</summary>
/// <param name="Paper">"A4".</param>
/// <param name="WidthMm">Across.</param>
/// <param name="HeightMm">Down.</param>
/// <param name="Started">Whether they are what was left of others.</param>
/// <param name="Count">How many.</param>
public sealed record SheetsOfSize(string Paper, double WidthMm, double HeightMm, bool Started, int Count)
{
    /// <summary>Film of all of them, in mm².</summary>
    public double AreaMm2 => WidthMm * HeightMm * Count;

    /// <summary>The sheets of an order by size, in the order of their pages.</summary>
    internal static ImmutableArray<SheetsOfSize> Of(OrderUse use) =>
        [
            .. use
                .Sheets.CountBy(s => (s.Paper, s.WidthMm, s.HeightMm, s.Started))
                .Select(s => new SheetsOfSize(s.Key.Paper, s.Key.WidthMm, s.Key.HeightMm, s.Key.Started, s.Value)),
        ];
}
