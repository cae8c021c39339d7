using Coldpeel.Craft.Artwork;
using Coldpeel.Files.Artwork.Pdf;

namespace Coldpeel.Files.Artwork;

/// <summary>What prints of a drawing, dot by dot and coarsely: enough to see whether outlines show the same.</summary>
internal sealed class InkPlane
{
    private readonly WhitePlane _plane;

    private InkPlane(WhitePlane plane) => _plane = plane;

    /// <summary>Fine enough to see an eighth of a millimetre up to 40 mm, and a thousand dots a side beyond.</summary>
    public static double DotsPerMm(double widthMm, double heightMm) => Math.Min(24, 1000 / Math.Max(widthMm, heightMm));

    /// <summary>The plane of a picture under a rule of what prints.</summary>
    public static InkPlane Of(Picture picture, Func<Rgb, byte, double> strength)
    {
        var known = new Dictionary<uint, byte>();
        var coverage = new byte[picture.Width * picture.Height];
        for (var i = 0; i < coverage.Length; i++)
        {
            var paint = BitConverter.ToUInt32(picture.Rgba, 4 * i);
            if (!known.TryGetValue(paint, out var ink))
            {
                var p = picture.Rgba.AsSpan(4 * i, 4);
                ink = p[3] == 0 ? (byte)0 : (byte)Math.Round(255 * Edge(strength, new(p[0], p[1], p[2]), p[3]));
                known[paint] = ink;
            }

            coverage[i] = ink;
        }

        return new(new(picture.Width, picture.Height, coverage, picture.PixelsPerMm));
    }

    /// <summary>Whether outlines fill what the drawing shows, soft edges aside.</summary>
    public bool Shows(InkPath path, double widthMm, double heightMm)
    {
        var filled = InkRaster.Fill(path, widthMm, heightMm, _plane.DotsPerMm);
        return filled.Width == _plane.Width
            && filled.Height == _plane.Height
            && !DrawingsAgree.AnyPartApart(filled.Coverage, _plane.Coverage, _plane.Width, _plane.Height);
    }

    // A see-through edge covers by its alpha, whatever the rule makes of alpha.
    private static double Edge(Func<Rgb, byte, double> strength, Rgb colour, byte alpha) =>
        Math.Clamp(strength(colour, byte.MaxValue) * alpha / 255, 0, 1);
}
