using Coldpeel.Craft.Press.Day;

namespace Coldpeel.Files.Press;

/// <summary>A stretch of one hand's day: rounds of <paramref name="Period"/> steps each, or 0 for work that does not repeat.</summary>
internal sealed record DayPart(int Period, IReadOnlyList<DayStep> Steps);

/// <summary>Finds rounds: the same steps, with the same figures, at least three times in a row.</summary>
internal static class DayRounds
{
    private const int LongestRound = 9; // as many columns as stand side by side and can be read
    private const int FewestRounds = 3;

    /// <summary>The steps in order, cut into rounds and the rest. Two steps are alike when <paramref name="key"/> says so.</summary>
    public static List<DayPart> Split<TKey>(IReadOnlyList<DayStep> steps, Func<DayStep, TKey> key)
        where TKey : IEquatable<TKey>
    {
        var keys = steps.Select(key).ToArray();
        var parts = new List<DayPart>();
        var plain = new List<DayStep>();
        for (var i = 0; i < keys.Length; )
        {
            var (period, rounds) = Best(keys, i);
            if (rounds < FewestRounds)
            {
                plain.Add(steps[i++]);
                continue;
            }

            Flush(parts, plain);
            parts.Add(new(period, [.. steps.Skip(i).Take(period * rounds)]));
            i += period * rounds;
        }

        Flush(parts, plain);
        return parts;
    }

    /// <summary>The round that covers most steps from here on; the shorter of two that cover the same.</summary>
    private static (int Period, int Rounds) Best<TKey>(TKey[] keys, int from)
        where TKey : IEquatable<TKey>
    {
        var best = (Period: 0, Rounds: 0);
        for (var period = 2; period <= LongestRound; period++)
        {
            // Equal steps in a row are a run of the list, not a round.
            if (keys.Skip(from).Take(period).Distinct().Count() == 1)
            {
                continue;
            }

            var rounds = 1;
            while (Same(keys, from, from + (rounds * period), period))
            {
                rounds++;
            }

            if (rounds >= FewestRounds && rounds * period > best.Rounds * best.Period)
            {
                best = (period, rounds);
            }
        }

        return best;
    }

    private static bool Same<TKey>(TKey[] keys, int a, int b, int count)
        where TKey : IEquatable<TKey> =>
        b + count <= keys.Length && Enumerable.Range(0, count).All(i => keys[a + i].Equals(keys[b + i]));

    private static void Flush(List<DayPart> parts, List<DayStep> plain)
    {
        if (plain.Count > 0)
        {
            parts.Add(new(0, [.. plain]));
            plain.Clear();
        }
    }
}
