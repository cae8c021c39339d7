using Coldpeel.Desk.Sheets;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;

namespace Coldpeel.Web.Sheets;

/// <summary>How sheets stand, in a shape, a word and a reason; and how many of them of what size.</summary>
internal static class SheetStandWords
{
    private const double Mm2PerSquareMetre = 1e6;

    // 304.8 mm to the foot, exactly (international foot, 1959).
    private const double Mm2PerSquareFoot = 304.8 * 304.8;

    /// <summary>The shape beside the word.</summary>
    public static string Shape(SheetStand stand) =>
        stand switch
        {
            SheetStand.Stopped or SheetStand.NoFile => "stop",
            SheetStand.Stale or SheetStand.NotApproved => "look",
            SheetStand.Printed or SheetStand.Bonded => "part",
            SheetStand.Pressed => "done",
            _ => "note",
        };

    /// <summary>How they stand.</summary>
    public static string Word(QueuedSheets sheets) =>
        sheets.Stand switch
        {
            SheetStand.ToPrint => SheetWords.StandToPrint,
            SheetStand.None => SheetWords.StandNone,
            SheetStand.NoFile => SheetWords.StandNoFile,
            SheetStand.Stopped => SheetWords.StandStopped,
            SheetStand.Stale => SheetWords.StandStale,
            SheetStand.NotApproved => SheetWords.StandNotApproved,
            SheetStand.Printed => SheetWords.StandPrinted,
            SheetStand.Bonded => Say.With(SheetWords.StandBonded, sheets.Bonded, sheets.Order.Figures?.Sheets ?? 0),
            _ => SheetWords.StandPressed,
        };

    /// <summary>Why they stand so, or what comes next; null where the word says all.</summary>
    public static string? Why(SheetStand stand) =>
        stand switch
        {
            SheetStand.None => SheetWords.AllOnShelf,
            SheetStand.NoFile => SheetWords.BringAgain,
            SheetStand.Stopped => SheetWords.MendFirst,
            SheetStand.Stale => OrderWords.ChangedSays,
            SheetStand.NotApproved => SheetWords.NotApprovedYet,
            SheetStand.Printed => SheetWords.WaitsForBench,
            SheetStand.Pressed => SheetWords.PressedOn,
            _ => null,
        };

    /// <summary>"2 × A4", "1 × started sheet, 210 × 120 mm".</summary>
    public static string Size(SheetsOfSize size)
    {
        // A paper without a name of its own is named by its millimetres.
        var sides = Say.Lengths(size.WidthMm, size.HeightMm);
        return size.Started
            ? Say.With(SheetWords.OfStarted, size.Count, sides)
            : Say.With(
                SheetWords.Of,
                size.Count,
                size.Paper.Contains('×', StringComparison.Ordinal) ? sides : $"{size.Paper} ({sides})"
            );
    }

    /// <summary>"0.19 m² of film", "2.01 ft² of film".</summary>
    public static string Film(IEnumerable<SheetsOfSize> sizes)
    {
        var mm2 = sizes.Sum(s => s.AreaMm2);
        var (form, area) = Reader.Inches
            ? (SheetWords.FilmSquareFeet, mm2 / Mm2PerSquareFoot)
            : (SheetWords.FilmSquareMetres, mm2 / Mm2PerSquareMetre);
        return Say.With(SheetWords.Film, Say.With(form, area));
    }
}
