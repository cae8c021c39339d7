using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Coldpeel.Craft.Sheets;
using Coldpeel.Desk.Shelf;
using Coldpeel.Files.Orders;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Desk.Rooms;

/// <summary>Keeps the answers to the five questions; where one is not answered the workshop file holds.</summary>
public sealed class KeepAnswers(OpenedWorkshop workshop)
{
    private static readonly CultureInfo Plain = CultureInfo.InvariantCulture;

    /// <summary>Whether the questions were neither answered nor put off.</summary>
    public bool IsOpen => Setting("questions") is null;

    /// <summary>The unit in which lengths are shown.</summary>
    public LengthUnit Unit => Setting("unit") == "inch" ? LengthUnit.Inch : LengthUnit.Millimetre;

    /// <summary>How papers and messages of the workshop are worded.</summary>
    public Wording Words => WordsIn(null);

    /// <summary>The same in a language of its own, as an order's customer reads it; null for the workshop's.</summary>
    public Wording WordsIn(string? language) => Wording.For(language ?? Setting("language"), Unit == LengthUnit.Inch);

    /// <summary>What holds now.</summary>
    public WorkshopAnswers Now()
    {
        var book = Book();
        return new(
            [.. book.Presses.Select(Answer)],
            book.PrinterDpi,
            [.. book.Sheets.Select(Answer)],
            book.Prices.Currency,
            book.Prices.TaxPercent,
            Unit,
            Setting("language") is { Length: > 0 } language ? language : null
        );
    }

    /// <summary>The name that papers are headed with while nobody has written the workshop's own; null once somebody has.</summary>
    public string? InventedName => Book().Name is var name && name == WorkshopBookReader.Example().Name ? name : null;

    /// <summary>Stands for what holds now: another one when somebody has changed it.</summary>
    public string Stand() =>
        Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(KeptJson.Write(Now()))))[..16];

    /// <summary>What was answered before the workshop file was the owner's own; null while nothing was.</summary>
    internal WorkshopAnswers? Given()
    {
        string[] keys = ["presses", "printer-dpi", "sheets", "currency", "tax-percent"];
        if (keys.All(k => Setting(k) is null))
        {
            return null;
        }

        var example = WorkshopBookReader.Example();
        return new(
            Presses(Setting("presses")) ?? [.. example.Presses.Select(Answer)],
            int.TryParse(Setting("printer-dpi"), Plain, out var dpi) ? dpi : example.PrinterDpi,
            Sheets(Setting("sheets")) ?? [.. example.Sheets.Select(Answer)],
            Setting("currency") ?? example.Prices.Currency,
            decimal.TryParse(Setting("tax-percent"), Plain, out var tax) ? tax : example.Prices.TaxPercent,
            LengthUnit.Millimetre,
            null
        );
    }

    /// <summary>Keeps what was changed; the history tells what it was before. The fault says what cannot be so.</summary>
    public Fault? Run(WorkshopAnswers wished, string who)
    {
        ArgumentNullException.ThrowIfNull(wished);
        if (wished.Wrong() is { } wrong)
        {
            return wrong;
        }

        var now = Now();
        if (new OwnBook(workshop).Kept is not null)
        {
            // Since the owner has a workshop file, there is one place for what it says.
            if (new EditBook(workshop).Answer(wished, who) is { } refused)
            {
                return refused;
            }
        }
        else
        {
            Set("presses", Text(now.Presses), Text(wished.Presses));
            Set("printer-dpi", now.PrinterDpi.ToString(Plain), wished.PrinterDpi.ToString(Plain));
            Set("sheets", Text(now.Sheets), Text(wished.Sheets));
            Set("currency", now.Currency, wished.Currency);
            Set("tax-percent", now.TaxPercent.ToString(Plain), wished.TaxPercent.ToString(Plain));
        }

        Set("unit", Word(now.Unit), Word(wished.Unit));
        Set("language", now.Language, wished.Language ?? "");
        Set("questions", Setting("questions"), "answered");
        return null;

        void Set(string key, string? before, string after)
        {
            if ((before ?? "") != after)
            {
                workshop.Store.Rooms.Set(key, after, workshop.Now, who);
            }
        }
    }

    /// <summary>Puts the questions off: what is built in holds, and they stand at the workshop place.</summary>
    public void PutOff(string who)
    {
        if (IsOpen)
        {
            workshop.Store.Rooms.Set("questions", "later", workshop.Now, who);
        }
    }

    /// <summary>The workshop that holds where a job names none.</summary>
    public WorkshopBook Book() => new OwnBook(workshop).Read();

    private static PressAnswer Answer(HeatPress press) => new(press.Id, press.PlateWidthMm, press.PlateHeightMm);

    private static SheetAnswer Answer(SheetStock sheet) =>
        new(sheet.Width.InMillimetres, sheet.Height.InMillimetres, sheet.Margin.InMillimetres);

    // As the history shows it: "large 400x500; small 150x150" and "210x297 margin 5; 297x420 margin 5".
    private static string Text(IEnumerable<PressAnswer> presses) =>
        string.Join("; ", presses.Select(p => string.Create(Plain, $"{p.Id} {p.WidthMm}x{p.HeightMm}")));

    private static string Text(IEnumerable<SheetAnswer> sheets) =>
        string.Join("; ", sheets.Select(s => string.Create(Plain, $"{s.WidthMm}x{s.HeightMm} margin {s.MarginMm}")));

    private static ImmutableArray<PressAnswer>? Presses(string? text) =>
        text is null
            ? null
            :
            [
                .. text.Split("; ")
                    .Select(one =>
                    {
                        var cut = one.LastIndexOf(' ');
                        var (width, height) = Sides(one[(cut + 1)..]);
                        return new PressAnswer(one[..cut], (int)width, (int)height);
                    }),
            ];

    private static ImmutableArray<SheetAnswer>? Sheets(string? text) =>
        text is null
            ? null
            :
            [
                .. text.Split("; ")
                    .Select(one =>
                    {
                        var parts = one.Split(" margin ");
                        var (width, height) = Sides(parts[0]);
                        return new SheetAnswer(width, height, double.Parse(parts[1], Plain));
                    }),
            ];

    private static (double Width, double Height) Sides(string text)
    {
        var sides = text.Split('x');
        return (double.Parse(sides[0], Plain), double.Parse(sides[1], Plain));
    }

    private static string Word(LengthUnit unit) => unit == LengthUnit.Inch ? "inch" : "mm";

    private string? Setting(string key) => workshop.Store.Rooms.Setting(key);
}
