namespace Coldpeel.Files.Sheets;

/// <summary>Words for what is no number, which some programs write into JSON though it has none: read as <c>null</c>, so that the place can be named.</summary>
internal static class LenientNumbers
{
    /// <summary>The text with <c>NaN</c>, <c>Infinity</c> and <c>-Infinity</c> outside of quotes replaced by null; null where there are none.</summary>
    public static byte[]? Mended(ReadOnlySpan<byte> json)
    {
        var mended = new List<byte>(json.Length);
        var (quoted, found) = (false, false);
        for (var i = 0; i < json.Length; )
        {
            var rest = json[i..];
            var word =
                quoted ? 0
                : rest.StartsWith("NaN"u8) ? 3
                : rest.StartsWith("Infinity"u8) ? 8
                : rest.StartsWith("-Infinity"u8) ? 9
                : 0;
            if (word > 0)
            {
                mended.AddRange("null"u8);
                found = true;
                i += word;
                continue;
            }

            mended.Add(json[i]);
            if (quoted && json[i] == '\\' && i + 1 < json.Length)
            {
                mended.Add(json[++i]);
            }
            else if (json[i] == '"')
            {
                quoted = !quoted;
            }

            i++;
        }

        return found ? [.. mended] : null;
    }
}
