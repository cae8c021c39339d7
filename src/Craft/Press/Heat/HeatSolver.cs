using System.Collections.Immutable;

namespace Coldpeel.Craft.Press.Heat;

/// <summary>Transient conduction through a stack of layers under a press.</summary>
/// <remarks>
/// Finite volumes in space, TR-BDF2 in time (see <see cref="HeatStepper"/>): second order in both, stable for every step. Properties may change
/// with temperature, layers may dry, thin and touch better under pressure, faces may radiate. An answer for equal input is equal on every machine
/// up to the last digits of floating point.
/// </remarks>
public static class HeatSolver
{
    /// <summary>Follows the stack through all stages.</summary>
    /// <param name="problem">A stack whose names are unique and found; checked by whoever read it.</param>
    /// <param name="search">How finely.</param>
    /// <param name="stop">Cancels: nothing is answered then.</param>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static HeatAnswer Solve(HeatProblem problem, HeatSearch search, CancellationToken stop = default) =>
        Solve(problem, search, null, stop);

    /// <summary>The same with a heat source for the check by a made solution.</summary>
    internal static HeatAnswer Solve(
        HeatProblem problem,
        HeatSearch search,
        Action<double, double[]>? source,
        CancellationToken stop
    )
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(search);
        string[] names = [.. problem.EveryLayer.Select(l => l.Name)];
        var run = new Run(problem, search, names, source);
        foreach (var stage in problem.Stages)
        {
            run.Through(stage, stop);
        }

        return run.Answer();
    }

    /// <summary>One following, from the first stage to the last.</summary>
    private sealed class Run
    {
        private readonly HeatProblem _problem;
        private readonly HeatSearch _search;
        private readonly string[] _names;
        private readonly Action<double, double[]>? _source;
        private readonly List<HeatSlice> _stack = [];
        private readonly List<HeatSlice> _gone = [];
        private readonly HeatRecord _record;
        private readonly ImmutableArray<HeatStageRun>.Builder _runs = ImmutableArray.CreateBuilder<HeatStageRun>();
        private readonly double _heldBefore;
        private double _dried;
        private double _inUpper;
        private double _inLower;
        private double _laidIn;
        private double _takenOut;
        private double _moved;
        private double _time;
        private double? _cool;
        private int _steps;
        private int _profile;

        public Run(HeatProblem problem, HeatSearch search, string[] names, Action<double, double[]>? source)
        {
            (_problem, _search, _names, _source) = (problem, search, names, source);
            _stack.AddRange(problem.Layers.Select(New));
            _record = new(problem, names);
            _heldBefore = _stack.Sum(s => s.Heat());
        }

        public void Through(HeatStage stage, CancellationToken stop)
        {
            Lay(stage);
            var grid = new HeatGrid(_stack, _problem.Contacts, stage) { Source = _source };
            var stepper = new HeatStepper(grid, _search, _time);
            _record.Enter(grid, stepper);
            Profiles(grid, stepper, _time);
            var end = _time + Math.Min(stage.Seconds, _search.LongestStageS);
            var until = stage.UntilGlueLine?.InCelsius;
            var from = _record.GlueLine;
            var there = until is { } wanted && Already(stage, from, wanted);
            var passed = until is null || there;
            while (stepper.Time < end - 1e-9 && !(passed && until is not null))
            {
                stop.ThrowIfCancellationRequested();
                passed = Step(grid, stepper, end, until, from) || until is null;
            }

            Leave(stage, grid, stepper, passed, until is { } u && from > u != there);
        }

        public HeatAnswer Answer()
        {
            var stored = _stack.Sum(s => s.Heat()) - _heldBefore;
            var dried = _stack.Concat(_gone).Sum(s => s.Latent()) - _dried;
            var wrong = stored + dried - (_inUpper + _inLower + _laidIn - _takenOut);
            return _record.Answer(
                _runs.ToImmutable(),
                _cool,
                new(_inUpper, _inLower, _laidIn, _takenOut, stored, _moved > 0 ? 100 * Math.Abs(wrong) / _moved : 0)
                {
                    DriedJm2 = dried,
                },
                _steps
            );
        }

        // Whether the glue line is past the temperature already: it and all that is in and round the stack lie on one side, and a face that is not insulated draws it further that way.
        private bool Already(HeatStage stage, double from, double wanted)
        {
            double[] round = [.. stage.Upper.CausesC, .. stage.Lower.CausesC];
            double[] causes = [.. _stack.SelectMany(s => s.Celsius), .. round, from];
            return round.Length > 0
                && double.IsFinite(from)
                && (Array.TrueForAll(causes, c => c <= wanted) || Array.TrueForAll(causes, c => c >= wanted));
        }

        // One step, cut where the glue line passes the temperature that the stage waits for.
        private bool Step(HeatGrid grid, HeatStepper stepper, double end, double? until, double from)
        {
            var due = _profile < _problem.ProfileS.Length ? _problem.ProfileS[_profile] : double.PositiveInfinity;
            var taken = stepper.Take(Math.Min(end, due > stepper.Time ? due : end) - stepper.Time, until is not null);
            _record.Follow(grid, stepper);
            var share = until is { } target ? _record.Passed(target, from) : null;
            if (share is > 0 and < 1 && share * taken > 1e-6)
            {
                _record.Back();
                stepper.Back();
                _ = stepper.Take(share.Value * taken);
                _record.Follow(grid, stepper);
            }

            Profiles(grid, stepper, stepper.Time);
            return share is not null;
        }

        private void Leave(HeatStage stage, HeatGrid grid, HeatStepper stepper, bool passed, bool cooling)
        {
            _cool = cooling ? (passed ? stepper.Time - _time : null) : _cool;
            _runs.Add(new(stage.Name, _time, stepper.Time, passed));
            _time = stepper.Time;
            _inUpper += stepper.InUpper;
            _inLower += stepper.InLower;
            // Heat that only goes from layer to layer has moved too.
            _moved += Math.Max(stepper.Passed, grid.Exchanged(stepper.Celsius));
            _steps += stepper.Steps;
            for (var i = 0; i < _stack.Count; i++)
            {
                stepper.Celsius[grid.CellsOf(i)].CopyTo(_stack[i].Celsius, 0);
                grid.Dried[grid.CellsOf(i)].CopyTo(_stack[i].Dried, 0);
            }
        }

        private void Lay(HeatStage stage)
        {
            foreach (var name in stage.Remove)
            {
                var gone = _stack.Single(s => s.Layer.Name == name);
                _takenOut += gone.Heat();
                _gone.Add(gone);
                _stack.Remove(gone);
            }

            foreach (var added in stage.Add)
            {
                var slice = New(added.Layer);
                _laidIn += slice.Heat();
                _stack.Insert(added.Below is null ? 0 : _stack.FindIndex(s => s.Layer.Name == added.Below) + 1, slice);
            }
        }

        private void Profiles(HeatGrid grid, HeatStepper stepper, double time)
        {
            while (_profile < _problem.ProfileS.Length && _problem.ProfileS[_profile] <= time + 1e-9)
            {
                _record.Profile(grid, stepper);
                _profile++;
            }
        }

        private HeatSlice New(HeatLayer layer)
        {
            var slice = new HeatSlice(layer, Array.IndexOf(_names, layer.Name), _search);
            _dried += slice.Latent();
            return slice;
        }
    }
}
