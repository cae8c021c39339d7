using System.Globalization;
using Coldpeel.Craft.Artwork;

namespace Coldpeel.Workshop.Orders;

/// <summary>The colour of an item, as an owner writes it.</summary>
public static class FabricColour
{
    /// <summary>The names that are understood: the named colours of CSS Color Module Level 4.</summary>
    public static IEnumerable<string> Names => CssColours.ByName.Keys;

    /// <summary>Reads <c>#rgb</c>, <c>#rrggbb</c> or a named colour of CSS Color Module Level 4, upper or lower case.</summary>
    /// <returns>The sRGB colour, or null when it is none of these.</returns>
    public static Rgb? Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        text = text.Trim();
        if (CssColours.ByName.TryGetValue(text, out var known))
        {
            return From(known);
        }

        if (text.Length is not (4 or 7) || text[0] != '#' || !text.Skip(1).All(char.IsAsciiHexDigit))
        {
            return null;
        }

        var digits = text.Length == 7 ? text[1..] : string.Concat(text.Skip(1).Select(c => $"{c}{c}"));
        return From(int.Parse(digits, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture));
    }

    private static Rgb From(int rgb) => new((byte)(rgb >> 16), (byte)(rgb >> 8), (byte)rgb);
}
