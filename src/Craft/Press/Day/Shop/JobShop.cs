using System.Collections.Immutable;

namespace Coldpeel.Craft.Press.Day;

/// <summary>One task of a job: on this machine, for so many seconds.</summary>
public readonly record struct JobTask(int Machine, int Seconds);

/// <summary>A job shop of the textbooks: each job passes its machines in its own order.</summary>
/// <param name="Jobs">The tasks of each job, in order.</param>
/// <param name="NoWait">Whether a job that has begun never pauses.</param>
/// <param name="OneOrder">Whether all machines take the jobs in one and the same order (a permutation flow shop).</param>
public sealed record JobShop(ImmutableArray<ImmutableArray<JobTask>> Jobs, bool NoWait = false, bool OneOrder = false)
{
    /// <summary>The same as a shop: a machine is a press that is always hot, a task a run on it that needs no hand.</summary>
    internal ShopModel Model()
    {
        var blocks = new List<Block>();
        var links = new List<ShopLink>();
        var rows = new List<int[]>();
        foreach (var job in Jobs)
        {
            var row = new int[job.Length];
            for (var t = 0; t < job.Length; t++)
            {
                row[t] = blocks.Count;
                blocks.Add(new(BlockKind.Place, rows.Count, 0, job[t].Seconds, 0, 0, [job[t].Machine], 0));
                if (t > 0)
                {
                    links.Add(new(row[t - 1], row[t], 0, NoWait));
                }
            }

            rows.Add(row);
        }

        return new ShopModel
        {
            Now = 0,
            Blocks = [.. blocks],
            Links = [.. links],
            Machines = new ShopMachine[Jobs.SelectMany(j => j).Max(t => t.Machine) + 1],
            SetUp = (_, _) => 0,
            FixedStart = [.. Enumerable.Repeat(-1, blocks.Count)],
            FixedMachine = [.. Enumerable.Repeat(-1, blocks.Count)],
            SameOrder = OneOrder ? [.. rows] : [],
        };
    }
}
