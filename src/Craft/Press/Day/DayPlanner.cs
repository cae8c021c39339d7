using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Press.Day;

/// <summary>Plans a day at the presses.</summary>
/// <remarks>
/// Dispatch by rules gives the first plan; simulated annealing over the list of blocks betters it, two walks side by side. On small days a
/// constraint solver finds the best plan and proves it. A bound of <see cref="DayBound"/> stands beside every plan.
/// </remarks>
public static class DayPlanner
{
    /// <summary>A plan that keeps every rule of the day, the best found.</summary>
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
        Need.Positive(search.Workers);
        var model = new DayModel(problem);
        var bound = DayBound.Seconds(model);
        var quest = new DayQuest(model, search, layout => better?.Report(DaySteps.Plan(model, layout, bound, 0)), stop);
        var best = quest.Run();
        return DaySteps.Plan(model, best, quest.Bound, quest.LatenessBound) with
        {
            Tried = quest.Tried,
            ShortestOfItsLateness = quest.ProvedBoth,
        };
    }
}
