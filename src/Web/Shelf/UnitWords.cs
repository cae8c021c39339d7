using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;

namespace Coldpeel.Web.Shelf;

/// <summary>Amounts of things on the shelf with their unit: the units that the program itself writes are in the reader's language, a workshop's own stay as they are.</summary>
internal static class UnitWords
{
    /// <summary>"1 sheet", "12 pieces", "0.04 g".</summary>
    public static string Amount(decimal count, string unit) => $"{Say.Amount(count)} {Unit(count, unit)}";

    /// <summary>The unit alone, as it stands beside so many: one that comes or goes is one.</summary>
    public static string Unit(decimal count, string unit) =>
        (unit, Math.Abs(count) == 1) switch
        {
            ("sheets", var one) => one ? OrderWords.SheetOne : OrderWords.SheetMany,
            ("pieces", var one) => one ? ShelfWords.Piece : ShelfWords.Pieces,
            _ => Say.Data(unit),
        };
}
