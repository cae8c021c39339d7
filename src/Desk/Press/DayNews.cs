using System.Globalization;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Desk.Press;

/// <summary>Takes into a day what came late and what was spoilt: <c>NAME@SECOND</c>, and <c>NAME</c> alone where a spare is at hand.</summary>
internal static class DayNews
{
    private const int MostSeconds = 1_000_000;
    private const string LateOption = "--late";
    private const string SpoiltOption = "--spoilt";

    public static Outcome<DayProblem> Apply(DayProblem day, PlanDayOptions options)
    {
        if (options.Spoilt.Count > 0 && options.Now is null)
        {
            return new Fault(
                SpoiltOption,
                "asks what had been pressed, and no plan was given.",
                "Give --now and --done with the plan followed so far."
            );
        }

        foreach (var word in options.Late)
        {
            var (name, second) = Split(word);
            if (second is not { } at)
            {
                return new Fault(LateOption, $"{word} names no second.", "Write it as S2@5400.");
            }

            var late = LateThings.Apply(day, $"{LateOption} {word}", name, at);
            if (!late.Ok)
            {
                return late.Fault;
            }

            day = late.Value;
        }

        foreach (var word in options.Spoilt)
        {
            var (name, second) = Split(word);
            var spoilt = SpoiltThings.Apply(day, $"{SpoiltOption} {word}", name, second);
            if (!spoilt.Ok)
            {
                return spoilt.Fault;
            }

            day = spoilt.Value;
        }

        return day;
    }

    // The last @ with a second behind it parts; a name may hold one too.
    private static (string Name, int? Second) Split(string word)
    {
        var at = word.LastIndexOf('@');
        return
            at > 0
            && int.TryParse(word.AsSpan(at + 1), NumberStyles.None, CultureInfo.InvariantCulture, out var second)
            && second <= MostSeconds
            ? (word[..at], second)
            : (word, null);
    }
}
