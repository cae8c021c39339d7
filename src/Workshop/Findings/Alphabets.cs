namespace Coldpeel.Workshop.Findings;

/// <summary>The alphabets whose letters are taken for each other.</summary>
internal enum Alphabet
{
    /// <summary>No letter of these.</summary>
    None,

    /// <summary>Latin.</summary>
    Latin,

    /// <summary>Greek.</summary>
    Greek,

    /// <summary>Cyrillic.</summary>
    Cyrillic,
}

/// <summary>Which alphabet a text is written in, and which letters only look as if they belonged to another.</summary>
/// <remarks>Look-alikes are the single-letter pairs of Unicode's confusables (UTS #39) between Latin, Greek and Cyrillic that print alike in most typefaces.</remarks>
internal static class Alphabets
{
    private const string Foreign = "АВЕЅІЈКМНОРСТУХаеѕіјорсухԁһΑΒΕΖΗΙΚΜΝΟΡΤΥΧο";
    private const string AsLatin = "ABESIJKMHOPCTYXaesijopcyxdhABEZHIKMNOPTYXo";

    /// <summary>The alphabet of the first letter; <see cref="Alphabet.None"/> without one.</summary>
    public static Alphabet Of(string text) => text.Select(Of).FirstOrDefault(a => a != Alphabet.None);

    /// <summary>Whether a single word takes letters of two alphabets.</summary>
    public static bool IsMixed(string text) =>
        text.Split((char[]?)null).Any(word => word.Select(Of).Where(a => a != Alphabet.None).Distinct().Count() > 1);

    /// <summary>Whether every letter is Greek or Cyrillic and looks Latin: "АННА".</summary>
    public static bool LooksLatin(string text)
    {
        var letters = text.Where(char.IsLetter).ToArray();
        return letters.Length > 0 && letters.All(c => Foreign.Contains(c, StringComparison.Ordinal));
    }

    /// <summary>The text with look-alikes swapped for the Latin letters they look like.</summary>
    public static string Latinised(string text) =>
        string.Concat(
            text.Select(c => Foreign.IndexOf(c, StringComparison.Ordinal) is >= 0 and var i ? AsLatin[i] : c)
        );

    private static Alphabet Of(char c) =>
        !char.IsLetter(c) ? Alphabet.None
        : c is (>= 'A' and <= '\u024F') or (>= '\u1E00' and <= '\u1EFF') ? Alphabet.Latin
        : c is (>= '\u0370' and <= '\u03FF') or (>= '\u1F00' and <= '\u1FFF') ? Alphabet.Greek
        : c is >= '\u0400' and <= '\u052F' ? Alphabet.Cyrillic
        : Alphabet.None;
}
