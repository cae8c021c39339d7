using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Artwork;

/// <summary>Sizes that need no drawing to be refused: a plane is only made of what some sheet could hold.</summary>
internal static class SizeJudge
{
    /// <summary>The finding when a design is longer than the diagonal of every sheet's printable area; no turn helps then.</summary>
    public static Finding? TooLarge(string design, double widthMm, double heightMm, WorkshopBook book)
    {
        var largest = book.Sheets.MaxBy(s =>
            Diagonal(s.Width.InMillimetres, s.Height.InMillimetres, s.Margin.InMillimetres)
        )!;
        var (w, h) = (
            largest.Width.InMillimetres - (2 * largest.Margin.InMillimetres),
            largest.Height.InMillimetres - (2 * largest.Margin.InMillimetres)
        );
        return Math.Max(widthMm, heightMm) <= Math.Sqrt((w * w) + (h * h))
            ? null
            : new Finding(
                "larger-than-sheet",
                Severity.Stop,
                $"Design {design} is {new Part.Length(widthMm, heightMm, "0.#")}, and the largest sheet prints {new Part.Length(w, h, "0.#")}: make it smaller, or divide it."
            )
            {
                Design = design,
                WorstMm = Math.Max(widthMm, heightMm),
                LimitMm = Math.Max(w, h),
            };
    }

    private static double Diagonal(double width, double height, double margin) =>
        Math.Sqrt(Math.Pow(width - (2 * margin), 2) + Math.Pow(height - (2 * margin), 2));
}
