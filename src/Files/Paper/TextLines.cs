using System.Globalization;
using System.Text;

namespace Coldpeel.Files.Paper;

/// <summary>Breaks text into lines that fit a width: at blanks, then after hyphens and slashes, then within a word that is wider than the line.</summary>
internal static class TextLines
{
    /// <summary>Width of one line of text, in mm.</summary>
    public static double WidthMm(string text, TextStyle style) =>
        TextRuns.Of(TextRuns.Clean(text), style.Face).Sum(r => TextRuns.Width(r, style.Pt)) * Units.MmPerPoint;

    /// <summary>The lines; an empty text has one empty line, so that a row keeps its height.</summary>
    public static List<string> Wrap(string? text, TextStyle style, double widthMm)
    {
        var lines = new List<string>();
        foreach (var paragraph in TextRuns.Clean(text).Split('\n'))
        {
            var line = "";
            foreach (var part in Parts(paragraph))
            {
                var word = part;
                if (line.Length > 0 && !Fits(line + word.TrimEnd(), style, widthMm))
                {
                    lines.Add(line.TrimEnd());
                    line = "";
                }

                while (line.Length == 0 && !Fits(word.TrimEnd(), style, widthMm))
                {
                    var head = Head(word, style, widthMm);
                    if (head.Length == word.Length)
                    {
                        break;
                    }

                    lines.Add(head);
                    word = word[head.Length..];
                }

                line += line.Length == 0 ? word.TrimStart() : word;
            }

            lines.Add(line.TrimEnd());
        }

        return lines;
    }

    private static bool Fits(string text, TextStyle style, double widthMm) => WidthMm(text, style) <= widthMm + 1e-6;

    /// <summary>As many whole letters as fit, at least one.</summary>
    private static string Head(string word, TextStyle style, double widthMm)
    {
        var head = new StringBuilder();
        var letters = StringInfo.GetTextElementEnumerator(word);
        while (letters.MoveNext())
        {
            if (head.Length > 0 && !Fits(head + letters.GetTextElement(), style, widthMm))
            {
                break;
            }

            head.Append(letters.GetTextElement());
        }

        return head.ToString();
    }

    /// <summary>Words with the blanks behind them, cut after hyphens and slashes too. A no-break space does not part.</summary>
    private static IEnumerable<string> Parts(string text)
    {
        var start = 0;
        for (var i = 1; i < text.Length; i++)
        {
            var afterBlank = text[i - 1] == ' ' && text[i] != ' ';
            var afterMark = text[i - 1] is '-' or '/' or '_' or '?' or '&' && char.IsLetterOrDigit(text[i]);
            if (afterBlank || (afterMark && i - start > 2))
            {
                yield return text[start..i];
                start = i;
            }
        }

        yield return text[start..];
    }
}
