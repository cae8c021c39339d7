using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;
using Coldpeel.Workshop.Artwork;

namespace Coldpeel.Files.Sheets;

/// <summary>The test target as a print file: bars and gaps at three angles, dots, letters and tints of stepped sizes, each labelled.</summary>
public static class TestTargetPdf
{
    /// <summary>What the page takes within its printable area, in mm.</summary>
    public const double WidthMm = 192;

    /// <summary>What the page takes within its printable area, in mm.</summary>
    public const double HeightMm = 215;

    /// <summary>Length of every bar and gap, in mm.</summary>
    internal const double LongMm = 9;

    private const double Step = 14.4;
    private const double RowHead = 19;
    private const double RowHigh = 17;
    private const double Block = 2.6;
    private const double LabelCap = 1.9;

    /// <summary>A mark and the middle of its place on the page, unmirrored.</summary>
    internal readonly record struct Placed(TargetMark Mark, PointMm Middle);

    /// <summary>Writes the file.</summary>
    /// <param name="width">Paper across.</param>
    /// <param name="height">Paper down.</param>
    /// <param name="margin">Border that cannot be printed.</param>
    /// <param name="process">The process that is tried, for people.</param>
    public static byte[] Write(Length width, Length height, Length margin, string process)
    {
        var sheet = new ProofSheet("Test target", width, height);
        var at = margin.InMillimetres + 1;
        sheet.Words("Test target", 4, at, at);
        sheet.Words(process, 2.2, at + 40, at);
        sheet.Scale(at + 40, at + 4.4);
        sheet.Words(
            "Print at 100 %, transfer, finish, then tick what came through whole. Sizes in mm, tints in %.",
            2.2,
            at,
            at + 11.4
        );
        sheet.Words(
            "The limit is the smallest size from which on everything came through, in every direction.",
            2.2,
            at,
            at + 15.4
        );
        var row = 0;
        foreach (var (head, part, angle) in Rows())
        {
            var middle = RowMiddle(at, row++);
            sheet.Words(head, 2, at, middle - 1);
            if (part is TargetPart.Lines or TargetPart.Gaps)
            {
                sheet.Words($"{angle}° {TestTarget.Say(angle)}", 2, at, middle + 2.6);
            }
        }

        foreach (var (mark, middle) in Places(margin))
        {
            Draw(sheet, mark, middle);
            sheet.Label(Figure(mark.Size), LabelCap, middle.X, middle.Y + (LongMm / 2) + LabelCap + 2);
        }

        return sheet.Save();
    }

    /// <summary>Where everything is.</summary>
    internal static ImmutableArray<Placed> Places(Length margin)
    {
        var places = ImmutableArray.CreateBuilder<Placed>();
        var at = margin.InMillimetres + 1;
        foreach (var ((_, part, angle), row) in Rows().Select((r, i) => (r, i)))
        {
            var x = at + RowHead;
            foreach (var size in TestTarget.Sizes(part))
            {
                var wide = part == TargetPart.Text ? Math.Max(9, size * 3.4) + 2 : Step;
                places.Add(new(new(part, angle, size), new(x + (wide / 2), RowMiddle(at, row))));
                x += wide;
            }
        }

        return places.ToImmutable();
    }

    private static double RowMiddle(double at, int row) => at + 27 + (row * RowHigh);

    private static IEnumerable<(string Head, TargetPart Part, int Angle)> Rows() =>
        from part in Enum.GetValues<TargetPart>()
        from angle in TestTarget.AnglesOf(part)
        select (part.ToString(), part, angle);

    private static void Draw(ProofSheet sheet, TargetMark mark, PointMm middle)
    {
        switch (mark.Part)
        {
            case TargetPart.Lines:
                sheet.Ring(Bar(middle, mark.AngleDeg, 0, mark.Size));
                break;
            case TargetPart.Gaps:
                sheet.Ring(Bar(middle, mark.AngleDeg, (mark.Size + Block) / 2, Block));
                sheet.Ring(Bar(middle, mark.AngleDeg, -(mark.Size + Block) / 2, Block));
                break;
            case TargetPart.Dots:
                // One may hold by luck: five have to.
                foreach (var (dx, dy) in (ReadOnlySpan<(double, double)>)[(0, 0), (-3, -3), (3, -3), (-3, 3), (3, 3)])
                {
                    sheet.Ring(Disc(middle.X + dx, middle.Y + dy, mark.Size / 2));
                }

                break;
            case TargetPart.Text:
                sheet.Label("Rag8", mark.Size, middle.X, middle.Y + (mark.Size / 2));
                break;
            default:
                const double half = 4.5;
                var box = new BoxMm(middle.X - half, middle.Y - half, middle.X + half, middle.Y + half);
                sheet.Grey(box, mark.Size / 100);
                break;
        }
    }

    /// <summary>A bar along the angle, shifted across it.</summary>
    private static PointMm[] Bar(PointMm middle, int angleDeg, double shift, double width)
    {
        // The quarter turn is exact where sine and cosine of 90° would not be.
        var (sin, cos) = angleDeg == 90 ? (1, 0) : Math.SinCos(angleDeg * Math.PI / 180);
        PointMm At(double along, double across) =>
            new(middle.X + (along * cos) - (across * sin), middle.Y + (along * sin) + (across * cos));
        var (l, w) = (LongMm / 2, width / 2);
        return [At(-l, shift - w), At(l, shift - w), At(l, shift + w), At(-l, shift + w)];
    }

    private static IEnumerable<PointMm> Disc(double x, double y, double radius) =>
        Enumerable
            .Range(0, 96)
            .Select(k => Math.SinCos(k * Math.PI / 48))
            .Select(s => new PointMm(x + (radius * s.Cos), y + (radius * s.Sin)));

    private static string Figure(double size) => size.ToString("0.##", CultureInfo.InvariantCulture);
}
