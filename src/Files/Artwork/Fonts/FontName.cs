using System.Collections.Immutable;
using System.Globalization;

namespace Coldpeel.Files.Artwork.Fonts;

/// <summary>How names of fonts are compared.</summary>
internal static class FontName
{
    /// <summary>The name without what people vary: capitals, spaces, hyphens, underscores.</summary>
    public static string Key(string name) =>
        string.Concat(name.Where(c => !(char.IsWhiteSpace(c) || c is '-' or '_')))
            .ToUpper(CultureInfo.InvariantCulture);

    /// <summary>The names most like the one asked for, best first: those that share its beginning or are a few slips of the pen away.</summary>
    public static ImmutableArray<string> Close(string name, IEnumerable<string> there, int most)
    {
        var key = Key(name);
        return
        [
            .. there
                .Select(n => (Name: n, Far: Distance(key, Key(n))))
                .Where(n => n.Far <= Math.Max(2, key.Length / 3))
                .OrderBy(n => n.Far)
                .ThenBy(n => n.Name.Length)
                .ThenBy(n => n.Name, StringComparer.OrdinalIgnoreCase)
                .Take(most)
                .Select(n => n.Name),
        ];
    }

    /// <summary>Letters to change, add or drop so that <paramref name="asked"/> becomes the beginning of <paramref name="there"/>, or all of it.</summary>
    private static int Distance(string asked, string there)
    {
        if (asked.Length == 0 || asked.Length > 100 || there.Length > 200)
        {
            return int.MaxValue;
        }

        var row = Enumerable.Range(0, there.Length + 1).ToArray();
        for (var i = 1; i <= asked.Length; i++)
        {
            var corner = row[0];
            row[0] = i;
            for (var j = 1; j <= there.Length; j++)
            {
                var change = corner + (asked[i - 1] == there[j - 1] ? 0 : 1);
                corner = row[j];
                row[j] = Math.Min(change, 1 + Math.Min(row[j], row[j - 1]));
            }
        }

        return row.Min();
    }
}
