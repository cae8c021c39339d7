using System.Globalization;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Press;

/// <summary>A day as it would be with other means: asked, never kept.</summary>
public sealed record WhatIf(string Asked, int MakespanS, long LatenessS);

/// <summary>Reads what is asked: <c>hands+1</c>, <c>press+1</c>, <c>celsius+5</c>.</summary>
internal static class WhatIfWord
{
    private const int MostMore = 10;
    private const int MostCelsius = 50;

    public static Outcome<DayProblem> Apply(DayProblem day, string word)
    {
        var sign = word.IndexOfAny(['+', '-']);
        if (
            sign <= 0
            || !int.TryParse(word.AsSpan(sign), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var by)
        )
        {
            return Wrong(word);
        }

        return word[..sign] switch
        {
            "hands" when day.Hands + by >= 1 && by <= MostMore => day with { Hands = day.Hands + by },
            "press" when by is >= 1 and <= MostMore && day.Presses.Length > 0 => day with
            {
                Presses = [.. day.Presses, .. Enumerable.Range(1, by).Select(n => Another(day, n))],
            },
            "celsius" when Math.Abs(by) <= MostCelsius => day with
            {
                Placements = [.. day.Placements.Select(p => p with { TempC = p.TempC + by })],
            },
            _ => Wrong(word),
        };
    }

    // Another press like the largest there is, at the same set-point, free from now.
    private static DayPress Another(DayProblem day, int n)
    {
        var like = day.Presses.MaxBy(p => (long)p.PlateW * p.PlateH)!;
        var id = $"{like.Id}+{n.ToString(CultureInfo.InvariantCulture)}";
        while (day.Presses.Any(p => p.Id == id))
        {
            id += "+";
        }

        return like with
        {
            Id = id,
            FreeAt = day.Now,
        };
    }

    private static Fault Wrong(string word) =>
        new(
            "--what-if",
            $"{word} is no question.",
            "Ask hands+1, hands-1, press+1 or celsius+5 (numbers as you like)."
        );
}
