using System.Globalization;
using Coldpeel.Craft.Artwork;
using Coldpeel.Workshop.Artwork;
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

        if (CurveRule.Broken(points) is { } why)
        {
            return new Fault("--curve", $"\"{word}\" is no tone curve: {why}", $"{CurveRule.Mend}, as 25:40,50:65.");
        }

        return new Asked(ToneCurve.Through(points));
    }

    /// <summary>The curve of one asking; none for none.</summary>
    internal sealed record Asked(ToneCurve? Value);

    private static double? Figure(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) ? value : null;

    private static Fault Wrong(string word) =>
        new(
            "--curve",
            $"\"{word}\" is no tone curve.",
            "Give pairs of percent, in the picture and in print, as 25:40,50:65; or gamma:0.8 (0.1 to 10; below 1 prints more)."
        );
}
