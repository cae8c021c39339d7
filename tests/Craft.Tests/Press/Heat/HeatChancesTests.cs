using System.Collections.Immutable;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Press.Heat;

namespace Coldpeel.Craft.Tests.Press.Heat;

public sealed class HeatChancesTests
{
    private static readonly HeatSpread Sure = new(1, 1);

    [Fact]
    public void Every_strip_of_every_figure_is_drawn_from_once()
    {
        var cube = HeatChances.Cube(200, 7, new Rng(5));
        for (var f = 0; f < 7; f++)
        {
            Assert.Equal(Enumerable.Range(0, 200), cube.Select(row => (int)(row[f] * 200)).Order());
        }
    }

    // Triangular distribution: mean (a + b + c) / 3, variance (a² + b² + c² - ab - ac - bc) / 18 (NIST Dataplot reference, from memory); here of the logarithms.
    [Fact]
    public void The_spread_of_a_figure_has_the_mean_and_variance_of_its_triangle()
    {
        var spread = new HeatSpread(0.7, 1.6);
        var (a, b, c) = (Math.Log(0.7), Math.Log(1.6), 0.0);
        double[] values = [.. Enumerable.Range(0, 100_000).Select(i => Math.Log(spread.Quantile((i + 0.5) / 100_000)))];
        Assert.Equal((a + b + c) / 3, values.Average(), 1e-6);
        var mean = values.Average();
        Assert.Equal(
            ((a * a) + (b * b) + (c * c) - (a * b) - (a * c) - (b * c)) / 18,
            values.Average(v => (v - mean) * (v - mean)),
            1e-5
        );
    }

    // As many cases are slower as faster where a figure may be half or twice as much.
    [Fact]
    public void Half_and_twice_as_much_are_as_likely() => Assert.Equal(1, new HeatSpread(0.5, 2).Quantile(0.5), 1e-12);

    [Fact]
    public void What_is_known_exactly_gives_the_window_itself_and_no_chance_between()
    {
        var ask = HeatDoseTests.Ask(150);
        var window = HeatWindows.Find(ask, HeatSearch.Quick);
        var chances = HeatChances.Draw(ask, new([], Sure, 0, Sure, Sure, Sure), 20, 1);
        Assert.Equal(0, chances.At(window.ShortestS!.Value - 0.01).Bonds);
        Assert.Equal(1, chances.At(window.ShortestS.Value + 0.01).Bonds);
        Assert.Equal(0, chances.At(window.LongestS!.Value - 0.1).Harms);
        Assert.Equal(1, chances.At(window.LongestS.Value + 0.1).Harms);
    }

    // The spread of bonding speed alone: twice the speed of a dose under a steady temperature halves the time. In a stack that stands at the plate's
    // temperature from the start, the time is exactly the healing time over the drawn speed, so its share follows the triangle.
    [Fact]
    public void In_a_stack_that_is_hot_from_the_start_the_chance_is_the_triangles_own()
    {
        var ask = HeatDoseTests.Ask(130);
        ask = ask with
        {
            Problem = ask.Problem with
            {
                Layers = [.. ask.Problem.Layers.Select(l => l with { Start = Stacks.C(130) })],
            },
            LongestS = 60,
        };
        var spread = new HeatSpread(0.5, 2);
        var chances = HeatChances.Draw(ask, new([], Sure, 0, spread, Sure, Sure), 400, 7);
        var steady = HeatWindows.Find(ask, HeatSearch.Quick).ShortestS!.Value;
        foreach (var share in new[] { 0.1, 0.5, 0.9 })
        {
            // Bonded by a time in the share of cases whose speed is above steady / time.
            Assert.Equal(share, chances.At(steady / spread.Quantile(1 - share)).Bonds, 0.01);
        }
    }

    [Fact]
    public void The_same_seed_gives_the_same_chances_and_a_longer_time_never_less()
    {
        var ask = HeatDoseTests.Ask(160);
        var layers = ask.Problem.Layers.ToImmutableDictionary(
            l => l.Name,
            _ => new HeatLayerSpread(new(0.8, 1.3), new(0.8, 1.2), new(0.9, 1.1), new(0.95, 1.05))
        );
        var spreads = new HeatSpreads(layers, new(0.5, 2), 5, new(0.5, 2), new(0.5, 2), new(0.7, 1.3));
        var (one, two) = (HeatChances.Draw(ask, spreads, 60, 3), HeatChances.Draw(ask, spreads, 60, 3));
        double[] times = [.. Enumerable.Range(0, 60).Select(i => i * 1.0)];
        Assert.Equal(times.Select(one.At), times.Select(two.At));
        Assert.All(
            times.Zip(times.Skip(1)),
            t =>
                Assert.True(
                    one.At(t.Second).Bonds >= one.At(t.First).Bonds && one.At(t.Second).Harms >= one.At(t.First).Harms
                )
        );
        Assert.True(one.ShortestS(0.95) > one.ShortestS(0.5));
    }
}
