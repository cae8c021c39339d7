using System.Globalization;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;
using Coldpeel.Workshop.Artwork;

namespace Coldpeel.Files.Sheets;

/// <summary>The step wedge as a print file: a labelled patch for every step, in the tone that is to be measured.</summary>
public static class StepWedgePdf
{
    /// <summary>What the page takes within its printable area, in mm.</summary>
    public const double WidthMm = 192;

    /// <summary>What the page takes within its printable area, in mm.</summary>
    public const double HeightMm = 130;

    /// <summary>Side of a patch in mm: wider than the opening of a hand instrument, and many dots of any screen.</summary>
    internal const double PatchMm = 26;

    private const int Across = 6;
    private const double StepX = 32;
    private const double StepY = 36;

    /// <summary>Writes the file.</summary>
    /// <param name="width">Paper across.</param>
    /// <param name="height">Paper down.</param>
    /// <param name="margin">Border that cannot be printed.</param>
    /// <param name="tone">How the tints are printed.</param>
    /// <param name="limits">What the process carries.</param>
    /// <param name="dotsPerMm">Dots in a millimetre of the printer.</param>
    /// <param name="heading">Process and screen, for people.</param>
    public static byte[] Write(
        Length width,
        Length height,
        Length margin,
        Tone tone,
        ProcessLimits limits,
        double dotsPerMm,
        string heading
    )
    {
        ArgumentNullException.ThrowIfNull(limits);
        var sheet = new ProofSheet("Step wedge", width, height);
        var at = margin.InMillimetres + 1;
        sheet.Words("Step wedge", 4, at, at);
        sheet.Words(heading, 2.2, at + 40, at);
        sheet.Scale(at + 40, at + 4.4);
        sheet.Words(
            "Print at 100 %, transfer, finish, then measure the bare ground and every patch.",
            2.2,
            at,
            at + 11
        );
        foreach (var (percent, box) in Places(margin, StepWedge.Steps(tone, limits, dotsPerMm)))
        {
            Patch(sheet, percent, box, tone, limits, dotsPerMm);
            sheet.Label(
                string.Create(CultureInfo.InvariantCulture, $"{percent} %"),
                2.4,
                (box.Left + box.Right) / 2,
                box.Bottom + 4.4
            );
        }

        return sheet.Save();
    }

    /// <summary>Where every step is, unmirrored.</summary>
    internal static IEnumerable<(int Percent, BoxMm Box)> Places(Length margin, IEnumerable<int> steps)
    {
        var at = margin.InMillimetres + 1;
        return steps.Select(
            (percent, k) =>
            {
                var (x, y) = (at + (k % Across * StepX), at + 19 + (k / Across * StepY));
                return (percent, new BoxMm(x, y, x + PatchMm, y + PatchMm));
            }
        );
    }

    private static void Patch(
        ProofSheet sheet,
        int percent,
        BoxMm box,
        Tone tone,
        ProcessLimits limits,
        double dotsPerMm
    )
    {
        if (percent == 0)
        {
            Corners(sheet, box);
        }
        else if (percent == 100 || tone == Tone.Grey)
        {
            sheet.Grey(box, percent / 100.0);
        }
        else
        {
            sheet.Plane(StepWedge.Patch(percent, PatchMm, tone, limits, dotsPerMm), box.Left, box.Top);
        }
    }

    /// <summary>Four corners show where the bare ground is measured.</summary>
    private static void Corners(ProofSheet sheet, BoxMm box)
    {
        const double arm = 4;
        const double pen = 0.5;
        foreach (
            var (x, y, right, down) in (ReadOnlySpan<(double, double, int, int)>)
                [
                    (box.Left, box.Top, 1, 1),
                    (box.Right, box.Top, -1, 1),
                    (box.Left, box.Bottom, 1, -1),
                    (box.Right, box.Bottom, -1, -1),
                ]
        )
        {
            PointMm At(double dx, double dy) => new(x + (dx * right), y + (dy * down));
            sheet.Ring([At(0, 0), At(arm, 0), At(arm, pen), At(pen, pen), At(pen, arm), At(0, arm)]);
        }
    }
}
