using System.Collections.Immutable;
using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Artwork;

/// <summary>Reckons from what an instrument reads how much of a tint looks covered, and how dark tints come out.</summary>
/// <remarks>
/// Murray (Monochrome reproduction in photoengraving, J. Franklin Institute 221, 1936), who owed it to Davies: what a tint reflects is
/// the mean of ground and solid by area. Yule and Nielsen (The penetration of light into paper and its effect on halftone
/// reproduction, TAGA Proc., 1951): light that wanders below the surface before it comes out again makes that mean hold for the n-th
/// root of reflectance; n = 1 is Murray and Davies. White on dark fabric reads the other way round, by the same formula.
/// </remarks>
public static class DotGainFit
{
    /// <summary>Largest n that is fitted; from there on the result hardly changes.</summary>
    public const double MostN = 10;

    /// <summary>Share of the area that looks covered.</summary>
    /// <param name="tint">Reflectance of the tint, 0 (excluded) to 1 of the light.</param>
    /// <param name="ground">Reflectance of the bare ground.</param>
    /// <param name="solid">Reflectance of the solid; another than the ground's.</param>
    /// <param name="n">The factor of Yule and Nielsen, from 1.</param>
    /// <exception cref="ArgumentException">Solid and ground reflect alike.</exception>
    public static double Area(double tint, double ground, double solid, double n = 1)
    {
        if (Need.Positive(ground).Equals(Need.Positive(solid)))
        {
            throw new ArgumentException(
                "Solid and ground reflect alike: nothing can be told between them.",
                nameof(solid)
            );
        }

        var root = 1 / Need.Positive(n);
        var (t, g, s) = (Math.Pow(Need.Positive(tint), root), Math.Pow(ground, root), Math.Pow(solid, root));
        return (t - g) / (s - g);
    }

    /// <summary>What a covered share of the area reflects: the inverse of <see cref="Area"/>.</summary>
    /// <param name="area">Share covered, 0 to 1.</param>
    /// <param name="ground">Reflectance of the bare ground.</param>
    /// <param name="solid">Reflectance of the solid.</param>
    /// <param name="n">The factor of Yule and Nielsen, from 1.</param>
    public static double Reflectance(double area, double ground, double solid, double n = 1)
    {
        var root = 1 / Need.Positive(n);
        var (g, s) = (Math.Pow(Need.Positive(ground), root), Math.Pow(Need.Positive(solid), root));
        return Math.Pow((area * s) + ((1 - area) * g), n);
    }

    /// <summary>Reflectance of an optical density: 10 to the power of minus it (ISO 5-1).</summary>
    public static double OfDensity(double density) => Math.Pow(10, -Need.Finite(density));

    /// <summary>The n at which reckoned areas come nearest to the asked ones, in the sense of least squares.</summary>
    /// <param name="steps">Asked share and reflectance of every step between bare and solid.</param>
    /// <param name="ground">Reflectance of the bare ground.</param>
    /// <param name="solid">Reflectance of the solid.</param>
    /// <returns>1 to <see cref="MostN"/>, to a thousandth.</returns>
    /// <remarks>
    /// From a wedge alone real spread and wandering light cannot be told apart: a fitted n takes as much of the gain as it can for light, so
    /// that the curve that is left corrects less. Where the look is what counts, keep n = 1.
    /// </remarks>
    public static double FitN(IReadOnlyList<WedgeReading> steps, double ground, double solid)
    {
        ArgumentNullException.ThrowIfNull(steps);
        double Off(double n) => steps.Sum(s => Math.Pow(Area(s.Reflectance, ground, solid, n) - s.Asked, 2));
        // The sum of squares may have more than one valley: look everywhere in 1/n, then halve in.
        var best = Enumerable.Range(0, 181).Select(k => 1 / (1 - (k / 200.0))).MinBy(Off);
        var (low, high) = (1 / Math.Min(1, (1 / best) + 0.005), 1 / Math.Max(1 / MostN, (1 / best) - 0.005));
        while (high - low > 0.0002)
        {
            var (a, b) = (low + ((high - low) / 3), high - ((high - low) / 3));
            (low, high) = Off(a) <= Off(b) ? (low, b) : (a, high);
        }

        return Math.Round((low + high) / 2, 3);
    }

    /// <summary>The curve of a wedge.</summary>
    /// <param name="steps">Every step between bare and solid.</param>
    /// <param name="ground">Reflectance of the bare ground.</param>
    /// <param name="solid">Reflectance of the solid.</param>
    /// <param name="n">The factor of Yule and Nielsen, from 1.</param>
    public static ToneCurve Curve(IReadOnlyList<WedgeReading> steps, double ground, double solid, double n)
    {
        ArgumentNullException.ThrowIfNull(steps);
        return ToneCurve.Through(
            steps.Select(s => new TonePoint(s.Asked, Area(s.Reflectance, ground, solid, n))).ToImmutableArray()
        );
    }
}

/// <summary>A step of a printed wedge: the share that was asked, and what it reflects, 0 to 1.</summary>
public readonly record struct WedgeReading(double Asked, double Reflectance);
