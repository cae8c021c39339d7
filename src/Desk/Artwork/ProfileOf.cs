using Coldpeel.Craft.Sheets;
using Coldpeel.Files.Orders;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Desk.Artwork;

/// <summary>The workshop and the process that a command line names, for what is done without a job.</summary>
internal sealed record Profile(WorkshopBook Book, Process Process);

/// <summary>Finds workshop and process by what a command line says.</summary>
internal static class ProfileOf
{
    /// <summary>The process of that name, or the first; the printer's dots an inch may be said beside it.</summary>
    /// <param name="workshopFile">The workshop file; null for the example.</param>
    /// <param name="process">Its name there; null for the first.</param>
    /// <param name="dpi">600 or 1200; null for the printer of the workshop file.</param>
    /// <param name="material">A material whose process holds where none is named; null for none.</param>
    public static Outcome<Profile> Read(string? workshopFile, string? process, int? dpi, string? material = null)
    {
        if (dpi is not (null or 600 or 1200))
        {
            return new Fault(
                "--dpi",
                $"a plane has 600 or 1200 dots an inch here, not {dpi}.",
                "Give 600 or 1200, or leave it out for the printer of the workshop file."
            );
        }

        Outcome<WorkshopBook> read = workshopFile is null
            ? WorkshopBookReader.Example()
            : WorkshopBookReader.Read(workshopFile, Path.GetFileName(workshopFile));
        if (!read.Ok)
        {
            return read.Fault;
        }

        var book = dpi is { } dots ? read.Value with { PrinterDpi = dots } : read.Value;
        var on = book.Materials.FirstOrDefault(m => m.Id == material);
        if (material is not null && on is null)
        {
            return new Fault(
                "--material",
                $"{material} is not known.",
                $"There are: {string.Join(", ", book.Materials.Select(m => m.Id))}."
            );
        }

        var wanted = process ?? on?.Process ?? book.Processes[0].Id;
        return book.Processes.FirstOrDefault(p => p.Id == wanted) is { } found
            ? new Profile(book, found)
            : new Fault(
                "--profile",
                $"{process} is not known.",
                $"There are: {string.Join(", ", book.Processes.Select(p => p.Id))}."
            );
    }

    /// <summary>The first film of the workshop that has room for a page of this size.</summary>
    public static Outcome<SheetStock> SheetFor(WorkshopBook book, double widthMm, double heightMm)
    {
        var sheet = book.Sheets.FirstOrDefault(s =>
            s.Width.InMillimetres - (2 * s.Margin.InMillimetres) >= widthMm
            && s.Height.InMillimetres - (2 * s.Margin.InMillimetres) >= heightMm
        );
        return sheet is not null
            ? sheet
            : new Fault(
                "--workshop",
                $"no film of the workshop has {new Part.Length(widthMm, heightMm, "")} to print on.",
                "Add an A4 sheet, at least."
            );
    }

    /// <summary>The fault of a word that names no tone.</summary>
    public static Fault NoTone(string word) =>
        new(
            "--tone",
            $"\"{word}\" is no tone.",
            $"Say {string.Join(", ", ToneWords.All.SkipLast(1))} or {ToneWords.All[^1]}."
        );
}
