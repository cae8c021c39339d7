using System.Collections.Immutable;

namespace Coldpeel.Craft.Press.Heat;

/// <summary>Transient conduction through a stack of layers under a press.</summary>
/// <remarks>
/// Finite volumes in space, TR-BDF2 in time (see <see cref="HeatStepper"/>): second order in both, stable for every step. Thickness and
/// properties of a layer are constants; the heat that dries a damp fabric is not counted. An answer for equal input is equal on every machine
/// up to the last digits of floating point.
/// </remarks>
public static class HeatSolver
{
    // A stage that waits for the glue line ends between two steps: this short, the end is known to a twentieth of a second.
    private const double WaitingStepS = 0.05;

    /// <summary>Follows the stack through all stages.</summary>
    /// <param name="problem">A stack whose names are unique and found; checked by whoever read it.</param>
    /// <param name="search">How finely.</param>
    /// <param name="stop">Cancels: nothing is answered then.</param>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static HeatAnswer Solve(HeatProblem problem, HeatSearch search, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(search);
        var stack = problem
            .Layers.Select(l => new Slice(l, Enumerable.Repeat(l.Start.InCelsius, search.CellsPerLayer).ToArray()))
            .ToList();
        var record = new HeatRecord(problem);
        var balance = new double[4]; // in above, in below, laid in, taken out
        var held = stack.Sum(s => s.Heat);
        var before = held;
        var moved = 0.0;
        var runs = ImmutableArray.CreateBuilder<HeatStageRun>();
        var (time, steps) = (0.0, 0);
        double? cool = null;
        foreach (var stage in problem.Stages)
        {
            foreach (var name in stage.Remove)
            {
                var gone = stack.Single(s => s.Layer.Name == name);
                balance[3] += gone.Heat;
                stack.Remove(gone);
            }

            foreach (var added in stage.Add)
            {
                var slice = new Slice(
                    added.Layer,
                    Enumerable.Repeat(added.Layer.Start.InCelsius, search.CellsPerLayer).ToArray()
                );
                balance[2] += slice.Heat;
                stack.Insert(added.Below is null ? 0 : stack.FindIndex(s => s.Layer.Name == added.Below) + 1, slice);
            }

            var grid = new HeatGrid([.. stack.Select(s => s.Layer)], problem.Contacts, stage, search.CellsPerLayer);
            var stepper = new HeatStepper(grid, [.. stack.SelectMany(s => s.Celsius)], search.StepErrorK);
            record.Enter(grid, stepper.Celsius, time);
            var (started, passed) = (time, stage.UntilGlueLine is null);
            var end = started + Math.Min(stage.Seconds, search.LongestStageS);
            var from = record.GlueLine;
            while (time < end - 1e-9 && !(passed && stage.UntilGlueLine is not null))
            {
                stop.ThrowIfCancellationRequested();
                var taken = stepper.Take(
                    Math.Min(
                        stage.UntilGlueLine is null ? end - time : Math.Min(end - time, WaitingStepS),
                        record.UntilNext(time)
                    )
                );
                passed =
                    record.Follow(grid, stepper.Celsius, ref time, taken, stage.UntilGlueLine?.InCelsius, from)
                    || stage.UntilGlueLine is null;
            }

            if (stage.UntilGlueLine is { } until && from > until.InCelsius)
            {
                cool = time - started;
            }

            balance[0] += stepper.InUpper;
            balance[1] += stepper.InLower;
            moved += Math.Abs(stepper.InUpper) + Math.Abs(stepper.InLower);
            steps += stepper.Steps;
            runs.Add(new(stage.Name, started, time, passed));
            for (var i = 0; i < stack.Count; i++)
            {
                stack[i] = stack[i] with { Celsius = stepper.Celsius[grid.CellsOf(i)] };
            }
        }

        record.Last(time);
        held = stack.Sum(s => s.Heat);
        var stored = held - before;
        var wrong = stored - (balance[0] + balance[1] + balance[2] - balance[3]);
        return record.Answer(
            runs.ToImmutable(),
            cool,
            new(balance[0], balance[1], balance[2], balance[3], stored, moved > 0 ? 100 * Math.Abs(wrong) / moved : 0),
            steps
        );
    }

    /// <summary>A layer with the temperatures of its cells.</summary>
    private sealed record Slice(HeatLayer Layer, double[] Celsius)
    {
        /// <summary>Heat held above 0 °C, J/m².</summary>
        public double Heat =>
            Layer.DensityKgM3 * Layer.HeatJkgK * Layer.Thickness.InMillimetres / 1000 * Celsius.Average();
    }
}
