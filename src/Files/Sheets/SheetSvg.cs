using System.Globalization;
using System.Text;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Sheets;
using SkiaSharp;

namespace Coldpeel.Files.Sheets;

/// <summary>A drawing of a sheet for the screen (SVG 1.1): sharp at any size, white toner on a dark ground, as the film lies on the table.</summary>
/// <remarks>Every design stands in it once. Artwork of dots is a picture inside, eight dots to the millimetre: enough for a screen.</remarks>
public static class SheetSvg
{
    private const double DotsPerMm = 8;

    /// <summary>The drawing as UTF-8; it holds no text that a font would have to show, no style sheet and no script.</summary>
    /// <param name="sheet">The sheet.</param>
    /// <param name="marks">What prints in its waste: the labels are shown.</param>
    public static byte[] Write(PrintSheet sheet, SheetMarkings marks)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(marks);
        var (width, height) = (sheet.Width.InMillimetres, sheet.Height.InMillimetres);
        var svg = new StringBuilder();
        Add(
            svg,
            $"""<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="{width}mm" height="{height}mm" viewBox="0 0 {width} {height}">"""
        );
        var designs = sheet.Pieces.Select(p => p.Design).Distinct().ToList();
        svg.Append("<defs>\n");
        for (var i = 0; i < designs.Count; i++)
        {
            Define(svg, designs[i], i);
        }

        svg.Append("</defs>\n");
        var border = SheetMarks.PrintableOf(sheet);
        Add(svg, $"""<rect width="{width}" height="{height}" fill="{SheetPicture.GroundColour}"/>""");
        Add(
            svg,
            $"""<rect x="{border.Left}" y="{border.Top}" width="{border.Width}" height="{border.Height}" fill="none" stroke="{SheetPicture.BorderColour}" stroke-width="0.3"/>"""
        );
        svg.Append("<g fill=\"#ffffff\">\n");
        foreach (var piece in sheet.Pieces)
        {
            Add(
                svg,
                $"""<use xlink:href="#d{designs.IndexOf(piece.Design)}" transform="translate({piece.Shift.X:0.###} {piece.Shift.Y:0.###}) rotate({piece.Turn.Degrees:0.######})"/>"""
            );
        }

        svg.Append("</g>\n");
        Lines(svg, sheet, border);
        Add(svg, $"""<g fill="{SheetPicture.AccentColour}">""");
        foreach (var mark in marks.Marks.Where(m => m.Kind == MarkKind.Label))
        {
            svg.Append("<path d=\"");
            Steps(svg, mark.Ink);
            svg.Append("\"/>\n");
        }

        svg.Append("</g>\n</svg>\n");
        return Encoding.UTF8.GetBytes(svg.ToString());
    }

    // Cutting lines: round each piece for scissors, from edge to edge for a straight cutter.
    private static void Lines(StringBuilder svg, PrintSheet sheet, BoxMm border)
    {
        Add(
            svg,
            $"""<g fill="none" stroke="{SheetPicture.AccentColour}" stroke-width="0.25" stroke-dasharray="1.4 1">"""
        );
        foreach (var piece in sheet.Cuts.IsEmpty ? sheet.Pieces : [])
        {
            var ring = string.Join(
                ' ',
                piece.RingOnSheet().Select(p => string.Create(CultureInfo.InvariantCulture, $"{p.X:0.###},{p.Y:0.###}"))
            );
            Add(svg, $"""<polygon points="{ring}"/>""");
        }

        foreach (var cut in sheet.Cuts)
        {
            var box = cut.From.Box;
            Add(
                svg,
                cut.Upright
                    ? (FormattableString)$"""<path d="M{cut.At:0.###} {box.Top:0.###}V{box.Bottom:0.###}"/>"""
                    : $"""<path d="M{box.Left:0.###} {cut.At:0.###}H{box.Right:0.###}"/>"""
            );
        }

        if (sheet.Keep is { } keep && sheet.Cuts.IsEmpty)
        {
            Add(
                svg,
                keep.Top > 0
                    ? (FormattableString)$"""<path d="M{border.Left} {keep.Top:0.###}H{border.Right}"/>"""
                    : $"""<path d="M{keep.Left:0.###} {border.Top}V{border.Bottom}"/>"""
            );
        }

        svg.Append("</g>\n");
    }

    /// <summary>A design under the name d and its number: outlines where it has them, else a picture; outlines take the colour of where they are used.</summary>
    internal static void Define(StringBuilder svg, Design design, int number)
    {
        if (design.Vector is { } vector)
        {
            svg.Append(CultureInfo.InvariantCulture, $"<path id=\"d{number}\" fill-rule=\"evenodd\" d=\"");
            Steps(svg, vector);
            svg.Append("\"/>\n");
            return;
        }

        var plane = design.Plane;
        var (width, height) = (plane.Width / plane.DotsPerMm, plane.Height / plane.DotsPerMm);
        Add(
            svg,
            $"""<image id="d{number}" width="{width}" height="{height}" preserveAspectRatio="none" xlink:href="data:image/png;base64,{Convert.ToBase64String(Picture(plane))}"/>"""
        );
    }

    private static byte[] Picture(WhitePlane plane)
    {
        var scale = Math.Min(1, DotsPerMm / plane.DotsPerMm);
        using var dots = SheetPicture.Dots(plane);
        using var small = new SKBitmap(
            new SKImageInfo(
                Math.Max(1, (int)Math.Round(plane.Width * scale)),
                Math.Max(1, (int)Math.Round(plane.Height * scale)),
                SKColorType.Rgba8888,
                SKAlphaType.Premul
            )
        );
        using (var canvas = new SKCanvas(small))
        {
            using var ink = new SKPaint { Color = SKColors.White };
            using var image = SKImage.FromBitmap(dots);
            var box = SKRect.Create(small.Width, small.Height);
            canvas.Clear(SKColors.Transparent);
            canvas.DrawImage(image, box, new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear), ink);
        }

        using var data = small.Encode(SKEncodedImageFormat.Png, 100);
        return data.ToArray();
    }

    private static void Steps(StringBuilder svg, InkPath path)
    {
        foreach (var s in path.IsEmpty ? [] : path.Steps)
        {
            FormattableString step = s.Move switch
            {
                PathMove.Start => $"M{s.End.X:0.###} {s.End.Y:0.###}",
                PathMove.Line => $"L{s.End.X:0.###} {s.End.Y:0.###}",
                PathMove.Curve =>
                    $"C{s.First.X:0.###} {s.First.Y:0.###} {s.Second.X:0.###} {s.Second.Y:0.###} {s.End.X:0.###} {s.End.Y:0.###}",
                _ => $"Z",
            };
            svg.Append(step.ToString(CultureInfo.InvariantCulture));
        }
    }

    private static void Add(StringBuilder svg, FormattableString line) =>
        svg.Append(line.ToString(CultureInfo.InvariantCulture)).Append('\n');
}
