namespace Coldpeel.Workshop.Findings;

/// <summary>Reads the texts that a process made like another has taken over from it, so that a page can word what is the built-in example's in them.</summary>
public static class TakenOver
{
    private const string Head = "taken over from \"";
    private const string Between = "\", not tried: ";

    // As no name that somebody types has it.
    private const string And = " · ";

    /// <summary>The source of a figure that was taken over and not tried, as the workshop file keeps it.</summary>
    /// <param name="from">The process.</param>
    /// <param name="source">Its source there.</param>
    public static string Source(string from, string source) => $"{Head}{from}{Between}{source}";

    /// <summary>The name of a material that goes by a new process too, as the workshop file keeps it.</summary>
    /// <param name="material">The material.</param>
    /// <param name="process">The new process.</param>
    public static string Name(string material, string process) => $"{material}{And}{process}";

    /// <summary>The text as the sentence that was made; null where it is none of them.</summary>
    /// <param name="text">The text.</param>
    /// <param name="isExample">Whether a text is one of the built-in example's: only then a name was put together by us.</param>
    public static Sentence? Read(string text, Func<string, bool> isExample)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(isExample);
        if (
            text.StartsWith(Head, StringComparison.Ordinal)
            && text.IndexOf(Between, Head.Length, StringComparison.Ordinal) is var cut and > 0
        )
        {
            Sentence from = text[Head.Length..cut];
            return $"taken over from \"{from}\", not tried: {Inner(text[(cut + Between.Length)..])}";
        }

        for (
            var end = text.IndexOf(And, StringComparison.Ordinal);
            end > 0;
            end = text.IndexOf(And, end + 1, StringComparison.Ordinal)
        )
        {
            if (isExample(text[..end]))
            {
                Sentence material = text[..end];
                return $"{material} · {Inner(text[(end + And.Length)..])}";
            }
        }

        return null;

        Sentence Inner(string rest) => isExample(rest) ? rest : Read(rest, isExample) ?? rest;
    }
}
