using Coldpeel.Files.Artwork;
using Coldpeel.Files.Sheets;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Artwork;

/// <summary>A printable test target, and limits from its ticks.</summary>
public static class MakeTarget
{
    /// <summary>Writes the target, and the form for its ticks where one is asked for; tells what was done.</summary>
    /// <param name="outPath">Where the print file goes.</param>
    /// <param name="formPath">Where the form goes; null for none.</param>
    /// <param name="workshopFile">The workshop file; null for the example.</param>
    /// <param name="process">The process that is tried; null for the first.</param>
    public static Outcome<string> Print(string outPath, string? formPath, string? workshopFile, string? process)
    {
        var profile = ProfileOf.Read(workshopFile, process, null);
        if (!profile.Ok)
        {
            return profile.Fault;
        }

        var sheet = ProfileOf.SheetFor(profile.Value.Book, TestTargetPdf.WidthMm, TestTargetPdf.HeightMm);
        if (!sheet.Ok)
        {
            return sheet.Fault;
        }

        var (width, height, margin) = (sheet.Value.Width, sheet.Value.Height, sheet.Value.Margin);
        var fault =
            OneFile.Put(outPath, TestTargetPdf.Write(width, height, margin, profile.Value.Process.Name))
            ?? (formPath is null ? null : OneFile.Put(formPath, TargetFile.Form()));
        return fault is not null
            ? fault
            : $"{outPath}: print it on film at 100 %, transfer it as always, then tick what came through whole{(formPath is null ? "" : $" in {formPath}")}.";
    }

    /// <summary>Limits from ticks, as the workshop file writes them.</summary>
    public static Outcome<string> Read(string tickedPath, string? workshopFile, string? process)
    {
        var profile = ProfileOf.Read(workshopFile, process, null);
        if (!profile.Ok)
        {
            return profile.Fault;
        }

        var read = TargetFile.Read(tickedPath, Path.GetFileName(tickedPath), profile.Value.Process.Limits);
        return read.Ok ? ProfileFragment.Of(read.Value) : read.Fault;
    }
}
