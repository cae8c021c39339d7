using System.Globalization;
using Coldpeel.Web.Words;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Quotes;

namespace Coldpeel.Web.Layout;

/// <summary>Days, spans, lengths and sizes in the words and figures of whoever reads.</summary>
/// <remarks>The culture of what is read is <see cref="CultureInfo.CurrentUICulture"/>; <see cref="CultureInfo.CurrentCulture"/> stays invariant, for
/// addresses, forms, files and papers.</remarks>
internal static class Say
{
    private const double MmPerInch = 25.4;

    private static CultureInfo Culture => CultureInfo.CurrentUICulture;

    /// <summary>A sentence with what belongs in its places.</summary>
    public static string With(string sentence, params object?[] parts) => string.Format(Culture, sentence, parts);

    /// <summary>"Fri 21 May 2027".</summary>
    public static string Day(DateOnly day) => day.ToString(LayoutWords.DayForm, Culture);

    /// <summary>"Fri 21 May 2027, 14:05", in the time it is given in.</summary>
    public static string Instant(DateTimeOffset at) => at.ToString(LayoutWords.InstantForm, Culture);

    /// <summary>"Fri 14:05", within a week.</summary>
    public static string ShortInstant(DateTimeOffset at) => at.ToString(LayoutWords.ShortDayForm, Culture);

    /// <summary>"today", "in 3 days", "2 days ago".</summary>
    public static string Left(int days) =>
        days switch
        {
            0 => LayoutWords.LeftToday,
            1 => LayoutWords.LeftTomorrow,
            -1 => LayoutWords.LeftYesterday,
            > 1 => With(LayoutWords.LeftIn, days),
            _ => With(LayoutWords.LeftAgo, -days),
        };

    /// <summary>"2 h 05 min", "4 min 20 s", "35 s".</summary>
    public static string Span(int seconds) =>
        seconds >= 3600 ? With(LayoutWords.SpanHours, seconds / 3600, seconds / 60 % 60)
        : seconds < 60 ? With(LayoutWords.SpanSeconds, seconds)
        : seconds % 60 == 0 ? With(LayoutWords.SpanMinutes, seconds / 60)
        : With(LayoutWords.SpanMinutesSeconds, seconds / 60, seconds % 60);

    /// <summary>"1 sheet", "3 sheets"; with a place {0} in the words the count stands there.</summary>
    public static string Count(int count, string one, string many)
    {
        var words = count == 1 ? one : many;
        return words.Contains("{0}", StringComparison.Ordinal) ? With(words, count) : With("{0} {1}", count, words);
    }

    /// <summary>"840 bytes", "12 kB", "3.4 MB".</summary>
    public static string Size(long bytes) =>
        bytes >= 1_000_000 ? With(LayoutWords.SizeMegabytes, bytes / 1e6)
        : bytes >= 1000 ? With(LayoutWords.SizeKilobytes, bytes / 1000)
        : With(LayoutWords.SizeBytes, bytes);

    /// <summary>A length with its unit: "85.5 mm" to a tenth, "3.37 in" to a hundredth, "0.394 in" below one inch (at most 0.13 and 0.013 mm wrong).</summary>
    public static string Length(double mm) => $"{LengthFigure(mm)} {LengthUnit}";

    /// <summary>Width and height with their unit: "60 × 40 mm".</summary>
    public static string Lengths(double widthMm, double heightMm) =>
        $"{LengthFigure(widthMm)} × {LengthFigure(heightMm)} {LengthUnit}";

    /// <summary>An area with its unit: "12.5 mm²", "0.0194 in²".</summary>
    public static string Area(double mm2) => Words.Area(mm2);

    /// <summary>The figure of a length alone, for a screen that shows it large.</summary>
    public static string LengthFigure(double mm) =>
        Reader.Inches
            ? (mm / MmPerInch).ToString(Math.Abs(mm) < MmPerInch ? "0.###" : "0.##", Culture)
            : mm.ToString("0.#", Culture);

    /// <summary>How whoever reads has sentences worded.</summary>
    public static Wording Words => Wording.For(Reader.Language, Reader.Inches);

    /// <summary>A sentence in the reader's language and unit.</summary>
    public static string Sentence(Sentence sentence) => Words.Say(sentence);

    /// <summary>The language a sentence is in where it is not the reader's: what an earlier version kept as a text is English; else null.</summary>
    public static string? Tongue(Sentence sentence) => Reader.Language == "en" || Words.Knows(sentence) ? null : "en";

    /// <summary>A word of the workshop's own file, worded where it is one of the built-in example's.</summary>
    public static string Data(string? text) => Words.Data(text ?? "");

    /// <summary>A line that the store keeps in English: of a history, of a movement, of what work put on the shelf.</summary>
    public static string Kept(string line) => Words.Say(PastLine.Read(line));

    /// <summary>Who did it: the workshop's computer is worded, all others are called as they are.</summary>
    public static string Who(string who) => Words.Data(OwnComputer.Of(who));

    /// <summary>A refusal in one line.</summary>
    public static string Fault(Fault fault) => fault.In(Words);

    /// <summary>The sign of the unit in which lengths are shown.</summary>
    public static string LengthUnit => Reader.Inches ? "in" : "mm";

    /// <summary>A figure that is no length, to a tenth.</summary>
    public static string Figure(double figure) => figure.ToString("0.#", Culture);

    /// <summary>A count or an amount, without zeros at its end.</summary>
    public static string Amount(decimal amount) => amount.ToString("0.###", Culture);

    /// <summary>A price with its currency, to the hundredth at least, for it may be of so little that a hundredth is too coarse: "9.60 EUR", "0.0425 EUR".</summary>
    public static string Price(decimal amount, string currency) =>
        $"{amount.ToString(Currencies.MinorUnits(currency) is 0 ? "0.####" : "0.00##", Culture)} {currency}";

    /// <summary>An amount of money with its currency: "12.50 EUR", "12,50 EUR".</summary>
    public static string Money(Money money) =>
        $"{money.Amount.ToString($"F{Currencies.MinorUnits(money.Currency) ?? 2}", Culture)} {money.Currency}";

    /// <summary>A name as one step of an address.</summary>
    public static string Step(string name) => Uri.EscapeDataString(name);
}
