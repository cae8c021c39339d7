using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Sheets;

namespace Coldpeel.Files.Sheets;

/// <summary>Every design once in the file, to be drawn at every place where a copy lies.</summary>
/// <param name="pdf">The file.</param>
/// <param name="solidGrey">The grey that full toner is shown in: 0 on the film, a light grey on the trim map.</param>
internal sealed class DesignForms(OneInkPdf pdf, double solidGrey)
{
    private static readonly Dictionary<string, int> Nothing = [];

    private readonly Dictionary<Design, int> _forms = [];

    /// <summary>Draws the pieces of a sheet, each at its place, and tells by what names.</summary>
    public IReadOnlyDictionary<string, int> Draw(PrintSheet sheet, InkLines lines)
    {
        var uses = new Dictionary<string, int>(StringComparer.Ordinal);
        lines.Fill(solidGrey);
        foreach (var piece in sheet.Pieces)
        {
            var form = Form(piece.Design);
            var name = $"D{form}";
            uses[name] = form;
            lines.Keep().Place(piece.Turn, piece.Shift).Draw(name).Back();
        }

        return uses;
    }

    private int Form(Design design)
    {
        if (!_forms.TryGetValue(design, out var form))
        {
            form = design.Vector is { } path ? OfPath(path) : OfPlane(design);
            _forms.Add(design, form);
        }

        return form;
    }

    private int OfPath(InkPath path)
    {
        var box = path.IsEmpty
            ? new BoxMm(0, 0, 1, 1)
            : BoxMm.Around(
                path.Steps.Where(s => s.Move != PathMove.Close)
                    .SelectMany(s => s.Move == PathMove.Curve ? (PointMm[])[s.First, s.Second, s.End] : [s.End])
            );
        return pdf.AddForm(box.Grow(0.1), new InkLines().Path(path).FillEvenOdd(), Nothing);
    }

    private int OfPlane(Design design)
    {
        var plane = design.Plane;
        var (width, height) = (plane.Width / plane.DotsPerMm, plane.Height / plane.DotsPerMm);
        var solid = !plane.Coverage.AsSpan().ContainsAnyExcept((byte)0, (byte)255);
        var picture = solid
            ? pdf.AddStencil(plane.Width, plane.Height, Bits(plane))
            : pdf.AddGrey(plane.Width, plane.Height, [.. plane.Coverage.Select(c => (byte)(255 - c))], solidGrey);
        var lines = new InkLines();
        if (!solid)
        {
            // A grey picture paints its empty dots too, in no ink: they must not wipe a neighbour that lies within its box.
            lines.Ring(design.Outline.Outer);
            foreach (var hole in design.Outline.Holes)
            {
                lines.Ring(hole);
            }

            lines.ClipEvenOdd();
        }

        lines.Matrix(width, 0, 0, -height, 0, height).Draw("P");
        return pdf.AddForm(
            new BoxMm(0, 0, width, height).Grow(0.1),
            lines,
            new Dictionary<string, int> { ["P"] = picture }
        );
    }

    /// <summary>One bit a dot, the highest first, every row filled up to a whole byte.</summary>
    internal static byte[] Bits(WhitePlane plane)
    {
        var stride = (plane.Width + 7) / 8;
        var rows = new byte[(long)stride * plane.Height];
        for (var y = 0; y < plane.Height; y++)
        {
            var row = plane.Coverage.AsSpan(y * plane.Width, plane.Width);
            var bits = rows.AsSpan(y * stride, stride);
            for (var x = 0; x < row.Length; x++)
            {
                bits[x >> 3] |= (byte)((row[x] >> 7) << (7 - (x & 7)));
            }
        }

        return rows;
    }
}
