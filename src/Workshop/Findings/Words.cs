namespace Coldpeel.Workshop.Findings;

/// <summary>Figures and lists as people say them, the same in every culture.</summary>
internal static class Words
{
    /// <summary>An item for people: "vest (staff)", or its name alone where the job calls it the same.</summary>
    public static string Item(Orders.ItemRequest item) =>
        item.What.Equals(item.Id, StringComparison.OrdinalIgnoreCase) ? item.What : $"{item.What} ({item.Id})";

    /// <summary>"a", "a and b", "a, b and c".</summary>
    public static Sentence And(IReadOnlyList<Sentence> words) =>
        words.Count == 0 ? Sentence.Nothing
        : words.Count == 1 ? words[0]
        : $"{Row(words.Take(words.Count - 1), ", ")} and {words[^1]}";

    /// <summary>Millimetres with the unit; hundredths below 10 mm, tenths above.</summary>
    public static Part Mm(double mm) => Mm(mm, mm < 10 ? "0.##" : "0.#");

    /// <summary>Millimetres with the unit, in that form.</summary>
    public static Part Mm(double mm, string form) => new Part.Length(mm, null, form);

    /// <summary>Width × height with the unit.</summary>
    public static Part Size(double widthMm, double heightMm) => new Part.Length(widthMm, heightMm, "0.#");

    /// <summary>An area in mm² with its unit, in that form.</summary>
    public static Part Mm2(double mm2, string form) => new Part.Area(mm2, form);

    /// <summary>"1 place", "12 places".</summary>
    public static Sentence Places(int count) => count == 1 ? (Sentence)$"1 place" : $"{count} places";

    /// <summary>A customer's text for a sentence: one line, at most 40 characters.</summary>
    public static string Short(string text)
    {
        var line = text.ReplaceLineEndings(" ").Trim();
        return line.Length <= 40 ? line : $"{line[..39].TrimEnd()}…";
    }

    /// <summary>One way of saying it for one, another for several.</summary>
    public static Sentence Are(int count, Sentence one, Sentence many) => count == 1 ? one : many;

    /// <summary>A figure in that form.</summary>
    public static Part Figure(double value, string form) => new Part.Number(value, form);

    /// <summary>A name of the workshop's own file, worded where it is one of the built-in example's.</summary>
    public static Sentence Data(string name) => name;

    /// <summary>Sentences one after another.</summary>
    public static Part Row(IEnumerable<Sentence> sentences, string between) => new Part.Row([.. sentences], between);
}
