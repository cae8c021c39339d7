using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Artwork;

/// <summary>Solves for the smallest width at which a design survives whole.</summary>
public static class SmallestSize
{
    // Near the limit a design may pass, fail and pass again as its edges fall on the dots: so far below an answer another one is looked for.
    private const double Below = 0.03;

    /// <summary>
    /// The smallest width in mm, to <paramref name="exactMm"/>, at which a design passes; null when even <paramref name="mostMm"/> does not do.
    /// </summary>
    /// <param name="widthMm">Where the search starts: the width that the design was asked for.</param>
    /// <param name="leastMm">The smallest width worth a look.</param>
    /// <param name="mostMm">The largest that placement or sheet allow.</param>
    /// <param name="exactMm">How exact the answer is; it is rounded up to it.</param>
    /// <param name="survives">Whether the design has nothing left that size can mend at a width in mm: drawn afresh, not stretched.</param>
    /// <remarks>
    /// Bisection between a width that fails and one that passes; both ends were really drawn and checked. Then the widths down to 3 % below the answer
    /// are tried one after another: each of them fails, or is the answer.
    /// </remarks>
    public static double? Solve(
        double widthMm,
        double leastMm,
        double mostMm,
        double exactMm,
        Func<double, bool> survives
    )
    {
        ArgumentNullException.ThrowIfNull(survives);
        var step = Need.Positive(exactMm);
        var known = new Dictionary<long, bool>();
        bool Passes(long steps) =>
            known.TryGetValue(steps, out var passes) ? passes : known[steps] = survives(steps * step);
        var (least, most) = ((long)Math.Ceiling(Need.Positive(leastMm) / step), (long)Math.Floor(mostMm / step));
        var start = Math.Clamp((long)Math.Ceiling(Need.Positive(widthMm) / step), least, most);
        var (fails, passes) = (least - 1, most + 1);
        if (Passes(start))
        {
            passes = start;
        }
        else
        {
            fails = start;
        }

        // Away from the start in growing strides until both kinds of width are known.
        for (var stride = Math.Max(1, start / 8); passes > most && fails < most; stride *= 2)
        {
            var next = Math.Min(most, fails + stride);
            (fails, passes) = Passes(next) ? (fails, next) : (next, passes);
        }

        for (var stride = Math.Max(1, start / 8); fails < least && passes > least && passes <= most; stride *= 2)
        {
            var next = Math.Max(least, passes - stride);
            (fails, passes) = Passes(next) ? (fails, next) : (next, passes);
        }

        if (passes > most)
        {
            return null;
        }

        while (passes - fails > 1)
        {
            var middle = fails + ((passes - fails) / 2);
            (fails, passes) = Passes(middle) ? (fails, middle) : (middle, passes);
        }

        for (var lower = passes - 1; lower >= Math.Max(least, (long)((1 - Below) * passes)); lower--)
        {
            passes = Passes(lower) ? lower : passes;
        }

        return passes * step;
    }
}
