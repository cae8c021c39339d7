using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Workshop.Artwork;
using ZXing;

namespace Coldpeel.Files.Artwork.Codes;

/// <summary>Measures a code that was read, on the plane's own dots: its narrowest element, its box, the room left round it.</summary>
/// <remarks>
/// Empty room by the standards of the codes: QR 4 elements (ISO/IEC 18004), Data Matrix 1 (ISO/IEC 16022), Aztec none (ISO/IEC 24778),
/// EAN-13 11 before and 7 behind, UPC-A 9, EAN-8 7 (ISO/IEC 15420), Code 128 10 (ISO/IEC 15417); figures from memory.
/// </remarks>
internal sealed class CodeRuler(WhitePlane plane, bool inverted)
{
    private const int Lines = 24;

    /// <summary>The code with its figures.</summary>
    /// <param name="result">What was read.</param>
    /// <param name="points">Places that the reader names, in dots of the plane.</param>
    /// <param name="scale">How far off such a place may be, in dots.</param>
    public FoundCode Measure(Result result, (double X, double Y)[] points, int scale)
    {
        var bars =
            result.BarcodeFormat
            is BarcodeFormat.EAN_13
                or BarcodeFormat.EAN_8
                or BarcodeFormat.UPC_A
                or BarcodeFormat.CODE_128;
        var (module, corners) =
            bars ? Stripes(result.BarcodeFormat, points)
            : result.BarcodeFormat == BarcodeFormat.QR_CODE ? Finders(points)
            : Square(points);
        var (quiet, needed) = Quiet(result.BarcodeFormat, corners, module, bars, scale);
        var s = plane.DotsPerMm;
        return new(
            Name(result.BarcodeFormat),
            result.Text ?? "",
            inverted,
            module / s,
            quiet,
            needed,
            BoxMm.Around(corners.Select(c => new PointMm(c.X / s, c.Y / s)))
        );
    }

    private static string Name(BarcodeFormat format) =>
        format switch
        {
            BarcodeFormat.QR_CODE => "QR code",
            BarcodeFormat.DATA_MATRIX => "Data Matrix code",
            BarcodeFormat.AZTEC => "Aztec code",
            BarcodeFormat.CODE_128 => "bar code (Code 128)",
            BarcodeFormat.EAN_8 => "bar code (EAN-8)",
            BarcodeFormat.UPC_A => "bar code (UPC-A)",
            _ => "bar code (EAN-13)",
        };

    /// <summary>A QR code by the centres of its finders (bottom left, top left, top right), which lie its side less seven elements apart.</summary>
    private (double Module, (double X, double Y)[] Corners) Finders((double X, double Y)[] p)
    {
        if (p.Length < 3)
        {
            return Square(p);
        }

        var (bottom, corner, right) = (p[0], p[1], p[2]);
        var (across, down) = (Far(corner, right), Far(corner, bottom));
        var (u, v) = (Towards(corner, right), Towards(corner, bottom));
        var rough = Narrowest(corner, u, v, across, down);
        // A side has 17 + 4 · version elements.
        var side = 17 + (4 * Math.Clamp(Math.Round((((across + down) / 2 / rough) + 7 - 17) / 4), 1, 40));
        var module = (across + down) / 2 / (side - 7);
        (double X, double Y) At(double a, double b) =>
            (corner.X + (u.X * a * module) + (v.X * b * module), corner.Y + (u.Y * a * module) + (v.Y * b * module));
        return (module, [At(-3.5, -3.5), At(side - 3.5, -3.5), At(side - 3.5, side - 3.5), At(-3.5, side - 3.5)]);
    }

    /// <summary>A square code by its corners.</summary>
    private (double Module, (double X, double Y)[] Corners) Square((double X, double Y)[] p)
    {
        var box = BoxMm.Around(p.Select(q => new PointMm(q.X, q.Y)));
        var corners =
            p.Length >= 4
                ?
                [
                    .. p.Take(4)
                        .OrderBy(q =>
                            Math.Atan2(q.Y - ((box.Top + box.Bottom) / 2), q.X - ((box.Left + box.Right) / 2))
                        ),
                ]
                : new (double X, double Y)[]
                {
                    (box.Left, box.Top),
                    (box.Right, box.Top),
                    (box.Right, box.Bottom),
                    (box.Left, box.Bottom),
                };
        var (u, v) = (Towards(corners[0], corners[1]), Towards(corners[0], corners[3]));
        return (Narrowest(corners[0], u, v, Far(corners[0], corners[1]), Far(corners[0], corners[3])), corners);
    }

    /// <summary>Bars by the middles of their first and last pattern; they are as high as their pattern stays the same.</summary>
    private (double Module, (double X, double Y)[] Corners) Stripes(BarcodeFormat format, (double X, double Y)[] p)
    {
        var (start, end) = (p[0], p[^1]);
        var u = Towards(start, end);
        var v = (X: -u.Y, Y: u.X);
        var length = Far(start, end);
        var module = Narrowest((start.X - (v.X * 4), start.Y - (v.Y * 4)), u, v, length, 8);
        // Code 128: start pattern 11 elements, stop 11 and a bar of 2; EAN and UPC: guards of 3.
        var (before, behind) = format == BarcodeFormat.CODE_128 ? (5.5, 7.5) : (1.5, 1.5);
        var (above, below) = (Height(start, u, v, length, -1), Height(start, u, v, length, 1));
        (double X, double Y) At(double along, double across) =>
            (start.X + (u.X * along) + (v.X * across), start.Y + (u.Y * along) + (v.Y * across));
        return (
            module,
            [
                At(-before * module, -above),
                At(length + (behind * module), -above),
                At(length + (behind * module), below),
                At(-before * module, below),
            ]
        );
    }

    private double Height(
        (double X, double Y) start,
        (double X, double Y) u,
        (double X, double Y) v,
        double length,
        int sign
    )
    {
        var n = (int)length;
        var most = plane.Width + plane.Height;
        for (var t = 1; t < most; t++)
        {
            var same = 0;
            for (var k = 0; k < n; k++)
            {
                var (x, y) = (start.X + (u.X * k), start.Y + (u.Y * k));
                same += Dark(x, y) == Dark(x + (v.X * t * sign), y + (v.Y * t * sign)) ? 1 : 0;
            }

            if (same < 0.9 * n)
            {
                return t - 1;
            }
        }

        return most;
    }

    /// <summary>The narrowest runs of light or dark along lines through a parallelogram: the middle one of the lines' means.</summary>
    /// <remarks>A line that grazes a row of elements between two dots' rows meets many false runs; such lines are few.</remarks>
    private double Narrowest(
        (double X, double Y) from,
        (double X, double Y) u,
        (double X, double Y) v,
        double across,
        double down
    )
    {
        var means = new List<double>();
        for (var line = 0; line < Lines; line++)
        {
            var t = down * (line + 0.5) / Lines;
            var runs = Runs((from.X + (v.X * t), from.Y + (v.Y * t)), u, across);
            if (runs.Count >= 3)
            {
                runs.Sort();
                var low = runs[runs.Count / 20];
                means.Add(runs.Where(r => r <= 1.5 * low).Average());
            }
        }

        means.Sort();
        return means.Count == 0 ? 1 : means[means.Count / 2];
    }

    private List<double> Runs((double X, double Y) from, (double X, double Y) u, double across)
    {
        const double Step = 0.25;
        var runs = new List<double>();
        var (last, since, first) = (Dark(from.X, from.Y), 0.0, true);
        for (var a = Step; a < across; a += Step)
        {
            var dark = Dark(from.X + (u.X * a), from.Y + (u.Y * a));
            if (dark == last)
            {
                continue;
            }

            if (!first)
            {
                runs.Add(a - since);
            }

            (last, since, first) = (dark, a, false);
        }

        return runs;
    }

    private (double Quiet, double Needed) Quiet(
        BarcodeFormat format,
        (double X, double Y)[] c,
        double module,
        bool bars,
        int scale
    )
    {
        double[] needed = format switch
        {
            BarcodeFormat.QR_CODE => [4, 4, 4, 4],
            BarcodeFormat.DATA_MATRIX => [1, 1, 1, 1],
            BarcodeFormat.AZTEC => [0, 0, 0, 0],
            BarcodeFormat.CODE_128 => [0, 10, 0, 10],
            BarcodeFormat.EAN_8 => [0, 7, 0, 7],
            BarcodeFormat.UPC_A => [0, 9, 0, 9],
            _ => [0, 7, 0, 11],
        };
        var (worst, of) = (needed.Max(), needed.Max());
        for (var side = 0; side < 4; side++)
        {
            if (needed[side] == 0)
            {
                continue;
            }

            var (a, b, next) = (c[side], c[(side + 1) % 4], c[(side + 2) % 4]);
            var outward = Towards(next, b);
            var free = Math.Min(needed[side], Free(a, b, outward, module, needed[side], bars, scale) / module);
            if (free / needed[side] < worst / of)
            {
                (worst, of) = (free, needed[side]);
            }
        }

        return (worst, of);
    }

    /// <summary>How far a side can move outwards from the code's edge before it meets anything dark, in dots.</summary>
    private double Free(
        (double X, double Y) a,
        (double X, double Y) b,
        (double X, double Y) outward,
        double module,
        double needed,
        bool bars,
        int scale
    )
    {
        // Bars are ragged at their ends: figures under them, longer guards.
        var (low, high) = bars ? (0.3, 0.7) : (0.02, 0.98);
        var edge = double.NaN;
        var slack = Math.Max(module, 2.0 * scale);
        for (var t = -slack; t < (needed + 2) * module; t += 0.25)
        {
            var dark = false;
            var n = Math.Max(8, (int)(Far(a, b) / Math.Max(1, module / 3)));
            for (var k = 0; k <= n && !dark; k++)
            {
                var at = low + ((high - low) * k / n);
                dark = Dark(a.X + ((b.X - a.X) * at) + (outward.X * t), a.Y + ((b.Y - a.Y) * at) + (outward.Y * t));
            }

            if (dark && t <= slack)
            {
                edge = double.NaN;
            }
            else if (dark)
            {
                return double.IsNaN(edge) ? 0 : t - edge;
            }
            else if (double.IsNaN(edge))
            {
                edge = t;
            }
        }

        return double.IsNaN(edge) ? 0 : ((needed + 2) * module) - edge;
    }

    /// <summary>Whether a place is dark to the reader: fabric, or toner in a swapped code. Past the plane lies fabric.</summary>
    private bool Dark(double x, double y)
    {
        var (u, v) = ((int)Math.Floor(x), (int)Math.Floor(y));
        var ink =
            u >= 0 && v >= 0 && u < plane.Width && v < plane.Height && plane.Coverage[(v * plane.Width) + u] >= 128;
        return ink == inverted;
    }

    private static double Far((double X, double Y) a, (double X, double Y) b) =>
        Math.Sqrt(((a.X - b.X) * (a.X - b.X)) + ((a.Y - b.Y) * (a.Y - b.Y)));

    private static (double X, double Y) Towards((double X, double Y) a, (double X, double Y) b)
    {
        var far = Math.Max(Far(a, b), 1e-9);
        return ((b.X - a.X) / far, (b.Y - a.Y) / far);
    }
}
