using Coldpeel.Workshop.Sheets;

namespace Coldpeel.Files.Sheets;

/// <summary>The print file: one page a sheet at true size, mirrored once, one ink.</summary>
public static class SheetsPdf
{
    /// <summary>Writes the file.</summary>
    /// <param name="sheets">The sheets, unmirrored, in the order they are printed.</param>
    /// <param name="jobName">What the sheets are for; stands in the waste of every page.</param>
    /// <param name="marks">The marks of each sheet, where they are placed already; null to place them here.</param>
    /// <remarks>Which marks found no room is told by <see cref="SheetMarks.Place"/>: the same sheet gives the same marks.</remarks>
    public static byte[] Write(
        IReadOnlyList<PrintSheet> sheets,
        string jobName,
        IReadOnlyList<SheetMarkings>? marks = null
    )
    {
        ArgumentNullException.ThrowIfNull(sheets);
        ArgumentNullException.ThrowIfNull(jobName);
        var pdf = new OneInkPdf(jobName);
        var designs = new DesignForms(pdf, solidGrey: 0);
        foreach (var (sheet, markings) in sheets.Zip(marks ?? SheetMarks.PlaceAll(sheets, jobName)))
        {
            const double k = OneInkPdf.PointsPerMm;
            var (width, height) = (sheet.Width.InMillimetres, sheet.Height.InMillimetres);
            // The one and only mirroring: our y runs down and PDF's up, so turning both signs is a mirror about the upright axis.
            var lines = new InkLines().Keep().Matrix(-k, 0, 0, -k, width * k, height * k);
            var uses = designs.Draw(sheet, lines);
            foreach (var mark in markings.Marks)
            {
                lines.Path(mark.Ink).FillNonZero();
            }

            pdf.AddPage(width, height, lines.Back(), uses);
        }

        return pdf.Save();
    }
}
