using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Artwork;

/// <summary>Makes the white plane of a picture at its true size.</summary>
public static class PlaneMaker
{
    /// <summary>The plane of <paramref name="picture"/>, stretched to the given size.</summary>
    /// <param name="picture">The picture; its own size in mm is not looked at.</param>
    /// <param name="prints">What prints; <see cref="Prints.Auto"/> is decided here by <see cref="PrintsChooser"/>.</param>
    /// <param name="tone">Solid: every dot 0 or 255. All others: tints stay, for the printer's screen or for <see cref="LineScreen"/> and <see cref="Spray"/>.</param>
    /// <param name="dotsPerMm">The printer's dots in a millimetre.</param>
    /// <param name="widthMm">Width at which it prints.</param>
    /// <param name="heightMm">Height at which it prints.</param>
    /// <param name="curve">What strength prints as what, pixel by pixel; null for as it is. None and solid stay as they are.</param>
    /// <returns>A plane of as many whole dots as the size needs, counting a started one.</returns>
    /// <remarks>
    /// What prints is decided pixel by pixel and then brought to the dots, so a colour that does not print (that of a transparent
    /// pixel, say) cannot bleed into an edge.
    /// </remarks>
    public static WhitePlane Make(
        Picture picture,
        Prints prints,
        Tone tone,
        double dotsPerMm,
        double widthMm,
        double heightMm,
        ToneCurve? curve = null
    )
    {
        ArgumentNullException.ThrowIfNull(picture);
        ArgumentNullException.ThrowIfNull(prints);
        var decided = prints is Prints.Auto ? PrintsChooser.Choose(picture).Prints : prints;
        var (across, down) = (Need.Positive(widthMm) * Need.Positive(dotsPerMm), Need.Positive(heightMm) * dotsPerMm);
        var map = StrengthMap.Of(picture, decided);
        if (curve is not null)
        {
            var levels = Enumerable
                .Range(0, 256)
                .Select(c => (byte)Math.Round(255 * curve.Prints(c / 255.0)))
                .ToArray();
            Parallel.For(
                0,
                picture.Height,
                y =>
                {
                    foreach (ref var dot in map.AsSpan(y * picture.Width, picture.Width))
                    {
                        dot = levels[dot];
                    }
                }
            );
        }

        var coverage = Resampler.To(map, picture.Width, picture.Height, across, down, tone == Tone.Solid);
        return new(
            Math.Max(1, (int)Math.Ceiling(across - 1e-6)),
            Math.Max(1, (int)Math.Ceiling(down - 1e-6)),
            coverage,
            dotsPerMm
        );
    }

    /// <summary>The plane cut to whole dots at one half, as <see cref="Make"/> does for a solid tone.</summary>
    public static WhitePlane Cut(WhitePlane smooth)
    {
        ArgumentNullException.ThrowIfNull(smooth);
        var coverage = new byte[smooth.Coverage.Length];
        Parallel.For(
            0,
            smooth.Height,
            y =>
            {
                for (var i = y * smooth.Width; i < (y + 1) * smooth.Width; i++)
                {
                    coverage[i] = smooth.Coverage[i] >= 128 ? (byte)255 : (byte)0;
                }
            }
        );
        return new(smooth.Width, smooth.Height, coverage, smooth.DotsPerMm);
    }
}
