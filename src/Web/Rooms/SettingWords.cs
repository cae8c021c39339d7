using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;

namespace Coldpeel.Web.Rooms;

/// <summary>Settings in words, for the histories.</summary>
internal static class SettingWords
{
    // As the store writes it.
    private const string SetTo = "set to ";

    /// <summary>The name of a setting, or of a part of the workshop file; its key where it has none.</summary>
    public static string Name(string key) =>
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
            "spares-always" => RoomWords.KeySparesAlways,
            "prices" => LayoutWords.Prices,
            "machines" => LayoutWords.Machines,
            "recipes" => LayoutWords.Recipes,
            "rest" => LayoutWords.Workshop,
            _ => key,
        };

    /// <summary>What it was set to; what has no word of its own stays as it is.</summary>
    public static string Value(string value) =>
        value switch
        {
            "yes" => RoomWords.ValueYes,
            "no" => RoomWords.ValueNo,
            "on" => RoomWords.ValueOn,
            "off" => RoomWords.ValueOff,
            "inch" => RoomWords.ValueInch,
            "en" => RoomWords.ValueEnglish,
            "de" => RoomWords.ValueGerman,
            "answered" => RoomWords.ValueAnswered,
            "later" => RoomWords.ValueLater,
            _ => value,
        };

    /// <summary>What a line of the history says of a setting.</summary>
    public static string Set(string what) =>
        what.StartsWith(SetTo, StringComparison.Ordinal)
            ? Say.Kept(SetTo + Value(what[SetTo.Length..]))
            : Say.Kept(what);
}
