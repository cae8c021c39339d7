using System.Diagnostics;
using Coldpeel.Craft.Artwork;
using Coldpeel.Files.Artwork;
using SkiaSharp;

namespace Coldpeel.Files.Tests.Artwork;

/// <summary>Our artwork in, another program's drawing of it beside.</summary>
internal static class Drawings
{
    /// <summary>Dots in a millimetre at which drawings are compared: 508 an inch.</summary>
    public const double DotsPerMm = 20;

    /// <summary>Black prints, white does not, grey does by halves: a stand-in with no opinion of its own.</summary>
    public static double Darkness(Rgb colour, byte alpha) =>
        1 - (((0.299 * colour.R) + (0.587 * colour.G) + (0.114 * colour.B)) / 255);

    /// <summary>The artwork of a file; the test fails with its fault.</summary>
    public static SourceArtwork Good(string path)
    {
        var read = ArtworkReader.Read(path, Path.GetFileName(path));
        Assert.True(read.Ok, read.Fault?.ToString());
        return read.Value;
    }

    /// <summary>An SVG written for one test.</summary>
    public static SourceArtwork Svg(string text)
    {
        var file = Path.Combine(Place.NewFolder(), "drawing.svg");
        File.WriteAllText(file, text);
        return Good(file);
    }

    /// <summary>The fault of a file that must be refused.</summary>
    public static string Fault(string name, byte[] bytes)
    {
        var file = Path.Combine(Place.NewFolder(), name);
        File.WriteAllBytes(file, bytes);
        var read = ArtworkReader.Read(file, name);
        Assert.False(read.Ok, "It was read.");
        var say = read.Fault.ToString();
        Assert.DoesNotContain('\n', say);
        Assert.StartsWith(name, say, StringComparison.Ordinal);
        Assert.True(say.Length < 400, say);
        return say;
    }

    /// <summary>Darkness 0–255 of every pixel on white paper.</summary>
    public static byte[] Dark(Picture picture)
    {
        var dark = new byte[picture.Width * picture.Height];
        for (var i = 0; i < dark.Length; i++)
        {
            var p = picture.Rgba.AsSpan(4 * i, 4);
            dark[i] = (byte)Math.Round(Darkness(new(p[0], p[1], p[2]), p[3]) * p[3]);
        }

        return dark;
    }

    /// <summary>The same from librsvg's rsvg-convert, an independent SVG renderer, on a page of the same dots.</summary>
    public static (int Width, int Height, byte[] Dark) ByRsvg(string svg, int width, int height)
    {
        var png = Path.Combine(Place.NewFolder(), "rsvg.png");
        Run("rsvg-convert", "-w", $"{width}", "-h", $"{height}", "-b", "white", "-o", png, svg);
        using var bitmap = SKBitmap.Decode(File.ReadAllBytes(png));
        using var rgba = bitmap.Copy(SKColorType.Rgba8888);
        File.Delete(png);
        var pixels = rgba.GetPixelSpan();
        var dark = new byte[bitmap.Width * bitmap.Height];
        for (var i = 0; i < dark.Length; i++)
        {
            var p = pixels.Slice(4 * i, 3);
            dark[i] = (byte)Math.Round(Darkness(new(p[0], p[1], p[2]), 255) * 255);
        }

        return (bitmap.Width, bitmap.Height, dark);
    }

    /// <summary>Mean absolute difference in percent of solid.</summary>
    public static double MeanPercent(byte[] a, byte[] b) => a.Zip(b, (x, y) => Math.Abs(x - y)).Average() / 2.55;

    /// <summary>How far the edges lie apart at most, in dots: the deepest dot where one is solid and the other empty, by layers peeled off.</summary>
    public static int EdgeDots(byte[] a, byte[] b, int width, int height)
    {
        // A dot differs by more than an edge's blur only if no dot within r of it, in the other drawing, has its tone.
        var worst = 0;
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                var at = (y * width) + x;
                if (Math.Abs(a[at] - b[at]) > 128)
                {
                    worst = Math.Max(worst, Nearest(b, a[at] > 127, x, y, width, height));
                }
            }
        }

        return worst;
    }

    /// <summary>Runs a program; the test is skipped where it is not there and fails when it fails.</summary>
    public static string Run(string tool, params string[] arguments)
    {
        var start = new ProcessStartInfo(Place.Tool(tool), arguments)
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        using var process = Process.Start(start)!;
        var error = process.StandardError.ReadToEndAsync();
        var said = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, $"{tool}: {error.Result}");
        return said;
    }

    private static int Nearest(byte[] dots, bool solid, int x, int y, int width, int height)
    {
        for (var r = 1; r < 40; r++)
        {
            for (var dy = -r; dy <= r; dy++)
            {
                for (var dx = -r; dx <= r; dx++)
                {
                    var (px, py) = (x + dx, y + dy);
                    if (px >= 0 && py >= 0 && px < width && py < height && dots[(py * width) + px] > 127 == solid)
                    {
                        return r;
                    }
                }
            }
        }

        return 40;
    }
}
