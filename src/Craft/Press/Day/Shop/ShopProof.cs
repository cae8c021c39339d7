using Google.OrTools.Sat;

namespace Coldpeel.Craft.Press.Day;

/// <summary>How far a proof goes: all counts, so that a run can be repeated.</summary>
/// <param name="Seed">Seed of the solver.</param>
/// <param name="Effort">The solver's own measure of work done ("deterministic time"); about a second of processor each.</param>
/// <param name="Workers">1 gives the same answer every time; more may prove sooner and are not repeatable.</param>
internal sealed record ProofLimits(ulong Seed, double Effort, int Workers = 1);

/// <summary>What the constraint solver found.</summary>
/// <param name="Layout">The best plan, or null when it found none.</param>
/// <param name="Value">What was least sought, of that plan: the end of the day or the weighted lateness, in seconds.</param>
/// <param name="Bound">No plan has less.</param>
/// <param name="Branches">Decisions taken, as the solver counts them.</param>
/// <param name="Impossible">No plan keeps all that was asked.</param>
internal sealed record ProofAnswer(DayLayout? Layout, long Value, long Bound, long Branches, bool Impossible = false)
{
    public bool Proved => Layout is not null && Bound >= Value;
}

/// <summary>A shop solved by constraint programming: the best plan with proof, or the best found and a bound.</summary>
internal static class ShopProof
{
    /// <summary>The best plan by end of the day (counted from second 0), or by weighted lateness and after it by end of the day.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="goal">What is least.</param>
    /// <param name="known">A plan that is known, as a start; it is not part of the answer.</param>
    /// <param name="floor">A value below which no plan lies.</param>
    /// <param name="limits">How far to go.</param>
    /// <param name="stop">Ends early with the best so far.</param>
    public static ProofAnswer Solve(
        ShopModel shop,
        DayObjective goal,
        DayLayout? known,
        long floor,
        ProofLimits limits,
        CancellationToken stop
    )
    {
        // A later end than the known one is never wanted where the end is what counts.
        var horizon =
            goal == DayObjective.Makespan && known is not null ? ShopProgram.End(shop, known) : shop.Horizon();
        var program = new ShopProgram(shop, horizon);
        var sought = goal == DayObjective.Makespan ? program.Ends(floor) : program.Lateness(floor);
        program.Cp.Minimize(sought);
        return Run(program, known, limits, stop);
    }

    /// <summary>The shortest plan among those that are no later, in weighted seconds, than <paramref name="lateness"/>.</summary>
    public static ProofAnswer Shortest(
        ShopModel shop,
        long lateness,
        DayLayout? known,
        long floor,
        ProofLimits limits,
        CancellationToken stop
    )
    {
        var horizon = known is not null ? ShopProgram.End(shop, known) : shop.Horizon();
        var program = new ShopProgram(shop, horizon);
        program.Cp.Add(program.Lateness(0) <= lateness);
        program.Cp.Minimize(program.Ends(floor));
        return Run(program, known, limits, stop);
    }

    /// <summary>The plan whose pinned blocks begin soonest after their seconds, summed.</summary>
    public static ProofAnswer Nearest(ShopModel shop, ProofLimits limits, CancellationToken stop)
    {
        var program = new ShopProgram(shop with { OffMost = long.MaxValue }, shop.Horizon());
        program.Cp.Minimize(program.Off());
        return Run(program, null, limits, stop);
    }

    private static ProofAnswer Run(ShopProgram program, DayLayout? known, ProofLimits limits, CancellationToken stop)
    {
        if (known is not null)
        {
            program.Hint(known);
        }

        using var solver = new CpSolver();
        solver.StringParameters = FormattableString.Invariant(
            $"linearization_level:0 num_workers:{limits.Workers} random_seed:{limits.Seed % int.MaxValue} max_deterministic_time:{limits.Effort}"
        );
        var stopped = new StopOnDemand(stop);
        using var asked = stop.Register(solver.StopSearch);
        var status = stop.IsCancellationRequested ? CpSolverStatus.Unknown : solver.Solve(program.Cp, stopped);
        if (status is not (CpSolverStatus.Optimal or CpSolverStatus.Feasible))
        {
            // What had begun may itself break a break: then there is no such plan for the solver, and nothing is proved.
            var least =
                status == CpSolverStatus.Infeasible ? 0
                : status == CpSolverStatus.Unknown && stop.IsCancellationRequested ? 0
                : solver.BestObjectiveBound;
            return new(null, long.MaxValue, Whole(least), 0, status == CpSolverStatus.Infeasible);
        }

        return new(
            program.Read(solver),
            (long)Math.Round(solver.ObjectiveValue),
            Whole(solver.BestObjectiveBound),
            solver.NumBranches()
        );
    }

    private static long Whole(double bound) => double.IsFinite(bound) ? (long)Math.Ceiling(bound - 1e-6) : 0;

    /// <summary>Asks at every better plan whether to go on: a stop that came before the search had begun would else be lost.</summary>
    private sealed class StopOnDemand(CancellationToken stop) : CpSolverSolutionCallback
    {
        public override void OnSolutionCallback()
        {
            if (stop.IsCancellationRequested)
            {
                StopSearch();
            }
        }
    }
}
