using System.Globalization;
using System.Text;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Workshop.Findings;

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
        var plan = Plain(paper.Problem.Name);
        Line(text, "BEGIN:VCALENDAR");
        Line(text, "VERSION:2.0");
        Line(text, $"PRODID:-//Coldpeel//Day plan//{paper.Words.Language.ToUpperInvariant()}");
        Line(text, "CALSCALE:GREGORIAN");
        var none = true;
        foreach (var hand in words.Steps.Where(s => s.Hand is not null).GroupBy(s => s.Hand!.Value).OrderBy(g => g.Key))
        {
            var number = 0;
            foreach (var stretch in Stretches([.. hand]))
            {
                number++;
                var verbs = stretch.Select(s => words[DayWords.Short(s.Op)]).Distinct();
                Entry(
                    $"{hand.Key}-{number}",
                    At(midnight, stretch[0].Start),
                    At(midnight, Math.Max(stretch.Max(s => s.End), stretch[0].Start + 1)),
                    $"{words[Hands(hand.Key)]}: {string.Join(", ", verbs)}",
                    string.Join('\n', stretch.Select(s => Say(s, words)))
                );
            }
        }

        foreach (var (pause, number) in words.Breaks.Select((b, i) => (b, i + 1)))
        {
            Entry(
                $"break-{number}",
                At(midnight, pause.From),
                At(midnight, pause.To),
                words[$"{Hands(pause.Hand)}: break"],
                words[$"{words.Clock(pause.From)} to {words.Clock(pause.To)}"]
            );
        }

        // A calendar holds at least one entry (RFC 5545, 3.6).
        if (none)
        {
            Entry(
                "none",
                At(midnight, paper.Problem.Now),
                At(midnight, paper.Problem.Now + 1),
                words[$"Nothing to do at the presses"],
                words[$"The plan holds no work."]
            );
        }

        Line(text, "END:VCALENDAR");
        return text.ToString();

        void Entry(string id, string from, string to, string summary, string description)
        {
            none = false;
            Line(text, "BEGIN:VEVENT");
            Line(text, $"UID:{day.ToString("yyyyMMdd", CultureInfo.InvariantCulture)}-{id}-{plan}@coldpeel");
            Line(text, $"DTSTAMP:{madeUtc.UtcDateTime.ToString("yyyyMMdd'T'HHmmss'Z'", CultureInfo.InvariantCulture)}");
            Line(text, $"DTSTART:{from}");
            Line(text, $"DTEND:{to}");
            Line(text, $"SUMMARY:{Escape(summary)}");
            Line(text, $"DESCRIPTION:{Escape(description)}");
            Line(text, "END:VEVENT");
        }
    }

    private static Sentence Hands(int hand) => $"Hands {hand}";

    private static string Say(DayStep step, DayWords words) =>
        $"{words.Clock(step.Start)} {words[DayWords.Verb(step.Op)]} {words.Name(step.Ref)}"
        + (step.Press is null ? "" : words[$", press {step.Press}"])
        + (step.Rack is null ? "" : words[$", rack {step.Rack}"]);

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

    // Letters of other scripts are not dropped without a trace: two names that differ in them alone are two plans (FNV-1a, 32 bits).
    private static string Plain(string name)
    {
        var hash = 2166136261u;
        foreach (var octet in Encoding.UTF8.GetBytes(name))
        {
            hash = unchecked((hash ^ octet) * 16777619u);
        }

        return string.Concat(name.Where(char.IsAsciiLetterOrDigit)) + hash.ToString("x8", CultureInfo.InvariantCulture);
    }

    private static string Escape(string text) =>
        text.Replace("\\", "\\\\", StringComparison.Ordinal)
            .Replace(";", "\\;", StringComparison.Ordinal)
            .Replace(",", "\\,", StringComparison.Ordinal)
            .Replace("\n", "\\n", StringComparison.Ordinal)
            .Where(c => !char.IsControl(c) || c == '\t')
            .Aggregate(new StringBuilder(), (s, c) => s.Append(c))
            .ToString();

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
