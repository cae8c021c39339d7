using System.Globalization;
using System.Text.RegularExpressions;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Artwork.Pdf;

/// <summary>What pdfinfo tells of a page.</summary>
/// <param name="Pages">Pages in the file.</param>
/// <param name="WidthMm">Width of the page as it is shown: its crop box, turned as the file asks.</param>
/// <param name="HeightMm">Height of the page.</param>
/// <param name="Trimmed">Whether the page says that it is cut smaller than it is shown (TrimBox).</param>
internal sealed partial record PdfInfo(int Pages, double WidthMm, double HeightMm, bool Trimmed)
{
    private const double MmPerPoint = 25.4 / 72;

    /// <summary>Largest side that is read, in mm.</summary>
    private const double MostMm = 20_000;

    /// <summary>Asks pdfinfo about a page, the first when none is named.</summary>
    public static Outcome<PdfInfo> Of(Poppler poppler, string file, string shownName, int? page, Deadline until)
    {
        var asked = (page is > 0 ? page.Value : 1).ToString(CultureInfo.InvariantCulture);
        var run = BoundedRun.Of(poppler.Info, ["-box", "-f", asked, "-l", asked, file], until);
        if (run.Complaint.Contains("Incorrect password", StringComparison.Ordinal))
        {
            return new Fault(
                shownName,
                "The PDF is locked with a password.",
                "Ask for it without a password, or as SVG or PNG."
            );
        }

        if (run.Complaint.Contains("Wrong page range", StringComparison.Ordinal))
        {
            var count = Number(PageCount().Match(BoundedRun.Of(poppler.Info, [file], until).Said));
            return Artwork.Pages.Fault(shownName, page, (int)(count ?? 0))
                ?? new Fault(shownName, "The PDF has no pages.", "Ask for it again.");
        }

        if (Broken(run, shownName) is { } fault)
        {
            return fault;
        }

        var pages = Number(PageCount().Match(run.Said));
        if (pages is not >= 1)
        {
            return new Fault(shownName, "The PDF has no pages.", "Ask for it again.");
        }

        if (Artwork.Pages.Fault(shownName, page, (int)pages) is { } noPage)
        {
            return noPage;
        }

        var size = Size().Match(run.Said);
        var (width, height) = (Number(size, 1) * MmPerPoint, Number(size, 2) * MmPerPoint);
        if (!(width is > 0.01 and < MostMm && height is > 0.01 and < MostMm && width / height is < 1000 and > 0.001))
        {
            return new Fault(
                shownName,
                $"The PDF's page has no usable size ({width ?? 0:G4} × {height ?? 0:G4} mm).",
                "Set the page size in the program it comes from and save it again."
            );
        }

        var turned = Number(Turn().Match(run.Said)) is 90 or 270;
        var (crop, trim) = (
            Box("CropBox").Match(run.Said).Groups[1].Value,
            Box("TrimBox").Match(run.Said).Groups[1].Value
        );
        return new PdfInfo(
            (int)pages,
            turned ? height.Value : width.Value,
            turned ? width.Value : height.Value,
            trim.Length > 0 && trim != crop
        );
    }

    /// <summary>The fault of a run that did not end well.</summary>
    public static Fault? Broken(BoundedRun run, string shownName) =>
        run.End switch
        {
            RunEnd.Well => null,
            RunEnd.TooLong => new(
                shownName,
                "The PDF takes too long to read (2.5 s of the processor for the page): it is too intricate.",
                "Ask for a simpler drawing, or for a PNG at 600 pixels an inch."
            ),
            RunEnd.TooMuch => new(
                shownName,
                "The PDF unpacks to more than this program takes in.",
                "Ask for a simpler drawing, or for a PNG at 600 pixels an inch."
            ),
            _ => new(
                shownName,
                $"The PDF is broken{Reason(run.Complaint)}.",
                "Save it again from the program it comes from, or ask for it again."
            ),
        };

    private static string Reason(string complaint)
    {
        var first = complaint.Split('\n', StringSplitOptions.RemoveEmptyEntries).FirstOrDefault();
        return first is null ? "" : $" ({SvgDocumentCheck.Short(first)})";
    }

    private static double? Number(Match match, int group = 1) =>
        match.Success
        && double.TryParse(match.Groups[group].Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var value)
        && double.IsFinite(value)
            ? value
            : null;

    private static Regex Box(string name) =>
        new($@"^Page\s+\d+\s+{name}:\s*(.*?)\s*$", RegexOptions.Multiline, TimeSpan.FromSeconds(1));

    [GeneratedRegex(@"^Pages:\s+(\d+)", RegexOptions.Multiline)]
    private static partial Regex PageCount();

    [GeneratedRegex(@"^Page\s+\d+\s+size:\s+([-0-9.e+]+) x ([-0-9.e+]+) pts", RegexOptions.Multiline)]
    private static partial Regex Size();

    [GeneratedRegex(@"^Page\s+\d+\s+rot:\s+(-?\d+)", RegexOptions.Multiline)]
    private static partial Regex Turn();
}
