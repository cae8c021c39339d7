using System.Collections.Immutable;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Quotes;

namespace Coldpeel.Desk.Rooms;

/// <summary>In which unit people read lengths; files and forms keep millimetres.</summary>
public enum LengthUnit
{
    /// <summary>Millimetres.</summary>
    Millimetre,

    /// <summary>Inches of 25.4 mm (international yard and pound agreement, 1959).</summary>
    Inch,
}

/// <summary>A press as the owner names it.</summary>
/// <param name="Id">Its name on plans.</param>
/// <param name="WidthMm">Plate across.</param>
/// <param name="HeightMm">Plate down.</param>
public sealed record PressAnswer(string Id, int WidthMm, int HeightMm);

/// <summary>A sheet that the printer takes.</summary>
/// <param name="WidthMm">Across.</param>
/// <param name="HeightMm">Down.</param>
/// <param name="MarginMm">Border that cannot be printed.</param>
public sealed record SheetAnswer(double WidthMm, double HeightMm, double MarginMm);

/// <summary>What the owner answers to the five questions of the first start.</summary>
/// <param name="Presses">Presses.</param>
/// <param name="PrinterDpi">Dots an inch of the printer.</param>
/// <param name="Sheets">Sheets it takes.</param>
/// <param name="Currency">ISO 4217 code of the prices.</param>
/// <param name="TaxPercent">Tax on the net sum.</param>
/// <param name="Unit">Unit in which lengths are shown.</param>
/// <param name="Language">"en" or "de"; null: as each browser asks.</param>
public sealed record WorkshopAnswers(
    ImmutableArray<PressAnswer> Presses,
    int PrinterDpi,
    ImmutableArray<SheetAnswer> Sheets,
    string Currency,
    decimal TaxPercent,
    LengthUnit Unit,
    string? Language
)
{
    /// <summary>Most presses, and most kinds of sheets.</summary>
    public const int Most = 20;

    // The limits of a workshop file: docs/schemas/workshop.schema.json.
    private const int LongestName = 60;

    /// <summary>The first thing that cannot be so; null when all can.</summary>
    public Fault? Wrong() => WrongPress() ?? WrongSheet() ?? WrongPrice() ?? WrongLanguage();

    private Fault? WrongPress()
    {
        if (Presses.Length is 0 or > Most)
        {
            return new("The presses", $"are {Presses.Length}.", $"Name 1 to {Most} presses.");
        }

        foreach (var press in Presses)
        {
            if (!IsName(press.Id))
            {
                return new(
                    "A press",
                    $"has the name “{press.Id}”.",
                    "Write a short name of letters A to Z, digits, blanks, dots and dashes."
                );
            }

            if (press.WidthMm is < 20 or > 2000 || press.HeightMm is < 20 or > 2000)
            {
                return new($"The press {press.Id}", "has no such plate.", "Write whole millimetres, 20 to 2000.");
            }
        }

        var twice = Presses.GroupBy(p => p.Id, StringComparer.OrdinalIgnoreCase).FirstOrDefault(g => g.Count() > 1);
        return twice is null ? null : new($"The press {twice.Key}", "stands twice.", "Give each a name of its own.");
    }

    private Fault? WrongSheet()
    {
        if (PrinterDpi is < 100 or > 4800)
        {
            return new("The printer", "has no such resolution.", "Write its dots an inch, 100 to 4800.");
        }

        if (Sheets.Length is 0 or > Most)
        {
            return new("The sheets", $"are {Sheets.Length}.", $"Name 1 to {Most} kinds of sheets.");
        }

        var odd = Sheets.FirstOrDefault(s =>
            s.WidthMm is not (> 0 and <= 2000)
            || s.HeightMm is not (> 0 and <= 2000)
            || s.MarginMm is not (>= 0 and <= 100)
            || Math.Min(s.WidthMm, s.HeightMm) <= 2 * s.MarginMm
        );
        return odd is null
            ? null
            : new(
                "The sheet",
                "leaves nothing to print on.",
                "Write width and height in millimetres, at most 2000, and a margin of at most 100 that leaves room between."
            );
    }

    private Fault? WrongPrice() =>
        Currencies.MinorUnits(Currency) is null
            ? new("The currency", $"“{Currency}” is none we know.", "Write its ISO 4217 code, like EUR.")
        : TaxPercent is < 0 or > 100 ? new("The tax", "cannot be so.", "Write percent, 0 to 100.")
        : null;

    private Fault? WrongLanguage() =>
        Language is null || KeepSettings.Languages.Contains(Language)
            ? null
            : new("The language", $"“{Language}” is not there.", "Choose one of the list.");

    private static bool IsName(string name) =>
        name.Length is > 0 and <= LongestName
        && char.IsAsciiLetterOrDigit(name[0])
        && name.All(c => char.IsAsciiLetterOrDigit(c) || c is '.' or '_' or ' ' or '-');
}
