using System.Collections.Immutable;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Press.Heat;

namespace Coldpeel.Craft.Tests.Press.Heat;

public sealed class GlueFitTests
{
    [Fact]
    public void Trials_that_part_cleanly_put_the_speed_between_the_two()
    {
        var fitted = GlueFit.Speed([new(0.5, false), new(1, false), new(2, true), new(4, true)])!;
        // Held from a dose of 2 on and not at 1: one lies between, so the factor lies between a half and one; by symmetry of the four at 1 / √2.
        Assert.Equal(1 / Math.Sqrt(2), fitted.Speed, 1e-6);
        Assert.InRange(fitted.Speed, fitted.Low, fitted.High);
    }

    [Fact]
    public void Trials_of_one_kind_say_nothing()
    {
        Assert.Null(GlueFit.Speed([]));
        Assert.Null(GlueFit.Speed([new(1, true), new(2, true)]));
        Assert.Null(GlueFit.Speed([new(1, false)]));
    }

    // Trials made up with the law itself (logistic in the logarithm of the dose) at a known speed: Wilks's interval covers in about 95 %.
    [Fact]
    public void Of_500_made_up_series_of_20_trials_the_interval_covers_the_truth_in_92_to_98_percent()
    {
        var rng = new Rng(7);
        var covered = 0;
        var counted = 0;
        for (var series = 0; series < 500; series++)
        {
            ImmutableArray<GlueTrial> trials =
            [
                .. Enumerable
                    .Range(0, 20)
                    .Select(_ =>
                    {
                        var dose = Math.Exp(rng.Between(-1.5, 1.5)) / 1.7;
                        var holds = 1 / (1 + Math.Pow(1.7 * dose, -1 / 0.3));
                        return new GlueTrial(dose, rng.Unit() < holds);
                    }),
            ];
            if (GlueFit.Speed(trials) is { } fitted)
            {
                counted++;
                covered += fitted.Low <= 1.7 && fitted.High >= 1.7 ? 1 : 0;
            }
        }

        Assert.True(counted > 490);
        Assert.InRange((double)covered / counted, 0.92, 0.98);
    }

    [Fact]
    public void A_glue_twice_as_fast_bonds_with_twice_the_dose()
    {
        var glue = new GlueLaw(105, new(130, 2.5, 80), 300, 150, 60, 3e-12, 0.7, 0.04);
        var faster = GlueFit.Faster(glue, 2);
        Assert.Equal(2 * glue.HealsPerSecond(120), faster.HealsPerSecond(120), 1e-12);
        Assert.Equal(2 * glue.EntersPerSecond(120, 30), faster.EntersPerSecond(120, 30), 1e-12);
    }
}
