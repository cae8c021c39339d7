using System.Globalization;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;

namespace Coldpeel.Files.Sheets;

/// <summary>One page of film for trials, drawn unmirrored in mm and mirrored once, like every sheet: words, shapes and patches in one ink.</summary>
internal sealed class ProofSheet
{
    private readonly OneInkPdf _pdf;
    private readonly InkLines _lines = new();
    private readonly Dictionary<string, int> _uses = new(StringComparer.Ordinal);
    private readonly double _widthMm;
    private readonly double _heightMm;

    public ProofSheet(string title, Length width, Length height)
    {
        const double k = OneInkPdf.PointsPerMm;
        (_widthMm, _heightMm, _pdf) = (width.InMillimetres, height.InMillimetres, new(title));
        _lines.Keep().Matrix(-k, 0, 0, -k, _widthMm * k, _heightMm * k).Fill(0);
    }

    /// <summary>A line of words with the top left of its ink at a point; tells its box.</summary>
    public BoxMm Words(string words, double capMm, double x, double y)
    {
        var shape = MarkShapes.Words(words, capMm);
        var box = new BoxMm(x, y, x + shape.Width, y + shape.Height);
        _lines.Path(shape.At(box)).FillNonZero();
        return box;
    }

    /// <summary>A line of words by the middle of its baseline, so that a row of labels stands level.</summary>
    public void Label(string words, double capMm, double middle, double baseline)
    {
        var text = OutlineText.Of(words, capMm);
        var x = middle - ((text.Box.Left + text.Box.Right) / 2);
        _lines.Path(text.Ink.Map(p => new(p.X + x, p.Y + baseline))).FillNonZero();
    }

    /// <summary>A shape of straight sides.</summary>
    public void Ring(IEnumerable<PointMm> ring) => _lines.Ring(ring).FillNonZero();

    /// <summary>The bar of 100 mm that shows whether the printer kept the size, with its top left at a point.</summary>
    public void Scale(double x, double y)
    {
        var shape = MarkShapes.Scale();
        _lines.Path(shape.At(new(x, y, x + shape.Width, y + shape.Height))).FillNonZero();
    }

    /// <summary>An even grey, left to the printer's own screen.</summary>
    public void Grey(BoxMm box, double share) => _lines.Fill(1 - share).Box(box).FillNonZero().Fill(0);

    /// <summary>A plane of one bit a dot with its top left at a point.</summary>
    public void Plane(WhitePlane plane, double x, double y)
    {
        var (w, h) = (plane.Width / plane.DotsPerMm, plane.Height / plane.DotsPerMm);
        var name = string.Create(CultureInfo.InvariantCulture, $"P{_uses.Count}");
        _uses[name] = _pdf.AddStencil(plane.Width, plane.Height, DesignForms.Bits(plane));
        _lines.Keep().Matrix(w, 0, 0, -h, x, y + h).Draw(name).Back();
    }

    public byte[] Save()
    {
        _pdf.AddPage(_widthMm, _heightMm, _lines.Back(), _uses);
        return _pdf.Save();
    }
}
