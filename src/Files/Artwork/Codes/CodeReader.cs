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
        var found = new List<FoundCode>();
        foreach (var inverted in new[] { false, true })
        {
            foreach (var (result, points, scale) in Read(plane, inverted))
            {
                var code = new CodeRuler(plane, inverted).Measure(result, points, scale);
                if (!found.Exists(f => f.Text == code.Text && f.Kind == code.Kind && f.At.Meets(code.At)))
                {
                    found.Add(code);
                }
            }
        }

        return found;
    }

    /// <summary>The first code in a customer's picture, dark on light or light on dark; null when there is none.</summary>
    public static FoundCode? FindIn(Picture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var dark = new byte[picture.Width * picture.Height];
        for (var i = 0; i < dark.Length; i++)
        {
            var p = picture.Rgba.AsSpan(4 * i, 4);
            dark[i] = (byte)((255 - ((299 * p[0]) + (587 * p[1]) + (114 * p[2]) + 500) / 1000) * p[3] / 255);
        }

        var found = Find(new WhitePlane(picture.Width, picture.Height, dark, picture.PixelsPerMm));
        return found.Count > 0 ? found[0] : null;
    }

    /// <summary>Reads upright, and bars lying on their side as well.</summary>
    private static IEnumerable<(Result Result, (double X, double Y)[] Points, int Scale)> Read(
        WhitePlane plane,
        bool inverted
    )
    {
        var scale = Math.Max(1, (int)Math.Ceiling(Math.Sqrt((double)plane.Width * plane.Height / MostPixels)));
        var (grey, w, h) = Pool(plane, scale, inverted);
        foreach (var result in Decode(grey, w, h, [.. Square, .. Bars]))
        {
            yield return (result, Points(result, scale, turned: false), scale);
        }

        var turned = new byte[grey.Length];
        for (var y = 0; y < h; y++)
        {
            for (var x = 0; x < w; x++)
            {
                turned[(x * h) + y] = grey[(y * w) + x];
            }
        }

        foreach (var result in Decode(turned, h, w, Bars))
        {
            yield return (result, Points(result, scale, turned: true), scale);
        }
    }

    private static (double X, double Y)[] Points(Result result, int scale, bool turned) =>
        [
            .. (result.ResultPoints ?? [])
                .Where(p => p is not null)
                .Select(p => turned ? (p.Y, p.X) : (p.X, p.Y))
                .Select(p => ((double)(p.Item1 - Margin) * scale, (double)(p.Item2 - Margin) * scale)),
        ];

    private static Result[] Decode(byte[] grey, int width, int height, BarcodeFormat[] kinds)
    {
        var reader = new BarcodeReaderGeneric
        {
            AutoRotate = false,
            Options = new DecodingOptions
            {
                TryHarder = true,
                TryInverted = false,
                PossibleFormats = kinds,
            },
        };
        var source = new RGBLuminanceSource(grey, width, height, RGBLuminanceSource.BitmapFormat.Gray8);
        // A code without two places to measure between cannot be told in millimetres.
        return [.. (reader.DecodeMultiple(source) ?? []).Where(r => r.ResultPoints?.Length >= 2)];
    }

    /// <summary>The mean of every scale × scale dots as brightness: toner is bright, fabric dark; swapped when asked.</summary>
    private static (byte[] Grey, int Width, int Height) Pool(WhitePlane plane, int scale, bool inverted)
    {
        var (w, h) = (((plane.Width - 1) / scale) + 1 + (2 * Margin), ((plane.Height - 1) / scale) + 1 + (2 * Margin));
        var grey = new byte[w * h];
        Parallel.For(
            0,
            h - (2 * Margin),
            v =>
            {
                for (var u = 0; u < w - (2 * Margin); u++)
                {
                    var (sum, n) = (0, 0);
                    for (var y = v * scale; y < Math.Min(plane.Height, (v + 1) * scale); y++)
                    {
                        for (var x = u * scale; x < Math.Min(plane.Width, (u + 1) * scale); x++)
                        {
                            sum += plane.Coverage[(y * plane.Width) + x];
                            n++;
                        }
                    }

                    grey[((v + Margin) * w) + u + Margin] = (byte)(sum / n);
                }
            }
        );
        if (inverted)
        {
            for (var i = 0; i < grey.Length; i++)
            {
                grey[i] = (byte)(255 - grey[i]);
            }
        }

        return (grey, w, h);
    }
}
