using System.Collections.Immutable;
using System.Runtime.InteropServices;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Artwork;

/// <summary>Judges a customer's picture before anything is made of it: whether its pixels keep what their number promises.</summary>
public static class SourceCheck
{
    private const int MostBoxes = 50;

    /// <summary>Share of pixels beside edges that must be disturbed before it is told.</summary>
    private const double Disturbed = 0.08;

    /// <summary>What was found; empty for a sound picture.</summary>
    /// <param name="picture">The picture in its own pixels, at the size it is made.</param>
    /// <param name="limits">What the process asks of pictures.</param>
    /// <remarks>
    /// An enlarged picture is told only where its real sharpness falls below <see cref="ProcessLimits.PictureDpi"/> and its pixels' number does
    /// not: else <see cref="FlawKind.SoftPicture"/> says it already. Photographs have no flat ground, and ringing is not looked for in them.
    /// </remarks>
    public static ImmutableArray<Flaw> Check(Picture picture, ProcessLimits limits)
    {
        ArgumentNullException.ThrowIfNull(picture);
        ArgumentNullException.ThrowIfNull(limits);
        var flaws = ImmutableArray.CreateBuilder<Flaw>();
        var shade = Luma(picture);
        var dpi = picture.PixelsPerMm * Length.MillimetresPerInch;
        if (
            dpi >= limits.PictureDpi
            && EdgeSharpness.PixelsPerDetail(shade, picture.Width, picture.Height) is { } spread
        )
        {
            var real = dpi / spread;
            if (real < limits.PictureDpi)
            {
                flaws.Add(new(FlawKind.Upscaled, 1, real, limits.PictureDpi, [Whole(picture)]));
            }
        }

        // Edges that were stretched are soft for longer than ringing is looked for past them.
        if (flaws.Count == 0 && Ringing.Find(picture, shade) is { } ringing && ringing.Share >= Disturbed)
        {
            var s = picture.PixelsPerMm;
            flaws.Add(
                new(
                    FlawKind.Ringing,
                    ringing.Places.Count,
                    ringing.StrongestPercent,
                    0,
                    [
                        .. ringing
                            .Places.Take(MostBoxes)
                            .Select(p => new BoxMm(p.Left / s, p.Top / s, p.Right / s, p.Bottom / s)),
                    ]
                )
            );
        }

        return flaws.ToImmutable();
    }

    /// <summary>Rec. 601 luma, the Y′ that JPEG itself packs (ITU-T T.871), on white where transparent.</summary>
    private static byte[] Luma(Picture picture)
    {
        var shade = new byte[picture.Width * picture.Height];
        Parallel.For(
            0,
            picture.Height,
            y =>
            {
                unchecked
                {
                    var row = MemoryMarshal.Cast<byte, uint>(
                        picture.Rgba.AsSpan(y * picture.Width * 4, picture.Width * 4)
                    );
                    var to = shade.AsSpan(y * picture.Width, picture.Width);
                    var (last, told) = (row[0], Of(row[0]));
                    for (var x = 0; x < to.Length; x++)
                    {
                        // Most pixels of a drawing are their neighbours' equals.
                        if (row[x] != last)
                        {
                            (last, told) = (row[x], Of(row[x]));
                        }

                        to[x] = told;
                    }
                }
            }
        );
        return shade;

        static byte Of(uint pixel)
        {
            var p = MemoryMarshal.AsBytes(new ReadOnlySpan<uint>(in pixel));
            // In thousandths; on white where transparent.
            var luma = (299 * p[0]) + (587 * p[1]) + (114 * p[2]);
            return (byte)((p[3] == 255 ? luma + 500 : 255_500 + ((luma - 255_000) * p[3] / 255)) / 1000);
        }
    }

    private static BoxMm Whole(Picture picture) =>
        new(0, 0, picture.Width / picture.PixelsPerMm, picture.Height / picture.PixelsPerMm);
}
