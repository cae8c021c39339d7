using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;

namespace Coldpeel.Workshop.Artwork;

/// <summary>A wedge of steps from bare to solid by which a workshop measures how dark its tints come out.</summary>
public static class StepWedge
{
    private const int Inner = 10;

    /// <summary>The tints of its steps in whole percent, bare and solid included.</summary>
    /// <param name="tone">How the tints are printed.</param>
    /// <param name="limits">What the process carries: a line screen has no tints beyond its range.</param>
    /// <param name="dotsPerMm">Dots in a millimetre of the printer.</param>
    public static ImmutableArray<int> Steps(Tone tone, ProcessLimits limits, double dotsPerMm)
    {
        var (least, most) = (5, 95);
        if (tone == Tone.Screen)
        {
            var range = LineScreen.For(limits, dotsPerMm).Range(dotsPerMm);
            (least, most) = ((int)Math.Ceiling(100 * range.Lightest), (int)Math.Floor(100 * range.Darkest));
        }

        var inner = Enumerable
            .Range(0, Inner)
            .Select(k => (int)Math.Round(least + ((most - least) * k / (Inner - 1.0))))
            .Distinct();
        return [0, .. inner, 100];
    }

    /// <summary>A square patch of one step in that tone, as it prints; of grey, as the printer's own screen gets it.</summary>
    /// <param name="percent">The step.</param>
    /// <param name="sideMm">Side of the patch.</param>
    /// <param name="tone">How tints are printed; not corrected by any curve.</param>
    /// <param name="limits">What the process carries.</param>
    /// <param name="dotsPerMm">Dots in a millimetre of the printer.</param>
    public static WhitePlane Patch(int percent, double sideMm, Tone tone, ProcessLimits limits, double dotsPerMm)
    {
        var side = (int)Math.Round(sideMm * dotsPerMm);
        var coverage = new byte[side * side];
        coverage.AsSpan().Fill((byte)Math.Round(255 * percent / 100.0));
        var plane = new WhitePlane(side, side, coverage, dotsPerMm);
        return tone switch
        {
            Tone.Screen => LineScreen.For(limits, dotsPerMm).Apply(plane).Plane,
            Tone.Spray => Spray.For(limits, dotsPerMm).Apply(plane).Plane,
            _ => plane,
        };
    }
}
