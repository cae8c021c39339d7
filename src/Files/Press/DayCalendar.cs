using System.Globalization;
using System.Text;
using Coldpeel.Craft.Press.Day;

namespace Coldpeel.Files.Press;

/// <summary>A day plan for the phone: iCalendar (RFC 5545), one entry for each quarter of an hour of each hand, in local time without a zone.</summary>
public static class DayCalendar
{
    private const int StretchS = 15 * 60;
    private const int MostOctets = 75; // RFC 5545, 3.1: longer lines are folded

    /// <summary>The calendar file's text; the same plan and instant give the same text.</summary>
    /// <param name="paper">The plan with its words; without a day it is put on the day of <paramref name="madeUtc"/>.</param>
    /// <param name="madeUtc">When it is made.</param>
    public static string Write(DayPlanPaper paper, DateTimeOffset madeUtc)
    {
        ArgumentNullException.ThrowIfNull(paper);
        var words = new DayWords(paper);
        var day = paper.Day ?? DateOnly.FromDateTime(madeUtc.UtcDateTime);
        var midnight = day.ToDateTime(paper.DayStart);
        var text = new StringBuilder();
        Line(text, "BEGIN:VCALENDAR");
        Line(text, "VERSION:2.0");
        Line(text, "PRODID:-//Coldpeel//Day plan//EN");
        Line(text, "CALSCALE:GREGORIAN");
        foreach (var hand in words.Steps.Where(s => s.Hand is not null).GroupBy(s => s.Hand!.Value).OrderBy(g => g.Key))
        {
            var number = 0;
            foreach (var stretch in Stretches([.. hand]))
            {
                number++;
                var name = string.Create(CultureInfo.InvariantCulture, $"Hands {hand.Key}");
                var verbs = stretch.Select(s => DayWords.Short(s.Op)).Distinct();
                Line(text, "BEGIN:VEVENT");
                Line(
                    text,
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"UID:{day:yyyyMMdd}-{hand.Key}-{number}-{Plain(paper.Problem.Name)}@coldpeel"
                    )
                );
                Line(
                    text,
                    $"DTSTAMP:{madeUtc.UtcDateTime.ToString("yyyyMMdd'T'HHmmss'Z'", CultureInfo.InvariantCulture)}"
                );
                Line(text, $"DTSTART:{At(midnight, stretch[0].Start)}");
                Line(text, $"DTEND:{At(midnight, Math.Max(stretch.Max(s => s.End), stretch[0].Start + 1))}");
                Line(text, $"SUMMARY:{Escape($"{name}: {string.Join(", ", verbs)}")}");
                Line(text, $"DESCRIPTION:{Escape(string.Join('\n', stretch.Select(s => Say(s, words))))}");
                Line(text, "END:VEVENT");
            }
        }

        Line(text, "END:VCALENDAR");
        return text.ToString();
    }

    private static string Say(DayStep step, DayWords words) =>
        $"{words.Clock(step.Start)} {DayWords.Verb(step.Op)} {words.Name(step.Ref)}"
        + (step.Press is null ? "" : $", press {step.Press}")
        + (step.Rack is null ? "" : string.Create(CultureInfo.InvariantCulture, $", rack {step.Rack}"));

    private static IEnumerable<List<DayStep>> Stretches(IReadOnlyList<DayStep> steps)
    {
        var stretch = new List<DayStep>();
        foreach (var step in steps)
        {
            if (stretch.Count > 0 && step.Start >= stretch[0].Start + StretchS)
            {
                yield return stretch;
                stretch = [];
            }

            stretch.Add(step);
        }

        if (stretch.Count > 0)
        {
            yield return stretch;
        }
    }

    private static string At(DateTime midnight, int second) =>
        midnight.AddSeconds(second).ToString("yyyyMMdd'T'HHmmss", CultureInfo.InvariantCulture);

    private static string Plain(string name) => string.Concat(name.Where(char.IsAsciiLetterOrDigit));

    private static string Escape(string text) =>
        text.Replace("\\", "\\\\", StringComparison.Ordinal)
            .Replace(";", "\\;", StringComparison.Ordinal)
            .Replace(",", "\\,", StringComparison.Ordinal)
            .Replace("\r", "", StringComparison.Ordinal)
            .Replace("\n", "\\n", StringComparison.Ordinal);

    // Folded by octets, never within a letter.
    private static void Line(StringBuilder text, string line)
    {
        var octets = 0;
        foreach (var rune in line.EnumerateRunes())
        {
            if (octets + rune.Utf8SequenceLength > MostOctets)
            {
                text.Append("\r\n ");
                octets = 1;
            }

            text.Append(rune.ToString());
            octets += rune.Utf8SequenceLength;
        }

        text.Append("\r\n");
    }
}
