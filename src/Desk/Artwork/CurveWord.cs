using System.Globalization;
using Coldpeel.Craft.Artwork;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Artwork;

/// <summary>A tone curve in the word of a command line: pairs of percent as <c>25:40,50:65</c>, or <c>gamma:0.8</c>.</summary>
internal static class CurveWord
{
    /// <summary>A gamma is laid through so many points.</summary>
    private const int GammaPoints = 128;

    /// <summary>The curve asked for, none where nothing is asked; or what is wrong with the asking.</summary>
    internal static Outcome<Asked> Read(string? word)
    {
        if (word is null)
        {
            return new Asked(null);
        }

        if (word.StartsWith("gamma:", StringComparison.OrdinalIgnoreCase))
        {
            return Figure(word[6..]) is { } gamma and >= 0.1 and <= 10
                ? new Asked(
                    ToneCurve.Through(
                        Enumerable
                            .Range(1, GammaPoints - 1)
                            .Select(k => (double)k / GammaPoints)
                            .Select(x => new TonePoint(x, Math.Pow(x, gamma)))
                    )
                )
                : Wrong(word);
        }

        var points = new List<TonePoint>();
        foreach (var pair in word.Split(',', StringSplitOptions.TrimEntries))
        {
            if (
                pair.Split(':') is not [var from, var to]
                || Figure(from) is not ({ } asked and >= 0 and <= 100)
                || Figure(to) is not ({ } printed and >= 0 and <= 100)
            )
            {
                return Wrong(word);
            }

            points.Add(new(asked / 100, printed / 100));
        }

        // A curve through points evens falls out, as a measured wedge needs it; what is asked for is meant, so it is not bent in silence.
        var rising = points.OrderBy(p => p.Asked).ToList();
        for (var k = 1; k < rising.Count; k++)
        {
            var (low, high) = (rising[k - 1], rising[k]);
            if (high.Printed < low.Printed || high.Asked <= low.Asked)
            {
                return Falls(word, low, high);
            }
        }

        return new Asked(ToneCurve.Through(points));
    }

    /// <summary>The curve of one asking; none for none.</summary>
    internal sealed record Asked(ToneCurve? Value);

    private static double? Figure(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) ? value : null;

    private static Fault Falls(string word, TonePoint low, TonePoint high) =>
        new(
            "--curve",
            string.Create(
                CultureInfo.InvariantCulture,
                $"\"{word}\" is no tone curve: {100 * low.Asked:0.##} % is to print as {100 * low.Printed:0.##} % and {100 * high.Asked:0.##} % as {100 * high.Printed:0.##} %, and a tone curve goes through every tint once and never falls."
            ),
            "Give each tint once, a darker one never less than a lighter one, as 25:40,50:65."
        );

    private static Fault Wrong(string word) =>
        new(
            "--curve",
            $"\"{word}\" is no tone curve.",
            "Give pairs of percent, in the picture and in print, as 25:40,50:65; or gamma:0.8 (0.1 to 10; below 1 prints more)."
        );
}
