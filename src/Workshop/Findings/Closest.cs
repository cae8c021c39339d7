namespace Coldpeel.Workshop.Findings;

/// <summary>What somebody may have meant who wrote a name that is not there.</summary>
public static class Closest
{
    /// <summary>The known names, the most alike first; at most <paramref name="most"/>, told as a list.</summary>
    public static Sentence Listed(string asked, IEnumerable<string> known, int most = 6)
    {
        var all = Order(asked, known);
        var shown = string.Join(", ", all.Take(most).Select(n => $"\"{n}\""));
        return all.Count > most ? (Sentence)$"{shown} and {all.Count - most} more" : $"{shown}";
    }

    /// <summary>The known names, the most alike first.</summary>
    public static IReadOnlyList<string> Order(string asked, IEnumerable<string> known)
    {
        ArgumentNullException.ThrowIfNull(asked);
        ArgumentNullException.ThrowIfNull(known);
        return
        [
            .. known
                .OrderBy(n => Distance(asked, n))
                .ThenByDescending(n => SameStart(asked, n))
                .ThenBy(n => n, StringComparer.Ordinal),
        ];
    }

    private static int SameStart(string a, string b) =>
        a.Zip(b).TakeWhile(p => char.ToUpperInvariant(p.First) == char.ToUpperInvariant(p.Second)).Count();

    // Levenshtein's distance, letters compared without case; a name that holds the asked word comes before one that does not.
    private static double Distance(string a, string b)
    {
        a = a.Trim().ToUpperInvariant();
        b = b.Trim().ToUpperInvariant();
        a = a.Length > 100 ? a[..100] : a;
        var row = Enumerable.Range(0, b.Length + 1).ToArray();
        for (var i = 1; i <= a.Length; i++)
        {
            var corner = row[0];
            row[0] = i;
            for (var j = 1; j <= b.Length; j++)
            {
                var change = corner + (a[i - 1] == b[j - 1] ? 0 : 1);
                corner = row[j];
                row[j] = Math.Min(change, Math.Min(row[j], row[j - 1]) + 1);
            }
        }

        var holds =
            a.Length > 2 && (b.Contains(a, StringComparison.Ordinal) || a.Contains(b, StringComparison.Ordinal));
        return row[b.Length] - (holds ? 100 : 0);
    }
}
