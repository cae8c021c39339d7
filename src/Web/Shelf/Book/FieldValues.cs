using System.Globalization;
using Coldpeel.Desk.Shelf;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;

namespace Coldpeel.Web.Shelf.Book;

/// <summary>What a field of the workshop file held and holds, as people say it: with its unit, its currency, and names for ids.</summary>
internal static class FieldValues
{
    // Letters of a text that are shown of a difference.
    private const int Longest = 80;

    private static CultureInfo Culture => CultureInfo.CurrentUICulture;

    /// <summary>What it held.</summary>
    public static string Before(BookDifference difference) =>
        Of(difference, Worded(difference.WholeBefore, difference.Before), difference.OldCurrency);

    /// <summary>What it holds.</summary>
    public static string After(BookDifference difference) =>
        Of(difference, Worded(difference.WholeAfter, difference.After), difference.NewCurrency);

    /// <summary>A word that is chosen from several, as the form words it; else what was typed.</summary>
    public static string Chosen(string key, string value) =>
        Choice(key)?.FirstOrDefault(c => c.Value == value).Words ?? FieldWords.Value(value);

    /// <summary>"210 × 297 mm" of "210x297", as a sheet without a name is called.</summary>
    public static string Sheet(string name)
    {
        var (size, rest) = name.IndexOf(" #", StringComparison.Ordinal) is var cut and >= 0
            ? (name[..cut], name[cut..])
            : (name, "");
        return size.Split('x') is [var width, var height] && Number(width) is { } across && Number(height) is { } down
            ? $"{Length(across)} × {Length(down)} {Say.LengthUnit}{rest}"
            : Say.Data(name);
    }

    /// <summary>A figure without a unit, to its last digit.</summary>
    public static string Plain(double figure) => figure.ToString("0.######", Culture);

    // Of a long text the beginning is shown; one of the built-in example's is known by its whole and is worded first.
    private static string? Worded(string? whole, string? shown) =>
        whole is not null
        && whole != shown
        && shown is not ['…', ..]
        && Say.Words.AsWritten(whole) is var words
        && words != whole
            ? words.Length > Longest
                ? Cut(words)
                : words
            : shown;

    // No word is cut in two.
    private static string Cut(string words)
    {
        var end = words.LastIndexOf(' ', Longest - 1);
        return words[..(end > 0 ? end : Longest - 1)] + " …";
    }

    private static string Of(BookDifference difference, string? value, string? currency)
    {
        var key = difference.Path[^1];
        return value is null ? FieldWords.Value(null)
            : key is "process" or "material" ? Say.Data(difference.Called(key, value))
            : key == "cautions" ? string.Join(", ", value.Split("; ").Select(Caution))
            : key == "turns" ? Turns(value)
            : key == "points" ? value.Replace(".", Separator, StringComparison.Ordinal)
            : key == "on" && Day(value) is { } day ? Say.Day(day)
            : Choice(key) is not null ? Chosen(key, value)
            : key is not ("name" or "id" or "source") && Number(value) is { } figure
                ? Figure(difference, key, figure, currency)
            : FieldWords.Value(value);
    }

    private static string Figure(BookDifference difference, string key, decimal figure, string? currency) =>
        key.EndsWith("Mm", StringComparison.Ordinal) ? $"{Length(figure)} {Say.LengthUnit}"
        : key == "cost" ? Say.With(BookWords.TimesFirst, figure.ToString("0.###", Culture))
        : currency is not null && IsMoney(difference, key) ? Say.Price(figure, currency)
        : $"{figure.ToString("0.##########", Culture)} {Unit(key)}".TrimEnd();

    // Finer than lengths are shown elsewhere: two that differ must not look the same.
    private static string Length(decimal mm) =>
        (Reader.Inches ? mm / LengthField.MmPerInch : mm).ToString(Reader.Inches ? "0.####" : "0.###", Culture);

    private static bool IsMoney(BookDifference difference, string key) =>
        difference.Path is ["prices", "blanks", _]
        || key is "filmPerM2" or "adhesivePerM2" or "tonerPerGram" or "pressPerHour" or "handPerHour";

    private static string Unit(string key) =>
        key switch
        {
            "celsius" or "setpointC" or "glueSoftensC" => "°C",
            "seconds" or "loadSeconds" or "unloadSeconds" => "s",
            "kPa" => "kPa",
            "heatCPerMin" or "coolCPerMin" => "°C/min",
            "tonerGramPerM2" => "g/m²",
            "setUpMinutes" => "min",
            "upperWm2K" or "itemWm2K" or "padWm2K" => "W/(m²·K)",
            _ => "",
        };

    private static (string Value, string Words)[]? Choice(string key) =>
        key switch
        {
            "evidence" => Choices.Rests,
            "trim" => Choices.Trims,
            "washC" => Choices.Washes,
            "washGentle" => Choices.Gentle,
            "bleach" => Choices.Bleach,
            "tumbleC" => Choices.Tumble,
            "ironC" => Choices.Iron,
            "sketch" => Choices.Sketches,
            _ => null,
        };

    private static string Caution(string word) =>
        Choices.Cautions.FirstOrDefault(c => c.Key == word).Words ?? Say.Data(word);

    /// <summary>The turns that a piece may take, as the form words them.</summary>
    public static string Turns(string list)
    {
        var written = list.Replace("; ", " ", StringComparison.Ordinal);
        return Choices.Turns(written).FirstOrDefault(t => t.Item1 == written).Item2 ?? written;
    }

    private static string Separator => Culture.NumberFormat.NumberDecimalSeparator;

    private static DateOnly? Day(string text) =>
        DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            ? day
            : null;

    private static decimal? Number(string text) =>
        decimal.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) ? number : null;
}
