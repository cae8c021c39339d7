using Coldpeel.Craft.Press.Heat;

namespace Coldpeel.Workshop.Press;

/// <summary>How far an answer may be off for the steps in time and space.</summary>
/// <param name="Kelvin">The glue line at the same moment of the same stage, K.</param>
/// <param name="Seconds">The ends of the stages, and when the asked temperature is reached, s; zero where all stages have a length of their own and nothing is asked.</param>
public sealed record StatedError(double Kelvin, double Seconds)
{
    /// <summary>
    /// Compares an answer with a coarser one, of half as many cells and eight times the error of a step. What they are apart is told whole: of two grids of
    /// second order the finer one is off by a third of that, and three is the factor of safety for two grids (Roache, J. Fluids Eng. 116, 1994, from memory).
    /// </summary>
    /// <param name="problem">The stack.</param>
    /// <param name="answer">What it felt.</param>
    /// <param name="fine">How finely that was found.</param>
    /// <param name="stop">Cancels.</param>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static StatedError Of(
        HeatProblem problem,
        HeatAnswer answer,
        HeatSearch fine,
        CancellationToken stop = default
    )
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(fine);
        var coarse = HeatSolver.Solve(
            problem with
            {
                ProfileS = [],
            },
            fine with
            {
                CellsPerLayer = fine.CellsPerLayer / 2,
                Fineness = fine.Fineness / 2,
                StepErrorK = 8 * fine.StepErrorK,
            },
            stop
        );
        var (kelvin, seconds) = (0.0, 0.0);
        foreach (var (run, other) in answer.Stages.Zip(coarse.Stages))
        {
            // A stage that waits for the glue line ends at another time there; what came after it is as old, not as late.
            foreach (var t in Moments(answer.GlueLine, run).Where(t => t - run.StartS <= other.EndS - other.StartS))
            {
                var apart = Math.Abs(answer.GlueLine.At(t) - coarse.GlueLine.At(other.StartS + t - run.StartS));
                kelvin = double.IsFinite(apart) ? Math.Max(kelvin, apart) : kelvin;
            }

            seconds = Math.Max(seconds, Math.Abs(run.EndS - other.EndS));
        }

        return new(
            kelvin,
            answer.ReachedS is { } reached && coarse.ReachedS is { } there
                ? Math.Max(seconds, Math.Abs(reached - there))
                : seconds
        );
    }

    // Every step that was taken; right after something is laid in the jump itself is what differs: from a twentieth of a second on, or a tenth of a short stage, the figure holds.
    private static IEnumerable<double> Moments(HeatTrace trace, HeatStageRun run)
    {
        var from = run.StartS + Math.Min(0.05, 0.1 * (run.EndS - run.StartS));
        return Enumerable.Range(0, trace.Points).Select(trace.TimeS).Where(t => t >= from && t <= run.EndS);
    }
}
