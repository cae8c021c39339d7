using System.Text;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Orders;

/// <summary>The bytes of a roster as text, whichever of the usual encodings they are in.</summary>
internal static class RosterText
{
    /// <summary>What spreadsheet programs of Western Europe and the Americas still save by default.</summary>
    private static readonly Encoding Western = CodePagesEncodingProvider.Instance.GetEncoding(1252)!;

    /// <summary>The text and a note when letters had to be guessed; or the fault.</summary>
    public static (string Text, Sentence? Note, Fault? Fault) Decode(byte[] bytes, string shownName)
    {
        const string mend = "Save it as \"CSV UTF-8\".";
        if (bytes is [0xEF, 0xBB, 0xBF, ..] && Strict(bytes.AsSpan(3), new UTF8Encoding(false, true)) is { } marked)
        {
            return (marked, null, null);
        }

        if (bytes is [0xFF, 0xFE, ..] or [0xFE, 0xFF, ..])
        {
            return Strict(bytes.AsSpan(2), new UnicodeEncoding(bytes[0] == 0xFE, false, true)) is { } wide
                ? (wide, null, null)
                : ("", null, new(shownName, "The file begins as UTF-16 but breaks off within a letter.", mend));
        }

        if (Array.IndexOf(bytes, (byte)0) is >= 0 and var zero)
        {
            return ("", null, new($"{shownName}, line {Line(bytes, zero)}", "This is not a text file.", mend));
        }

        if (Strict(bytes, new UTF8Encoding(false, true)) is { } plain)
        {
            return (plain, null, null);
        }

        // Five bytes mean nothing in Windows-1252: with one of them it is another encoding, and names would be set wrong.
        if (Array.FindIndex(bytes, b => b is 0x81 or 0x8D or 0x8F or 0x90 or 0x9D) is >= 0 and var odd)
        {
            var where = $"{shownName}, line {Line(bytes, odd)}";
            return ("", null, new(where, "The letters are in an encoding that cannot be told from the file.", mend));
        }

        var first = Array.FindIndex(bytes, b => b >= 0x80);
        Sentence note =
            $"{shownName} is not UTF-8 and was read as Windows-1252 (Western European): check the letters, first on line {Line(bytes, first)}, or save it as \"CSV UTF-8\".";
        return (Western.GetString(bytes), note, null);
    }

    private static string? Strict(ReadOnlySpan<byte> bytes, Encoding encoding)
    {
        try
        {
            return encoding.GetString(bytes);
        }
        catch (DecoderFallbackException)
        {
            return null;
        }
    }

    private static int Line(byte[] bytes, int at) => 1 + bytes.AsSpan(0, at).Count((byte)'\n');
}
