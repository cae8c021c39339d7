using Coldpeel.Craft.Press.Heat;

namespace Coldpeel.Workshop.Press;

/// <summary>How long it stays hot enough to peel, from the moment the stage begins.</summary>
/// <param name="GlueLineS">The glue line, s.</param>
/// <param name="Under">The lowest layer, which lies on the lower plate or is its pad; null when the glue lies on nothing.</param>
/// <param name="UnderS">The upper face of that layer, s: what keeps the glue line hot while nothing lies on it.</param>
public sealed record HotPeelAnswer(double GlueLineS, string? Under, double? UnderS)
{
    /// <summary>Reads it off an answer.</summary>
    /// <param name="problem">The stack.</param>
    /// <param name="answer">What it felt.</param>
    /// <param name="peel">What is asked.</param>
    public static HotPeelAnswer Of(HeatProblem problem, HeatAnswer answer, HotPeelWish peel)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(peel);
        var lying = problem.LyingIn(peel.Stage);
        var under = lying[^1] == problem.GlueLineBelow ? null : lying[^1];
        var run = answer.Stages[peel.Stage];
        return new(
            Above(answer.GlueLine, run, peel.AboveC),
            under,
            under is null ? null : Above(answer.Faces[under].Upper, run, peel.AboveC)
        );
    }

    private static double Above(HeatTrace trace, HeatStageRun run, double celsius)
    {
        for (var i = 1; i < trace.Points; i++)
        {
            if (trace.TimeS(i) <= run.StartS || trace.TimeS(i) > run.EndS + 1e-9 || !trace.Joined(i))
            {
                continue;
            }

            if (trace.Celsius(i) < celsius)
            {
                var before = trace.TimeS(i - 1);
                return trace.Crossing(i, celsius) is { } share
                    ? before + (share * (trace.TimeS(i) - before)) - run.StartS
                    : Math.Max(0, before - run.StartS);
            }
        }

        return run.EndS - run.StartS;
    }
}
