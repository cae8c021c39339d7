using System.Globalization;
using System.Text;
using Coldpeel.Craft.Geometry;
using SkiaSharp;

namespace Coldpeel.Files.Tests.Sheets;

/// <summary>A drawn page as dots that are ink or not, 600 an inch, compared with another by how far edges lie apart.</summary>
internal sealed class InkRaster(int width, int height, byte[] grey)
{
    public int Width => width;

    public int Height => height;

    public byte Grey(int x, int y) => x < 0 || y < 0 || x >= width || y >= height ? (byte)255 : grey[(y * width) + x];

    public bool Ink(int x, int y, int below = 128) => Grey(x, y) < below;

    public static InkRaster OfGraymap(byte[] file)
    {
        // PGM: "P5 width height 255" and one byte a dot (netpbm's pgm(5)).
        var (at, words) = (0, new List<string>());
        while (words.Count < 4)
        {
            var start = at;
            while (!char.IsWhiteSpace((char)file[at]))
            {
                at++;
            }

            words.Add(Encoding.ASCII.GetString(file, start, at - start));
            at++;
        }

        Assert.Equal("P5", words[0]);
        var (w, h) = (
            int.Parse(words[1], CultureInfo.InvariantCulture),
            int.Parse(words[2], CultureInfo.InvariantCulture)
        );
        return new(w, h, file[at..]);
    }

    public static InkRaster OfPng(byte[] file)
    {
        using var read = SKBitmap.Decode(file);
        using var grey = new SKBitmap(new SKImageInfo(read.Width, read.Height, SKColorType.Gray8, SKAlphaType.Opaque));
        using (var canvas = new SKCanvas(grey))
        {
            canvas.DrawBitmap(read, 0, 0, SKSamplingOptions.Default);
        }

        var bytes = new byte[read.Width * read.Height];
        for (var y = 0; y < read.Height; y++)
        {
            grey.GetPixelSpan().Slice(y * grey.RowBytes, read.Width).CopyTo(bytes.AsSpan(y * read.Width));
        }

        return new(read.Width, read.Height, bytes);
    }

    public InkRaster MirroredBack()
    {
        var turned = new byte[grey.Length];
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                turned[(y * width) + width - 1 - x] = grey[(y * width) + x];
            }
        }

        return new(width, height, turned);
    }

    /// <summary>The dots of a box given in mm.</summary>
    public InkRaster Cut(BoxMm box)
    {
        var (x0, y0) = ((int)Math.Floor(box.Left * Film.DotsPerMm), (int)Math.Floor(box.Top * Film.DotsPerMm));
        var (w, h) = ((int)Math.Ceiling(box.Width * Film.DotsPerMm), (int)Math.Ceiling(box.Height * Film.DotsPerMm));
        var part = new byte[w * h];
        for (var y = 0; y < h; y++)
        {
            for (var x = 0; x < w; x++)
            {
                part[(y * w) + x] = Grey(x0 + x, y0 + y);
            }
        }

        return new(w, h, part);
    }

    public int CountInk()
    {
        var n = 0;
        foreach (var g in grey)
        {
            n += g < 128 ? 1 : 0;
        }

        return n;
    }

    /// <summary>
    /// How many dots break "every edge of one lies within the root of <paramref name="square"/> dots of an edge of the other": ink of one with no ink of
    /// the other that near, or paper with no paper, both ways round.
    /// </summary>
    public int FarFrom(InkRaster other, int square)
    {
        Assert.Equal((width, height), (other.Width, other.Height));
        var bad = 0;
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                if (
                    Ink(x, y) != other.Ink(x, y)
                    && (!other.Near(x, y, Ink(x, y), square) || !Near(x, y, other.Ink(x, y), square))
                )
                {
                    bad++;
                }
            }
        }

        return bad;
    }

    private bool Near(int x, int y, bool ink, int square)
    {
        var dots = (int)Math.Sqrt(square);
        for (var dy = -dots; dy <= dots; dy++)
        {
            for (var dx = -dots; dx <= dots; dx++)
            {
                if ((dx * dx) + (dy * dy) <= square && Ink(x + dx, y + dy) == ink)
                {
                    return true;
                }
            }
        }

        return false;
    }
}
