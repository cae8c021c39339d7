using System.Globalization;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Measures;
using Coldpeel.Files.Artwork;
using Coldpeel.Files.Sheets;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Artwork;

/// <summary>A printable step wedge, and the curve of dot gain from its readings.</summary>
public static class MakeWedge
{
    /// <summary>Writes the wedge, and the form for its readings where one is asked for; tells what was done.</summary>
    /// <param name="outPath">Where the print file goes.</param>
    /// <param name="formPath">Where the form goes; null for none.</param>
    /// <param name="tone">screen, spray or grey; null for screen.</param>
    /// <param name="dpi">600 or 1200; null for the workshop's printer.</param>
    /// <param name="workshopFile">The workshop file; null for the example.</param>
    /// <param name="process">The process that is tried; null for the first.</param>
    public static Outcome<string> Print(
        string outPath,
        string? formPath,
        string? tone,
        int? dpi,
        string? workshopFile,
        string? process
    )
    {
        if (ToneWords.Read(tone ?? "screen") is not { } how)
        {
            return ProfileOf.NoTone(tone!);
        }

        if (how == Tone.Solid)
        {
            return new Fault("--tone", "a solid tone has no steps.", "Say screen, spray or grey.");
        }

        var profile = ProfileOf.Read(workshopFile, process, dpi);
        if (!profile.Ok)
        {
            return profile.Fault;
        }

        var (book, found) = profile.Value;
        var sheet = ProfileOf.SheetFor(book, StepWedgePdf.WidthMm, StepWedgePdf.HeightMm);
        if (!sheet.Ok)
        {
            return sheet.Fault;
        }

        var dotsPerMm = book.PrinterDpi / Length.MillimetresPerInch;
        var pdf = StepWedgePdf.Write(
            sheet.Value.Width,
            sheet.Value.Height,
            sheet.Value.Margin,
            how,
            found.Limits,
            dotsPerMm,
            string.Create(
                CultureInfo.InvariantCulture,
                $"{found.Name}; tone {ToneWords.Say(how)}, {book.PrinterDpi} dots an inch"
            )
        );
        var steps = StepWedge.Steps(how, found.Limits, dotsPerMm);
        var fault =
            OneFile.Put(outPath, pdf) ?? (formPath is null ? null : OneFile.Put(formPath, WedgeFile.Form(how, steps)));
        return fault is not null ? fault
            : how == Tone.Screen
                ? $"{outPath}: {steps.Length} steps of {TonedPlane.Say(LineScreen.For(found.Limits, dotsPerMm), dotsPerMm)}."
            : $"{outPath}: {steps.Length} steps.";
    }

    /// <summary>The curve from readings, as the workshop file writes it.</summary>
    public static Outcome<string> Read(string measuredPath)
    {
        var read = WedgeFile.Read(measuredPath, Path.GetFileName(measuredPath));
        return read.Ok ? ProfileFragment.Of(read.Value) : read.Fault;
    }
}
