using System.Globalization;
using Coldpeel.Files.Paper;
using Coldpeel.Workshop.Wash;

namespace Coldpeel.Files.Wash;

/// <summary>Plain drawings of the five groups of ISO 3758, by the facts published about them; drawn only where the workshop holds a licence.</summary>
/// <remarks>
/// Tub with the temperature; triangle; circle in a square with dots; iron with dots; circle with P. A bar below means mild, two very
/// mild; a cross means "do not". Source: GINETEX table of textile care symbols (tumble 60 and 80 °C, iron 110, 150 and 200 °C).
/// </remarks>
internal static class CareSymbols
{
    public const double HeightMm = 14;

    private const double Pen = 0.045;

    private const string Tub =
        "M0.02 0.25 L0.15 0.85 L0.85 0.85 L0.98 0.25 M0.05 0.36 Q0.16 0.26 0.27 0.36 T0.5 0.36 T0.73 0.36 T0.95 0.36";
    private const string Triangle = "M0.5 0.08 L0.96 0.86 L0.04 0.86 Z";
    private const string Strokes = "M0.3 0.86 L0.62 0.28 M0.5 0.86 L0.72 0.46";
    private const string Square = "M0.08 0.08 L0.92 0.08 L0.92 0.92 L0.08 0.92 Z";
    private const string Drum = "M0.5 0.12 A0.38 0.38 0 1 1 0.4999 0.12 Z";
    private const string Iron = "M0.05 0.8 L0.95 0.8 L0.85 0.28 L0.36 0.28 M0.05 0.8 Q0.1 0.5 0.36 0.5 L0.89 0.5";
    private const string Circle = "M0.5 0.1 A0.4 0.4 0 1 1 0.4999 0.1 Z";
    private const string Cross = "M0.04 0.1 L0.96 0.92 M0.96 0.1 L0.04 0.92";

    public static void Draw(Page page, double x, double y, double widthMm, CareLimits limits)
    {
        var step = widthMm / 5;
        var size = Math.Min(HeightMm - 2.4, step - 3);
        Wash(page, x, y, size, limits);
        Mark(page, x + step, y, size, Triangle, limits.Bleach == 0);
        if (limits.Bleach == 1)
        {
            Mark(page, x + step, y, size, Strokes, false);
        }

        var tumble = x + (2 * step);
        Mark(page, tumble, y, size, Square, limits.TumbleC <= 0);
        Mark(page, tumble, y, size, Drum, false);
        Dots(
            page,
            tumble,
            y,
            size,
            0.5,
            limits.TumbleC >= 80 ? 2
                : limits.TumbleC > 0 ? 1
                : 0
        );

        var iron = x + (3 * step);
        Mark(page, iron, y, size, Iron, limits.IronC <= 0);
        Dots(
            page,
            iron,
            y,
            size,
            0.66,
            limits.IronC >= 200 ? 3
                : limits.IronC >= 150 ? 2
                : limits.IronC > 0 ? 1
                : 0
        );

        var clean = x + (4 * step);
        Mark(page, clean, y, size, Circle, !limits.DryClean);
        if (limits.DryClean)
        {
            page.Text(clean + (size / 2), y + (size * 0.65), "P", TextStyle.Title.At(size * 1.2), Align.Centre);
        }
    }

    private static void Wash(Page page, double x, double y, double size, CareLimits limits)
    {
        Mark(page, x, y, size, Tub, limits.WashC <= 0);
        if (limits.WashC <= 0)
        {
            return;
        }

        var c = limits.WashC.ToString(CultureInfo.InvariantCulture);
        page.Text(x + (size / 2), y + (size * 0.74), c, TextStyle.Title.At(size * 0.95), Align.Centre);
        for (var bar = 1; bar <= Math.Clamp(limits.WashGentle, 0, 2); bar++)
        {
            var at = y + (size * (0.87 + (0.11 * bar)));
            page.Rule(x + (size * 0.15), at, x + (size * 0.85), at, size * Pen, Inks.Black);
        }
    }

    private static void Mark(Page page, double x, double y, double size, string data, bool crossed)
    {
        page.Shape(data, x, y, size, null, Inks.Black, size * Pen);
        if (crossed)
        {
            page.Shape(Cross, x, y, size, null, Inks.Black, size * Pen);
        }
    }

    private static void Dots(Page page, double x, double y, double size, double height, int count)
    {
        for (var i = 0; i < count; i++)
        {
            var at = 0.5 + ((i - ((count - 1) / 2.0)) * 0.17);
            page.Shape(
                "M0 -0.055 A0.055 0.055 0 1 1 -0.0001 -0.055 Z",
                x + (at * size),
                y + (height * size),
                size,
                Inks.Black,
                null
            );
        }
    }
}
