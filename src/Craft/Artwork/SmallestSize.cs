using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Artwork;

/// <summary>Solves for the smallest width at which a design survives whole.</summary>
public static class SmallestSize
{
    // Near the limit a design may pass, fail and pass again as its edges fall on the dots: so far below an answer another one is looked for,
    private const double Below = 0.03;

    // in steps no finer than this part of it.
    private const double Stride = 0.005;

    /// <summary>
    /// The smallest width in mm, to <paramref name="exactMm"/>, at which a design passes; null when even <paramref name="mostMm"/> does not do.
    /// </summary>
    /// <param name="widthMm">Where the search starts: the width that the design was asked for.</param>
    /// <param name="leastMm">The smallest width worth a look.</param>
    /// <param name="mostMm">The largest that placement or sheet allow.</param>
    /// <param name="exactMm">How exact the answer is; it is rounded up to it.</param>
    /// <param name="lacks">
    /// By what factor a design should be larger than a width in mm, drawn afresh and not stretched: 1 or less when it has nothing left that size can mend.
    /// Only whether it is above 1 decides; how far above tells where to look next.
    /// </param>
    /// <remarks>
    /// Widths of strokes grow with the design, so what it lacks at one width tells the next one; then bisection between a width that fails and one that
    /// passes. Both were really drawn and checked. Then widths down to 3 % below the answer are tried, half a percent or one step apart: each of them fails, or is
    /// the answer.
    /// </remarks>
    public static double? Solve(
        double widthMm,
        double leastMm,
        double mostMm,
        double exactMm,
        Func<double, double> lacks
    )
    {
        ArgumentNullException.ThrowIfNull(lacks);
        var step = Need.Positive(exactMm);
        var known = new Dictionary<long, double>();
        double Lacks(long steps) => known.TryGetValue(steps, out var by) ? by : known[steps] = lacks(steps * step);
        bool Passes(long steps) => Lacks(steps) <= 1;
        var (least, most) = ((long)Math.Ceiling(Need.Positive(leastMm) / step), (long)Math.Floor(mostMm / step));
        var (fails, passes) = (least - 1, most + 1);
        var next = Math.Clamp((long)Math.Ceiling(Need.Positive(widthMm) / step), least, most);
        // Upwards by what is lacking, and in growing strides where that falls short.
        for (var stride = 1L; passes > most && fails < most; stride *= 2)
        {
            if (Passes(next))
            {
                passes = next;
                break;
            }

            fails = next;
            var asked = Math.Min(most, fails * Math.Min(Lacks(fails), 16));
            next = Math.Min(most, Math.Max(fails + stride, (long)Math.Ceiling(asked)));
        }

        if (passes > most)
        {
            return null;
        }

        // Downwards in growing strides where nothing below is known to fail.
        for (var stride = Math.Max(1, passes / 64); passes > least && passes - fails > stride; stride *= 2)
        {
            next = Math.Max(Math.Max(least, fails + 1), passes - stride);
            if (!Passes(next))
            {
                fails = next;
                break;
            }

            passes = next;
        }

        while (passes - fails > 1)
        {
            var middle = fails + ((passes - fails) / 2);
            (fails, passes) = Passes(middle) ? (fails, middle) : (middle, passes);
        }

        var apart = Math.Max(1, (long)(Stride * passes));
        for (var lower = passes - apart; lower >= Math.Max(least, (long)((1 - Below) * passes)); lower -= apart)
        {
            passes = Passes(lower) ? lower : passes;
        }

        return passes * step;
    }
}
