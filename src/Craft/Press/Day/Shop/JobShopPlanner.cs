using System.Collections.Immutable;
using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Press.Day;

/// <summary>What was found for a job shop.</summary>
/// <param name="MakespanS">The end of the last task, or null when no plan was found in time.</param>
/// <param name="BoundS">No plan ends sooner.</param>
/// <param name="Starts">The start of each task of each job.</param>
/// <param name="Branches">Decisions the solver took.</param>
public sealed record JobShopPlan(int? MakespanS, int BoundS, ImmutableArray<ImmutableArray<int>> Starts, long Branches);

/// <summary>Solves job shops of the textbooks through the very model that plans the presses, so that their known optima check it.</summary>
public static class JobShopPlanner
{
    /// <summary>The shortest plan found, and a bound.</summary>
    /// <param name="shop">The job shop.</param>
    /// <param name="seed">The same seed and effort give the same plan.</param>
    /// <param name="effort">The constraint solver's own measure of work.</param>
    /// <param name="stop">Ends the search early.</param>
    public static JobShopPlan Solve(JobShop shop, ulong seed, double effort, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(shop);
        Need.Positive(effort);
        var answer = ShopProof.Solve(shop.Model(), DayObjective.Makespan, null, 0, new(seed, effort), stop);
        var starts = ImmutableArray.CreateBuilder<ImmutableArray<int>>();
        var at = 0;
        foreach (var job in shop.Jobs)
        {
            starts.Add([.. answer.Layout?.Start.Skip(at).Take(job.Length) ?? []]);
            at += job.Length;
        }

        return new(answer.Layout?.MakespanS, (int)answer.Bound, starts.ToImmutable(), answer.Branches);
    }
}
