using Coldpeel.Craft.Press.Heat;

namespace Coldpeel.Workshop.Press;

/// <summary>How far an answer may be off for the steps in time and space.</summary>
/// <param name="Kelvin">The glue line at the same moment of the same stage, K.</param>
/// <param name="Seconds">The ends of the stages, and when the asked temperature is reached, s; zero where all stages have a length of their own and nothing is asked.</param>
public sealed record StatedError(double Kelvin, double Seconds)
{
    /// <summary>Compares an answer with a coarser one: half the cells and eight times the error of a step differ from this one by three times this one's error, as the order is two.</summary>
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
                StepErrorK = 8 * fine.StepErrorK,
            },
            stop
        );
        var (kelvin, seconds) = (0.0, 0.0);
        foreach (var (run, other) in answer.Stages.Zip(coarse.Stages))
        {
            // A stage that waits for the glue line ends at another time there; what came after it is as old, not as late.
            foreach (var t in answer.TimesS.Where(t => Settled(t, run) && t - run.StartS <= other.EndS - other.StartS))
            {
                var apart = Math.Abs(answer.GlueLine.At(t) - coarse.GlueLine.At(other.StartS + t - run.StartS)) / 3;
                kelvin = double.IsFinite(apart) ? Math.Max(kelvin, apart) : kelvin;
            }

            seconds = Math.Max(seconds, Math.Abs(run.EndS - other.EndS) / 3);
        }

        return new(
            kelvin,
            answer.ReachedS is { } reached && coarse.ReachedS is { } there
                ? Math.Max(seconds, Math.Abs(reached - there) / 3)
                : seconds
        );
    }

    // Right after something is laid in the jump itself is what differs; from half a second on the figure holds.
    private static bool Settled(double t, HeatStageRun run) => t >= run.StartS + 0.5 && t <= run.EndS;
}
