using System.Globalization;
using System.Text;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;

namespace Coldpeel.Files.Sheets;

/// <summary>Drawing orders of a PDF content stream (ISO 32000-1, 8.5), with lengths in mm and grey as the only colour.</summary>
/// <remarks>There is no way to ask for another colour space here: what cannot be said cannot reach the printer.</remarks>
internal sealed class InkLines
{
    private readonly StringBuilder _text = new();

    /// <summary>The stream so far; ASCII only.</summary>
    public byte[] Bytes => Encoding.ASCII.GetBytes(_text.ToString());

    public InkLines Keep() => Say("q");

    public InkLines Back() => Say("Q");

    /// <summary>The six numbers of a matrix: x' = a x + c y + e, y' = b x + d y + f.</summary>
    public InkLines Matrix(double a, double b, double c, double d, double e, double f)
    {
        foreach (var v in (ReadOnlySpan<double>)[a, b, c, d, e, f])
        {
            Number(v, 9);
        }

        return Say("cm");
    }

    /// <summary>A point p from here on means turn(p) + shift.</summary>
    public InkLines Place(Turn turn, PointMm shift)
    {
        var (x, y) = (turn.Of(new(1, 0)), turn.Of(new(0, 1)));
        return Matrix(x.X, x.Y, y.X, y.Y, shift.X, shift.Y);
    }

    /// <summary>Grey of what is filled: 0 is full toner, 1 is none.</summary>
    public InkLines Fill(double grey) => Number(grey, 3).Say("g");

    /// <summary>Grey, width and dashes of what is stroked.</summary>
    public InkLines Pen(double grey, double widthMm, params ReadOnlySpan<double> dashesMm)
    {
        Number(grey, 3).Say("G").Number(widthMm, 4).Say("w");
        _text.Append("[ ");
        foreach (var d in dashesMm)
        {
            Number(d, 4);
        }

        return Say("] 0 d 1 j 1 J");
    }

    public InkLines Draw(string name) => Say($"/{name} Do");

    /// <summary>A path; it is not painted until one of the painting orders follows.</summary>
    public InkLines Path(InkPath path, int decimals = 4)
    {
        foreach (var s in path.Steps)
        {
            switch (s.Move)
            {
                case PathMove.Start:
                    Point(s.End, decimals).Say("m");
                    break;
                case PathMove.Line:
                    Point(s.End, decimals).Say("l");
                    break;
                case PathMove.Curve:
                    Point(s.First, decimals).Point(s.Second, decimals).Point(s.End, decimals).Say("c");
                    break;
                default:
                    Say("h");
                    break;
            }
        }

        return this;
    }

    /// <summary>A closed ring; it is not painted until one of the painting orders follows.</summary>
    public InkLines Ring(IEnumerable<PointMm> ring)
    {
        var first = true;
        foreach (var p in ring)
        {
            Point(p).Say(first ? "m" : "l");
            first = false;
        }

        return first ? this : Say("h");
    }

    /// <summary>A stroked line.</summary>
    public InkLines Line(PointMm from, PointMm to) => Point(from).Say("m").Point(to).Say("l S");

    public InkLines Box(BoxMm box) =>
        Point(new(box.Left, box.Top)).Number(box.Width, 4).Number(box.Height, 4).Say("re");

    public InkLines FillEvenOdd() => Say("f*");

    public InkLines FillNonZero() => Say("f");

    public InkLines Stroke() => Say("S");

    public InkLines ClipEvenOdd() => Say("W* n");

    private InkLines Point(PointMm p, int decimals = 4) => Number(p.X, decimals).Number(p.Y, decimals);

    private InkLines Number(double value, int decimals)
    {
        _text.Append(InkNumber.Of(value, decimals)).Append(' ');
        return this;
    }

    private InkLines Say(string order)
    {
        _text.Append(order).Append('\n');
        return this;
    }
}

/// <summary>Numbers as PDF writes them: a point, no exponent, no trailing zeros.</summary>
internal static class InkNumber
{
    private static readonly string[] Formats = [.. Enumerable.Range(0, 10).Select(n => "0." + new string('#', n))];

    public static string Of(double value, int decimals)
    {
        var rounded = Math.Round(value, decimals);
        return (rounded == 0 ? 0 : rounded).ToString(Formats[decimals], CultureInfo.InvariantCulture);
    }
}
