using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;

namespace Coldpeel.Web.Shelf;

/// <summary>Amounts of things on the shelf with their unit: the units that the program itself writes are in the reader's language, a workshop's own stay as they are.</summary>
internal static class UnitWords
{
    /// <summary>"1 sheet", "12 pieces", "0.04 g".</summary>
    public static string Amount(decimal count, string unit) =>
        (unit, decimal.IsInteger(count) && Math.Abs(count) < int.MaxValue) switch
        {
            ("sheets", true) => Say.Count((int)count, OrderWords.SheetOne, OrderWords.SheetMany),
            ("pieces", true) => Say.Count((int)count, OrderWords.PieceOne, OrderWords.PieceMany),
            _ => $"{Say.Amount(count)} {unit}",
        };
}
