using System.Text;
using System.Text.Json;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Json;

/// <summary>Text of a file as UTF-8, checked before anything of it is read.</summary>
internal static class Utf8Text
{
    /// <summary>What the file is instead; null where it is such text.</summary>
    /// <param name="bytes">The file.</param>
    /// <param name="shown">How it is called in messages.</param>
    /// <param name="text">The text without the mark that some editors write before it.</param>
    public static Fault? Check(ReadOnlyMemory<byte> bytes, string shown, out ReadOnlyMemory<byte> text)
    {
        text = bytes.Span.StartsWith(Encoding.UTF8.Preamble) ? bytes[Encoding.UTF8.Preamble.Length..] : bytes;
        try
        {
            _ = new UTF8Encoding(false, true).GetCharCount(text.Span);
        }
        catch (DecoderFallbackException)
        {
            return new Fault(shown, "is not UTF-8 text.", "Save it as UTF-8 in your editor.");
        }

        return HalfLetter(text.Span) is { } line
            ? new Fault(
                $"{shown}: line {line}",
                "a text holds half of a letter, written as \\u and four digits.",
                "Write the letter itself."
            )
            : null;
    }

    // The line, from 1, of a text with one of the two halves of a letter (RFC 8259, section 8.2); null where there is none. What is no JSON is told by whoever reads it.
    private static int? HalfLetter(ReadOnlySpan<byte> text)
    {
        if (text.IndexOf("\\u"u8) < 0)
        {
            return null;
        }

        var reader = new Utf8JsonReader(text);
        try
        {
            while (reader.Read())
            {
                if (reader.TokenType is JsonTokenType.String or JsonTokenType.PropertyName && reader.ValueIsEscaped)
                {
                    reader.GetString();
                }
            }
        }
        catch (JsonException) { }
        catch (InvalidOperationException)
        {
            return 1 + text[..(int)reader.TokenStartIndex].Count((byte)'\n');
        }

        return null;
    }
}
