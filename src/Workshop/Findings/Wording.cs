using System.Collections;
using System.Collections.Frozen;
using System.Globalization;
using System.Resources;
using System.Text.RegularExpressions;

namespace Coldpeel.Workshop.Findings;

/// <summary>Words sentences for a reader: language, unit of length, figures, days and money.</summary>
/// <remarks>
/// A sentence that has no wording in the language is said in English, as a whole; its figures and lengths follow the reader all the same.
/// Immutable: safe for several threads.
/// </remarks>
public sealed partial class Wording
{
    /// <summary>Form of a length that is told as exact as it is kept, in inches to 2.5 µm.</summary>
    public const string Exact = "0.####";

    private const double MmPerInch = 25.4;

    private static readonly ResourceManager Table = new(
        "Coldpeel.Workshop.Findings.Sentences",
        typeof(Wording).Assembly
    );

    private static readonly FrozenDictionary<string, string> German = Read("de");

    private static readonly FrozenSet<string> Example = Names();

    private readonly CultureInfo culture;
    private readonly FrozenDictionary<string, string>? table;

    private Wording(string language, bool inches)
    {
        (Language, Inches) = (language, inches);
        culture = language == "en" ? CultureInfo.InvariantCulture : CultureInfo.GetCultureInfo(language);
        table = language == "en" ? null : German;
    }

    /// <summary>English and millimetres: the wording of files and commands.</summary>
    public static Wording English { get; } = new("en", false);

    /// <summary>"en" or "de".</summary>
    public string Language { get; }

    /// <summary>Whether lengths are worded in inches.</summary>
    public bool Inches { get; }

    /// <summary>The wording for a language and a unit.</summary>
    /// <param name="language">"en" or "de"; anything else is worded in English.</param>
    /// <param name="inches">Whether lengths are worded in inches.</param>
    public static Wording For(string? language, bool inches) =>
        language == "de" ? new("de", inches)
        : inches ? new("en", true)
        : English;

    /// <summary>What the sentence says.</summary>
    public string this[Sentence sentence] => Say(sentence);

    /// <summary>Whether the sentence, with all that stands in it, has a wording in the language.</summary>
    public bool Knows(Sentence sentence)
    {
        ArgumentNullException.ThrowIfNull(sentence);
        return table is null
            || (
                (sentence.IsEmpty || !HasWords(sentence.Form) || table.ContainsKey(sentence.Form))
                && sentence.Parts.All(p =>
                    p switch
                    {
                        Part.Inner inner => IsName(inner.Sentence) || Knows(inner.Sentence),
                        Part.Headless part => Knows(part.Sentence),
                        Part.Lowered lowered => Knows(lowered.Sentence),
                        Part.Row row => row.Sentences.All(Knows),
                        _ => true,
                    }
                )
            );
    }

    // A name of the workshop's own, as of a process: it is the same in every language. What ends as a sentence does is one.
    private static bool IsName(Sentence inner) => inner.Parts.Count == 0 && inner.Form is not [.., '.' or '!' or '?'];

    /// <summary>What the sentence says.</summary>
    public string Say(Sentence sentence)
    {
        ArgumentNullException.ThrowIfNull(sentence);
        var form = sentence.Form;
        if (form.Length == 0)
        {
            return "";
        }

        var said = string.Format(culture, table?.GetValueOrDefault(form) ?? form, [.. sentence.Parts.Select(Say)]);
        return sentence.Parts.Count == 0 ? InUnit(said) : said;
    }

    /// <summary>A text of the workshop's own file, such as a material's name: worded where it is one of the built-in example's.</summary>
    public string Data(string text) => InUnit(AsWritten(text));

    /// <summary>The same with its lengths as they are written, for a field in which somebody changes it.</summary>
    public string AsWritten(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return table is null ? text
            : table.TryGetValue(text, out var said) ? said
            : TakenOver.Read(text, Example.Contains) is { } taken ? new Wording(Language, inches: false).Say(taken)
            : text;
    }

    /// <summary>"Fri 4 Dec 2026", "Fr., 4. Dez. 2026".</summary>
    public string Day(DateOnly day) =>
        Language == "de" ? day.ToString("ddd, d. MMM yyyy", culture) : day.ToString("ddd d MMM yyyy", culture);

    /// <summary>"1234.50 EUR", "1.234,50 €".</summary>
    public string Price(Part.Price money) => $"{Amount(money)} {Sign(money.Currency)}";

    /// <summary>The amount alone, in its currency's digits.</summary>
    public string Amount(Part.Price money) =>
        money.Amount.ToString((Language == "en" ? "F" : "N") + money.Digits.ToString(culture), culture);

    /// <summary>The currency as it stands beside an amount: its ISO 4217 code, in German the sign of the euro.</summary>
    public string Sign(string currency) => Language == "de" && currency == "EUR" ? "€" : currency;

    /// <summary>A figure in that form of .NET.</summary>
    public string Number(double value, string form = "") => value.ToString(form, culture);

    /// <summary>An exact figure in that form of .NET.</summary>
    public string Number(decimal value, string form = "") => value.ToString(form, culture);

    /// <summary>A length with its unit: "85.5 mm", "3.37 in", below one inch "0.394 in".</summary>
    public string Length(double mm, string form = "0.#") => $"{LengthFigure(mm, form)} {Unit}";

    /// <summary>Width and height with their unit.</summary>
    public string Size(double widthMm, double heightMm, string form = "0.#") =>
        $"{LengthFigure(widthMm, form)} × {LengthFigure(heightMm, form)} {Unit}";

    /// <summary>The figure of a length alone.</summary>
    public string LengthFigure(double mm, string form = "0.#") =>
        Inches
            ? (mm / MmPerInch).ToString(
                form == Exact ? Exact
                    : Math.Abs(mm) < MmPerInch ? "0.###"
                    : "0.##",
                culture
            )
            : mm.ToString(form, culture);

    /// <summary>An area with its unit: "12.5 mm²", "125 cm²"; in inches to three digits, "0.0194 in²".</summary>
    /// <param name="mm2">The area in mm².</param>
    /// <param name="form">Form of the figure before mm² or cm².</param>
    /// <param name="inCm2">Whether it is told in cm² where lengths are in mm.</param>
    public string Area(double mm2, string form = "0.#", bool inCm2 = false) =>
        Inches ? $"{Digits(mm2 / (MmPerInch * MmPerInch))} in²"
        : inCm2 ? $"{(mm2 / 100).ToString(form, culture)} cm²"
        : $"{mm2.ToString(form, culture)} mm²";

    /// <summary>The sign of the unit of length.</summary>
    public string Unit => Inches ? "in" : "mm";

    private string Say(Part part) =>
        part switch
        {
            Part.Text text => text.Value,
            Part.Number number => Number(number.Value, number.Format),
            Part.Exact exact => Number(exact.Value, exact.Format),
            Part.Length { By: { } by } size => Size(size.Mm, by, size.Format),
            Part.Length length => Length(length.Mm, length.Format),
            Part.Area area => Area(area.Mm2, area.Format, area.InCm2),
            Part.Day day => Day(day.Date),
            Part.Price price => Price(price),
            Part.Inner inner => Say(inner.Sentence),
            Part.Headless own => Headless(Say(own.Sentence), own.Head + ": "),
            Part.Lowered lowered => Lowered(Say(lowered.Sentence)),
            Part.Row row => string.Join(row.Between, row.Sentences.Select(Say)),
            _ => throw new ArgumentOutOfRangeException(nameof(part), part, "No such part."),
        };

    // Three digits that count, wherever they stand: the dots that a finding tells of are far below a square inch.
    private string Digits(double figure) =>
        figure.ToString(
            figure == 0
                ? "0"
                : "0." + new string('#', Math.Clamp(2 - (int)Math.Floor(Math.Log10(Math.Abs(figure))), 0, 9)),
            culture
        );

    // A German sentence may begin with a noun, which keeps its capital.
    private string Lowered(string text) =>
        table is null && text.Length > 0 ? char.ToLowerInvariant(text[0]) + text[1..] : text;

    private static string Headless(string text, string head) =>
        text.Length > head.Length && text.StartsWith(head, StringComparison.Ordinal)
            ? char.ToUpperInvariant(text[head.Length]) + text[(head.Length + 1)..]
            : text;

    // A text that was kept as such, or that the workshop's file holds, has its millimetres within.
    private string InUnit(string text) =>
        Inches
            ? Millimetres()
                .Replace(
                    text,
                    found =>
                        Figures()
                            .Replace(
                                found.Groups[1].Value,
                                f => LengthFigure(double.Parse(f.Value, CultureInfo.InvariantCulture))
                            ) + " in"
                )
            : text;

    [GeneratedRegex("""(\d+(?:\.\d+)?(?:(?: × | to | bis |–| by )\d+(?:\.\d+)?)*) mm(?![\w²³])""")]
    private static partial Regex Millimetres();

    [GeneratedRegex("""\d+(?:\.\d+)?""")]
    private static partial Regex Figures();

    // The English words name the pair: both files hold the same keys (a test holds it).
    private static FrozenDictionary<string, string> Read(string language)
    {
        var english = Table.GetResourceSet(CultureInfo.InvariantCulture, createIfNotExists: true, tryParents: false);
        var other = Table.GetResourceSet(
            CultureInfo.GetCultureInfo(language),
            createIfNotExists: true,
            tryParents: false
        );
        return english is null || other is null
            ? FrozenDictionary<string, string>.Empty
            : english
                .Cast<DictionaryEntry>()
                .ToFrozenDictionary(
                    e => (string)e.Value!,
                    e => other.GetString((string)e.Key) ?? (string)e.Value!,
                    StringComparer.Ordinal
                );
    }

    // The texts of the built-in example's file.
    private static FrozenSet<string> Names() =>
        Table
            .GetResourceSet(CultureInfo.InvariantCulture, createIfNotExists: true, tryParents: false)
            ?.Cast<DictionaryEntry>()
            .Where(e => ((string)e.Key).StartsWith("Data", StringComparison.Ordinal))
            .Select(e => (string)e.Value!)
            .ToFrozenSet(StringComparer.Ordinal)
        ?? [];

    // "{0}: {1}" and "(a · {0})" need no translation.
    private static bool HasWords(string form)
    {
        var depth = 0;
        foreach (var c in form)
        {
            depth += c switch
            {
                '{' => 1,
                '}' => -1,
                _ => 0,
            };
            if (depth == 0 && char.IsLetter(c))
            {
                return true;
            }
        }

        return false;
    }
}
