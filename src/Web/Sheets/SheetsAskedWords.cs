using Coldpeel.Desk.Sheets;
using Coldpeel.Web.Words;

namespace Coldpeel.Web.Sheets;

/// <summary>Which sheets are shown, in an address and in words.</summary>
internal static class SheetsAskedWords
{
    /// <summary>All of them, in the order in which a sheet comes through them.</summary>
    public static readonly SheetsAsked[] All = [SheetsAsked.ToPrint, SheetsAsked.NotReady, SheetsAsked.Printed];

    /// <summary>As an address has it.</summary>
    public static string Key(SheetsAsked asked) =>
        asked switch
        {
            SheetsAsked.NotReady => "not-ready",
            SheetsAsked.Printed => "printed",
            _ => "",
        };

    /// <summary>What an address asks for; what waits for the printer where it says nothing that is known.</summary>
    public static SheetsAsked Read(string? key) => All.FirstOrDefault(a => Key(a) == key);

    /// <summary>What is shown, in a word or two.</summary>
    public static string Word(SheetsAsked asked) =>
        asked switch
        {
            SheetsAsked.NotReady => SheetWords.NotReady,
            SheetsAsked.Printed => SheetWords.Printed,
            _ => OrderWords.ToPrint,
        };

    /// <summary>What that is, and what to do with it.</summary>
    public static string Lead(SheetsAsked asked) =>
        asked switch
        {
            SheetsAsked.NotReady => SheetWords.LeadNotReady,
            SheetsAsked.Printed => SheetWords.LeadPrinted,
            _ => SheetWords.LeadToPrint,
        };

    /// <summary>What is said where there are none.</summary>
    public static string None(SheetsAsked asked) =>
        asked switch
        {
            SheetsAsked.NotReady => SheetWords.NoneNotReady,
            SheetsAsked.Printed => SheetWords.NonePrinted,
            _ => SheetWords.NoneToPrint,
        };
}
