using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Press.Day;

/// <summary>Plans a day at the presses.</summary>
/// <remarks>
/// A list scheduler lays out the day by dispatch keys; a local search over those keys ("threshold accepting", Dueck and
/// Scheuer, Journal of Computational Physics 90(1), 1990) keeps the best day seen. No proof of the shortest day is sought
/// beyond the lower bound of <see cref="DayBound"/>.
/// </remarks>
public static class DayPlanner
{
    /// <summary>A plan that keeps every rule of the day, the best of <see cref="DaySearch.Trials"/> tried.</summary>
    /// <param name="problem">The day.</param>
    /// <param name="search">Seed, trials and what is sought first.</param>
    /// <param name="better">Told of every better plan as it is found.</param>
    /// <param name="stop">Ends the search early with the best plan so far; the first plan is always finished.</param>
    /// <exception cref="ArgumentException">The problem names a sheet, order, press or placement that is not there, or has no hands.</exception>
    public static DayPlan Solve(
        DayProblem problem,
        DaySearch search,
        IProgress<DayPlan>? better = null,
        CancellationToken stop = default
    )
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(search);
        Need.Positive(search.Trials);
        Need.Positive(problem.Hands);
        Need.Positive(problem.RackPlaces);
        Need.Positive(problem.HeatCPerMin);
        Need.Positive(problem.CoolCPerMin);
        var model = new DayModel(problem);
        var bound = DayBound.Seconds(model);
        var best = new DaySearchRun(model, search, bound).Run(
            layout => better?.Report(DaySteps.Plan(model, layout, bound)),
            stop
        );
        return DaySteps.Plan(model, best, bound);
    }
}
