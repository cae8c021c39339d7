using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;
using Coldpeel.Files.Artwork;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Sheets;
using SkiaSharp;

namespace Coldpeel.Files.Sheets;

/// <summary>A picture of a sheet for the screen: white toner on a dark ground.</summary>
public static class SheetPicture
{
    internal const string GroundColour = "#14181d";
    internal const string BorderColour = "#2a313a";
    internal const string AccentColour = "#ffb454";
    private static readonly SKColor Ground = SKColor.Parse(GroundColour);
    private static readonly SKColor Border = SKColor.Parse(BorderColour);
    private static readonly SKColor Toner = SKColors.White;
    private static readonly SKColor Accent = SKColor.Parse(AccentColour);

    /// <summary>The picture as a PNG file.</summary>
    /// <param name="sheet">The sheet.</param>
    /// <param name="marks">What prints in its waste: the labels are shown.</param>
    /// <param name="dotsPerMm">Picture dots in a millimetre, above zero.</param>
    /// <param name="mirrored">As the print file has it; otherwise as the trimmed film lies on the table.</param>
    public static byte[] Encode(PrintSheet sheet, SheetMarkings marks, double dotsPerMm, bool mirrored)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(marks);
        Need.Positive(dotsPerMm);
        var (width, height) = (sheet.Width.InMillimetres, sheet.Height.InMillimetres);
        var size = new SKImageInfo(
            Math.Max(1, (int)Math.Round(width * dotsPerMm)),
            Math.Max(1, (int)Math.Round(height * dotsPerMm)),
            SKColorType.Rgba8888,
            SKAlphaType.Opaque
        );
        using var surface = SKSurface.Create(size);
        var canvas = surface.Canvas;
        canvas.Clear(Ground);
        if (mirrored)
        {
            canvas.Scale(-1, 1, size.Width / 2f, 0);
        }

        canvas.Scale((float)dotsPerMm);
        var margin = (float)sheet.Margin.InMillimetres;
        using var ink = new SKPaint { IsAntialias = true, Color = Toner };
        using var line = new SKPaint { IsAntialias = true, IsStroke = true };
        (line.Color, line.StrokeWidth) = (Border, 0.3f);
        canvas.DrawRect(margin, margin, (float)width - (2 * margin), (float)height - (2 * margin), line);
        foreach (var piece in sheet.Pieces)
        {
            canvas.Save();
            canvas.Translate((float)piece.Shift.X, (float)piece.Shift.Y);
            canvas.RotateDegrees((float)piece.Turn.Degrees);
            Draw(canvas, piece.Design, ink);
            canvas.Restore();
        }

        using var dashes = SKPathEffect.CreateDash([1.4f, 1f], 0);
        (line.Color, line.StrokeWidth, line.PathEffect) = (Accent, 0.25f, dashes);
        using var accent = new SKPaint { IsAntialias = true, Color = Accent };
        foreach (var piece in sheet.Pieces)
        {
            using var ring = PathOf([piece.RingOnSheet()]);
            canvas.DrawPath(ring, line);
        }

        foreach (var mark in marks.Marks.Where(m => m.Kind == MarkKind.Label))
        {
            using var path = InkPaths.ToSkia(mark.Ink, 1, SKPathFillType.Winding);
            canvas.DrawPath(path, accent);
        }

        using var image = surface.Snapshot();
        using var data = image.Encode(SKEncodedImageFormat.Png, 100);
        return data.ToArray();
    }

    private static void Draw(SKCanvas canvas, Design design, SKPaint ink)
    {
        if (design.Vector is { } vector)
        {
            using var path = InkPaths.ToSkia(vector, 1);
            canvas.DrawPath(path, ink);
            return;
        }

        var plane = design.Plane;
        using var dots = Dots(plane);
        using var image = SKImage.FromBitmap(dots);
        var box = SKRect.Create((float)(plane.Width / plane.DotsPerMm), (float)(plane.Height / plane.DotsPerMm));
        canvas.DrawImage(image, box, new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear), ink);
    }

    /// <summary>The dots of a plane: how much toner is how opaque.</summary>
    internal static SKBitmap Dots(WhitePlane plane)
    {
        var dots = new SKBitmap(new SKImageInfo(plane.Width, plane.Height, SKColorType.Alpha8, SKAlphaType.Premul));
        for (var y = 0; y < plane.Height; y++)
        {
            plane.Coverage.AsSpan(y * plane.Width, plane.Width).CopyTo(dots.GetPixelSpan()[(y * dots.RowBytes)..]);
        }

        return dots;
    }

    private static SKPath PathOf(IEnumerable<PointMm[]> rings)
    {
        using var path = new SKPathBuilder();
        foreach (var ring in rings)
        {
            path.AddPoly([.. ring.Select(Dot)], true);
        }

        return path.Detach();
    }

    private static SKPoint Dot(PointMm p) => new((float)p.X, (float)p.Y);
}
