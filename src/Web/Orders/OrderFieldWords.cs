using Coldpeel.Desk.Orders;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;

namespace Coldpeel.Web.Orders;

/// <summary>The fields of an order that can be changed, in the reader's words.</summary>
internal static class OrderFieldWords
{
    /// <summary>"Quantity", "Place of crest".</summary>
    public static string Of(OrderField field) =>
        field.Kind switch
        {
            OrderFieldKind.Due => OrderWords.Due,
            OrderFieldKind.Language => OrderWords.PapersLanguage,
            OrderFieldKind.Width => Say.With(OrderWords.ColumnWidth, Say.LengthUnit),
            OrderFieldKind.Height => Say.With(OrderWords.ChangeHeight, Say.LengthUnit),
            OrderFieldKind.Letters => Say.With(OrderWords.ChangeLetters, Say.LengthUnit),
            OrderFieldKind.Material => OrderWords.ColumnMaterial,
            OrderFieldKind.Colour => OrderWords.ColumnColour,
            OrderFieldKind.Size => OrderWords.ColumnSize,
            OrderFieldKind.Quantity => OrderWords.ColumnQuantity,
            OrderFieldKind.Placement => Say.With(OrderWords.ChangePlace, field.Of),
            _ => OrderWords.ChangeLines,
        };

    /// <summary>A language of the papers: "German", "as the workshop's: German".</summary>
    /// <param name="language">"en" or "de"; empty for the workshop's.</param>
    /// <param name="workshop">Language of the workshop's papers.</param>
    public static string Language(string language, string workshop) =>
        language switch
        {
            "" => Say.With(OrderWords.PapersAsWorkshop, Language(workshop is "de" ? "de" : "en", workshop)),
            "de" => OrderWords.German,
            "en" => OrderWords.English,
            _ => language,
        };

    /// <summary>The same with what it belongs to: "gilet (crew), quantity".</summary>
    public static string Whole(OrderField field) => field.About.Length == 0 ? Of(field) : $"{field.About}: {Of(field)}";
}
