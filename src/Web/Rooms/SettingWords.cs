using Coldpeel.Web.Shelf.Book;
using Coldpeel.Web.Words;

namespace Coldpeel.Web.Rooms;

/// <summary>Settings and what they were set to, in the reader's words.</summary>
internal static class SettingWords
{
    /// <summary>The setting.</summary>
    public static string Key(string key) =>
        key switch
        {
            "presses" => RoomWords.KeyPresses,
            "printer-dpi" => RoomWords.KeyDpi,
            "sheets" => RoomWords.KeySheets,
            "currency" => RoomWords.KeyCurrency,
            "tax-percent" => RoomWords.KeyTax,
            "unit" => RoomWords.KeyUnit,
            "language" => RoomWords.KeyLanguage,
            "network" => RoomWords.KeyNetwork,
            "network-port" => RoomWords.KeyPort,
            "questions" => RoomWords.KeyQuestions,
            "spares-percent" => RoomWords.KeySparesPercent,
            "brought-back" => RoomWords.KeyBroughtBack,
            "spares-always" => RoomWords.KeySparesAlways,
            _ => key,
        };

    /// <summary>What it was set to.</summary>
    public static string Value(string key, string value) =>
        (key, value) switch
        {
            ("network", "on") => PartWords.On,
            ("network", "off") => PartWords.Off,
            ("unit", "inch") => PartWords.Inch,
            ("language", "en") => PartWords.English,
            ("language", "de") => PartWords.German,
            ("language", "") => FieldWords.Value(null),
            ("questions", "answered") => PartWords.QuestionsAnswered,
            ("questions", "later") => PartWords.QuestionsLater,
            ("presses", _) => string.Join("; ", value.Split("; ").Select(one => $"{Sides(one)} mm")),
            ("sheets", _) => string.Join("; ", value.Split("; ").Select(Sheet)),
            _ => FieldWords.Value(value),
        };

    // As the store writes it: "210x297 margin 5".
    private static string Sheet(string one) =>
        one.Split(" margin ") is [var sides, var margin]
            ? Layout.Say.With(PartWords.MarginOf, Sides(sides), margin)
            : one;

    // "large 400x500": the last word is width and height.
    private static string Sides(string one)
    {
        var cut = one.LastIndexOf(' ') + 1;
        return one[..cut] + one[cut..].Replace("x", " × ", StringComparison.Ordinal);
    }
}
