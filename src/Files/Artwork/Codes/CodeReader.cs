using System.Numerics;
using System.Runtime.InteropServices;
using Coldpeel.Craft.Artwork;
using Coldpeel.Workshop.Artwork;
using ZXing;
using ZXing.Common;

namespace Coldpeel.Files.Artwork.Codes;

/// <summary>Finds machine-readable codes in a design, read as a telephone would see them: white toner on a darker fabric.</summary>
public static class CodeReader
{
    private const double MostPixels = 2e6;

    /// <summary>Free ground round the plane, in pixels: the fabric goes on.</summary>
    private const int Margin = 24;

    /// <summary>As they appear first, then with light and dark swapped.</summary>
    private static readonly bool[] Swapped = [false, true];

    private static readonly BarcodeFormat[] Square =
    [
        BarcodeFormat.QR_CODE,
        BarcodeFormat.DATA_MATRIX,
        BarcodeFormat.AZTEC,
    ];

    private static readonly BarcodeFormat[] Bars =
    [
        BarcodeFormat.EAN_13,
        BarcodeFormat.EAN_8,
        BarcodeFormat.UPC_A,
        BarcodeFormat.CODE_128,
    ];

    /// <summary>The codes in a plane: those that read as they appear, and those that read only with light and dark swapped.</summary>
    public static IReadOnlyList<FoundCode> Find(WhitePlane plane)
    {
        ArgumentNullException.ThrowIfNull(plane);
        var scale = Scale(plane.Width, plane.Height);
        var found = new List<FoundCode>();
        foreach (var (result, inverted, turned) in Read(Pool(plane, scale)))
        {
            var code = new CodeRuler(plane, inverted).Measure(result, Points(result, scale, turned), scale);
            if (!found.Exists(f => f.Text == code.Text && f.Kind == code.Kind && f.At.Meets(code.At)))
            {
                found.Add(code);
            }
        }

        return found;
    }

    private static int Scale(int width, int height) =>
        Math.Max(1, (int)Math.Ceiling(Math.Sqrt((double)width * height / MostPixels)));

    /// <summary>Everything that reads, as it appears first, then with light and dark swapped.</summary>
    private static IEnumerable<(Result Result, bool Inverted, bool Turned)> Read(
        (byte[] Grey, int Width, int Height) pooled
    )
    {
        var (grey, width, height) = pooled;
        var turned = Turned(grey, width, height);
        // What lies along the rows lies so with light and dark swapped as well; looking is quick, reading is not.
        Look[] looks =
        [
            new(
                grey,
                width,
                height,
                BarPattern.IsAlongRows(grey, width, height) ? [.. Square, .. Bars] : Square,
                false
            ),
            new(turned, height, width, BarPattern.IsAlongRows(turned, height, width) ? Bars : [], true),
        ];
        var tries = Swapped.SelectMany(inverted => looks.Select(look => (look, inverted))).ToArray();
        var read = new Result[tries.Length][];
        Parallel.For(0, tries.Length, k => read[k] = Decode(tries[k].look, tries[k].inverted));
        return tries.Zip(read).SelectMany(t => t.Second.Select(r => (r, t.First.inverted, t.First.look.Turned)));
    }

    /// <summary>One look at the plane: its brightness, and the kinds of codes that are read in it.</summary>
    private sealed record Look(byte[] Grey, int Width, int Height, BarcodeFormat[] Kinds, bool Turned);

    /// <summary>The first code in a customer's picture, dark on light or light on dark; null when there is none.</summary>
    public static FoundCode? FindIn(Picture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        // Hardly any picture holds one: only then all of its pixels are looked at.
        var scale = Scale(picture.Width, picture.Height);
        if (!Read(Pooled(picture.Width, picture.Height, scale, (y, row) => Darken(picture, y, row))).Any())
        {
            return null;
        }

        var dark = new byte[picture.Width * picture.Height];
        for (var y = 0; y < picture.Height; y++)
        {
            Darken(picture, y, dark.AsSpan(y * picture.Width, picture.Width));
        }

        var found = Find(new WhitePlane(picture.Width, picture.Height, dark, picture.PixelsPerMm));
        return found.Count > 0 ? found[0] : null;
    }

    /// <summary>How dark a row of pixels is, 0 to 255; nothing where transparent.</summary>
    private static void Darken(Picture picture, int y, Span<byte> row)
    {
        var pixels = MemoryMarshal.Cast<byte, uint>(picture.Rgba.AsSpan(4 * y * picture.Width, 4 * picture.Width));
        var (last, told) = (pixels[0], Darkness(pixels[0]));
        for (var x = 0; x < row.Length; x++)
        {
            // Most pixels of a drawing are their neighbours' equals.
            if (pixels[x] != last)
            {
                (last, told) = (pixels[x], Darkness(pixels[x]));
            }

            row[x] = told;
        }

        static byte Darkness(uint pixel)
        {
            var p = MemoryMarshal.AsBytes(new ReadOnlySpan<uint>(in pixel));
            return (byte)((255 - ((299 * p[0]) + (587 * p[1]) + (114 * p[2]) + 500) / 1000) * p[3] / 255);
        }
    }

    /// <summary>The same with rows for columns: bars lying on their side are read so.</summary>
    private static byte[] Turned(byte[] grey, int w, int h)
    {
        var turned = new byte[grey.Length];
        // In squares, so that what is read and what is written both stay near.
        const int Square = 32;
        for (var top = 0; top < h; top += Square)
        {
            for (var left = 0; left < w; left += Square)
            {
                for (var y = top; y < Math.Min(h, top + Square); y++)
                {
                    for (var x = left; x < Math.Min(w, left + Square); x++)
                    {
                        turned[(x * h) + y] = grey[(y * w) + x];
                    }
                }
            }
        }

        return turned;
    }

    private static (double X, double Y)[] Points(Result result, int scale, bool turned) =>
        [
            .. (result.ResultPoints ?? [])
                .Where(p => p is not null)
                .Select(p => turned ? (p.Y, p.X) : (p.X, p.Y))
                .Select(p => ((double)(p.Item1 - Margin) * scale, (double)(p.Item2 - Margin) * scale)),
        ];

    private static Result[] Decode(Look look, bool inverted)
    {
        if (look.Kinds.Length == 0)
        {
            return [];
        }

        var reader = new BarcodeReaderGeneric
        {
            AutoRotate = false,
            Options = new DecodingOptions
            {
                TryHarder = true,
                TryInverted = false,
                PossibleFormats = look.Kinds,
            },
        };
        var grey = inverted ? Inverted(look.Grey) : look.Grey;
        var source = new RGBLuminanceSource(grey, look.Width, look.Height, RGBLuminanceSource.BitmapFormat.Gray8);
        // A code without two places to measure between cannot be told in millimetres.
        return
        [
            .. (reader.DecodeMultiple(source) ?? []).Where(r =>
                r.ResultPoints?.Length >= 2 && (!Bars.Contains(r.BarcodeFormat) || IsDrawn(r))
            ),
        ];

        bool IsDrawn(Result r) =>
            BarPattern.GoesOn(
                grey,
                look.Width,
                look.Height,
                (r.ResultPoints[0].X, r.ResultPoints[0].Y),
                (r.ResultPoints[1].X, r.ResultPoints[1].Y)
            );
    }

    private static byte[] Inverted(byte[] grey)
    {
        var inverted = new byte[grey.Length];
        var x = 0;
        for (; x <= grey.Length - Vector<byte>.Count; x += Vector<byte>.Count)
        {
            (~new Vector<byte>(grey, x)).CopyTo(inverted, x);
        }

        for (; x < grey.Length; x++)
        {
            inverted[x] = (byte)(255 - grey[x]);
        }

        return inverted;
    }

    /// <summary>The mean of every scale × scale dots as brightness: toner is bright, fabric dark.</summary>
    private static (byte[] Grey, int Width, int Height) Pool(WhitePlane plane, int scale) =>
        Pooled(
            plane.Width,
            plane.Height,
            scale,
            (y, row) => plane.Coverage.AsSpan(y * plane.Width, plane.Width).CopyTo(row)
        );

    private delegate void FillRow(int y, Span<byte> row);

    private static (byte[] Grey, int Width, int Height) Pooled(int width, int height, int scale, FillRow fill)
    {
        var (w, h) = (((width - 1) / scale) + 1 + (2 * Margin), ((height - 1) / scale) + 1 + (2 * Margin));
        var grey = new byte[w * h];
        Parallel.For(
            0,
            h - (2 * Margin),
            () => (new byte[width], new ushort[width]),
            (v, _, room) =>
            {
                // Down the columns first, whole vectors of dots at a time.
                var (row, columns) = room;
                Array.Clear(columns);
                var rows = Math.Min(height, (v + 1) * scale) - (v * scale);
                for (var y = v * scale; y < (v * scale) + rows; y++)
                {
                    fill(y, row);
                    Add(row, columns);
                }

                for (var u = 0; u < w - (2 * Margin); u++)
                {
                    var cell = columns.AsSpan((u * scale)..Math.Min(width, (u + 1) * scale));
                    var sum = 0;
                    foreach (var dots in cell)
                    {
                        sum += dots;
                    }

                    grey[((v + Margin) * w) + u + Margin] = (byte)(sum / (rows * cell.Length));
                }

                return room;
            },
            _ => { }
        );
        return (grey, w, h);
    }

    /// <summary>Adds a row to sums of the columns; 257 rows of 255 fit 16 bits, and no plane is pooled by as many.</summary>
    private static void Add(ReadOnlySpan<byte> row, Span<ushort> columns)
    {
        var (x, half) = (0, Vector<ushort>.Count);
        for (; x <= row.Length - Vector<byte>.Count; x += Vector<byte>.Count)
        {
            Vector.Widen(new Vector<byte>(row[x..]), out var low, out var high);
            (new Vector<ushort>(columns[x..]) + low).CopyTo(columns[x..]);
            (new Vector<ushort>(columns[(x + half)..]) + high).CopyTo(columns[(x + half)..]);
        }

        for (; x < row.Length; x++)
        {
            columns[x] += row[x];
        }
    }
}
