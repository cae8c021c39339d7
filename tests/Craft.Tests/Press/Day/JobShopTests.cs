using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Craft.Press.Day;

namespace Coldpeel.Craft.Tests.Press.Day;

/// <summary>Published job shops, solved through the model that plans the presses; optima as known for decades.</summary>
public sealed class JobShopTests
{
    // ft06, ft10: Fisher and Thompson in Muth and Thompson, Industrial Scheduling, 1963. la01: Lawrence 1984. car7, car8: Carlier,
    // RAIRO Recherche opérationnelle 12, 1978, as permutation flow shops (every order tried once). ft06 without waiting: 73, every start
    // offset tried once; also Mascis and Pacciarelli, EJOR 143(3), 2002 (from memory).
    [Theory]
    [InlineData("ft06", false, false, 55)]
    [InlineData("ft06", true, false, 73)]
    [InlineData("la01", false, false, 666)]
    [InlineData("la06", false, false, 926)]
    [InlineData("flowshop_car7", false, true, 6590)]
    [InlineData("flowshop_car8", false, true, 8366)]
    [InlineData("ft10", false, false, 930)]
    public void A_published_shop_is_solved_to_its_known_optimum_with_proof(
        string name,
        bool noWait,
        bool oneOrder,
        int optimum
    )
    {
        var shop = Read(name, noWait, oneOrder);

        var plan = JobShopPlanner.Solve(shop, 1, 20, TestContext.Current.CancellationToken);

        Assert.Equal(optimum, plan.MakespanS);
        Assert.Equal(optimum, plan.BoundS);
        Assert.Equal(optimum, EndByTheBook(shop, plan.Starts));
    }

    // Johnson's rule (Naval Research Logistics Quarterly 1(1), 1954): jobs (3,6) (7,2) (4,7) (5,3) (7,4) on two machines end at 28.
    [Fact]
    public void Johnsons_two_machines_end_when_his_rule_says()
    {
        int[][] times =
        [
            [3, 6],
            [7, 2],
            [4, 7],
            [5, 3],
            [7, 4],
        ];
        var shop = new JobShop([
            .. times.Select(t => ImmutableArray.Create(new JobTask(0, t[0]), new JobTask(1, t[1]))),
        ]);

        var plan = JobShopPlanner.Solve(shop, 1, 1, TestContext.Current.CancellationToken);

        Assert.Equal((28, 28), (plan.MakespanS, plan.BoundS));
    }

    [Fact]
    public void The_same_seed_and_effort_give_the_same_starts()
    {
        var shop = Read("la01", false, false);

        var once = JobShopPlanner.Solve(shop, 5, 5, TestContext.Current.CancellationToken);
        var again = JobShopPlanner.Solve(shop, 5, 5, TestContext.Current.CancellationToken);

        Assert.Equal(once.Starts.SelectMany(s => s), again.Starts.SelectMany(s => s));
    }

    // The rules of a job shop, read once more: tasks in order, a machine does one at a time, without waiting where asked.
    private static int EndByTheBook(JobShop shop, ImmutableArray<ImmutableArray<int>> starts)
    {
        var spans = new List<(int Machine, int From, int To)>();
        for (var j = 0; j < shop.Jobs.Length; j++)
        {
            for (var t = 0; t < shop.Jobs[j].Length; t++)
            {
                var (machine, seconds) = shop.Jobs[j][t];
                spans.Add((machine, starts[j][t], starts[j][t] + seconds));
                if (t > 0)
                {
                    var ready = starts[j][t - 1] + shop.Jobs[j][t - 1].Seconds;
                    Assert.True(shop.NoWait ? starts[j][t] == ready : starts[j][t] >= ready);
                }
            }
        }

        foreach (var machine in spans.GroupBy(s => s.Machine))
        {
            var inOrder = machine.OrderBy(s => s.From).ThenBy(s => s.To).ToList();
            Assert.All(inOrder.Zip(inOrder.Skip(1)), pair => Assert.True(pair.First.To <= pair.Second.From));
        }

        return spans.Max(s => s.To);
    }

    private static JobShop Read(string name, bool noWait, bool oneOrder)
    {
        var path = SharedData.Find("jobshop", name + ".txt");
        Assert.SkipWhen(path is null, $"../shared/data/jobshop/{name}.txt is not on this machine");
        var rows = File.ReadLines(path!)
            .Where(l => l.Length > 0 && l[0] != '#')
            .Select(l =>
                l.Split(' ', StringSplitOptions.RemoveEmptyEntries)
                    .Select(x => int.Parse(x, CultureInfo.InvariantCulture))
                    .ToArray()
            )
            .Where(r => r.Length > 0)
            .Skip(1);
        return new(
            [.. rows.Select(r => r.Chunk(2).Select(t => new JobTask(t[0], t[1])).ToImmutableArray())],
            noWait,
            oneOrder
        );
    }
}
