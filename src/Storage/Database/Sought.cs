using Coldpeel.Workshop.Findings;

namespace Coldpeel.Storage.Database;

/// <summary>Words as they are kept to be looked for, and as they are asked for (<see cref="FoldedWords"/>).</summary>
internal static class Sought
{
    /// <summary>Ends one text and begins the next: nobody asks for words that stand in two.</summary>
    public const char Next = '\n';

    // An index over the column has to hold it, and what stands first is looked for most.
    private const int Most = 2000;

    /// <summary>All that a row is found by, the same once.</summary>
    public static string Of(params IEnumerable<string> texts) =>
        Bound(texts.SelectMany(t => new[] { FoldedWords.Of(t), FoldedWords.SpeltOut(t) }));

    /// <summary>What is kept with more to be found by, which stands first.</summary>
    public static string With(string kept, params IEnumerable<string> texts) =>
        Bound([.. Of(texts).Split(Next), .. kept.Split(Next)]);

    /// <summary>What is asked for.</summary>
    public static string Asked(string words) => FoldedWords.Of(words);

    private static string Bound(IEnumerable<string?> texts)
    {
        var all = string.Join(Next, texts.Where(t => !string.IsNullOrEmpty(t)).Distinct(StringComparer.Ordinal));
        return all.Length <= Most ? all : all[..(char.IsHighSurrogate(all[Most - 1]) ? Most - 1 : Most)];
    }
}
