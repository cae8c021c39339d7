using Coldpeel.Files.Artwork.Fonts;
using SkiaSharp;

namespace Coldpeel.Files.Paper;

/// <summary>How a text is set: face, size in points (1/72 inch), colour.</summary>
internal sealed record TextStyle(SKTypeface Face, double Pt, SKColor Colour)
{
    /// <summary>From one baseline to the next, in mm: wide enough that accents never meet the line above.</summary>
    public double LineMm => Pt * 1.28 * Units.MmPerPoint;

    /// <summary>From the top of a line to its baseline, in mm.</summary>
    public double BaselineMm => Pt * 1.0 * Units.MmPerPoint;

    public static TextStyle Body { get; } = new(InterFonts.Regular, 10, Inks.Black);

    public static TextStyle Strong { get; } = new(InterFonts.SemiBold, 10, Inks.Black);

    public static TextStyle Small { get; } = new(InterFonts.Regular, 7.5, Inks.Grey);

    public static TextStyle Label { get; } = new(InterFonts.SemiBold, 8, Inks.Grey);

    public static TextStyle Title { get; } = new(InterFonts.Bold, 20, Inks.Black);

    public TextStyle At(double pt) => this with { Pt = pt };

    /// <summary>The style, made smaller until the text takes no more lines than that; never below 5 points.</summary>
    public TextStyle FitLines(string text, double widthMm, int lines)
    {
        var style = this;
        while (style.Pt > 5 && TextLines.Wrap(text, style, widthMm).Count > lines)
        {
            style = style with { Pt = Math.Max(5, style.Pt * 0.9) };
        }

        return style;
    }

    /// <summary>The style, made smaller until the text stands on one line of that width; never below a third.</summary>
    public TextStyle FitTo(string text, double widthMm)
    {
        var width = TextLines.WidthMm(text, this);
        return width <= widthMm ? this : this with { Pt = Math.Max(Pt / 3, Pt * widthMm / width * 0.99) };
    }
}

/// <summary>The colours of our papers: black on white, two greys, one warm accent that prints as a mid grey.</summary>
internal static class Inks
{
    public static readonly SKColor Black = new(0x11, 0x11, 0x11);
    public static readonly SKColor Grey = new(0x50, 0x50, 0x50);
    public static readonly SKColor Line = new(0x9a, 0x9a, 0x9a);
    public static readonly SKColor Pale = new(0xee, 0xee, 0xee);
    public static readonly SKColor Amber = new(0xe0, 0x8a, 0x12);
    public static readonly SKColor White = SKColors.White;
}

/// <summary>Millimetres to points: PDF counts in 1/72 inch.</summary>
internal static class Units
{
    public const double MmPerPoint = 25.4 / 72;

    public static float Pt(double mm) => (float)(mm / MmPerPoint);
}
