using System.Globalization;

namespace Coldpeel.Workshop.Findings;

/// <summary>Figures and lists as people say them, the same in every culture.</summary>
internal static class Words
{
    /// <summary>An item for people: "vest (staff)", or its name alone where the job calls it the same.</summary>
    public static string Item(Orders.ItemRequest item) =>
        item.What.Equals(item.Id, StringComparison.OrdinalIgnoreCase) ? item.What : $"{item.What} ({item.Id})";

    /// <summary>"a", "a and b", "a, b and c".</summary>
    public static string And(IReadOnlyList<string> words) =>
        words.Count < 2 ? string.Concat(words) : $"{string.Join(", ", words.Take(words.Count - 1))} and {words[^1]}";

    /// <summary>Millimetres with the unit; hundredths below 10 mm, tenths above.</summary>
    public static string Mm(double mm) => $"{Figure(mm, mm < 10 ? "0.##" : "0.#")} mm";

    /// <summary>Width × height with the unit.</summary>
    public static string Size(double widthMm, double heightMm) =>
        $"{Figure(widthMm, "0.#")} × {Figure(heightMm, "0.#")} mm";

    /// <summary>"1 place", "12 places".</summary>
    public static string Places(int count) =>
        string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? "place" : "places")}");

    /// <summary>A customer's text for a sentence: one line, at most 40 characters.</summary>
    public static string Short(string text)
    {
        var line = text.ReplaceLineEndings(" ").Trim();
        return line.Length <= 40 ? line : $"{line[..39].TrimEnd()}…";
    }

    /// <summary>A figure in that form.</summary>
    public static string Figure(double value, string form) => value.ToString(form, CultureInfo.InvariantCulture);

    /// <summary>"1 stroke is", "12 strokes are".</summary>
    public static string Are(int count, string one, string many) =>
        count == 1 ? $"1 {one} is" : string.Create(CultureInfo.InvariantCulture, $"{count} {many} are");
}
