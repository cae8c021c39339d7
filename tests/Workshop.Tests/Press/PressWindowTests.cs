using Coldpeel.Craft.Press.Heat;
using Coldpeel.Workshop.Press;
using Coldpeel.Workshop.Wash;

namespace Coldpeel.Workshop.Tests.Press;

/// <summary>
/// Common practice, no source: what workshops press. One set of glue figures and the library's own materials must allow it; nothing is set for a case. The
/// pad is cold, as for the first item of a day, and warm, as in a press at work.
/// </summary>
public sealed class PressWindowTests
{
    [Theory]
    [InlineData("cotton-fabric", 0.6, 150, 30, 30)]
    [InlineData("cotton-fabric", 0.8, 150, 30, 30)]
    [InlineData("polyester-fabric", 0.5, 130, 20, 25)]
    [InlineData("polyester-fabric", 0.5, 140, 20, 25)]
    [InlineData("polyester-fabric", 0.5, 150, 20, 25)]
    [InlineData("wadding", 4, 130, 15, 15)]
    [InlineData("fleece", 3, 130, 15, 15)]
    [InlineData("wool-felt", 3, 150, 15, 15)]
    [InlineData("polyester-felt", 3, 130, 15, 15)]
    public void The_window_contains_what_is_usually_pressed(
        string material,
        double mm,
        int celsius,
        double from,
        double to
    )
    {
        foreach (var padC in new[] { 22, 60 })
        {
            var window = HeatWindows.Find(
                PressLayers.For(Step(StepKind.Press, celsius), Material(material, mm), 600, padC: padC)!,
                HeatSearch.Quick
            );
            Assert.True(window.ShortestS <= from, $"bonds after {window.ShortestS} s");
            Assert.True(window.LongestS is null || window.LongestS >= to, $"harms after {window.LongestS} s");
        }
    }

    // Finish, 5 to 15 s: the print holds already, the glue must get soft and nothing may be harmed.
    [Theory]
    [InlineData("cotton-fabric", 0.6, 150)]
    [InlineData("wool-felt", 3, 150)]
    [InlineData("polyester-fabric", 0.5, 140)]
    [InlineData("wadding", 4, 130)]
    public void A_finish_press_of_5_to_15_s_softens_the_glue_and_harms_nothing(string material, double mm, int celsius)
    {
        var window = Window(material, mm, celsius, StepKind.FinishPress);
        Assert.True(window.ShortestS <= 5, $"soft after {window.ShortestS} s");
        Assert.True(window.LongestS is null || window.LongestS >= 15);
    }

    // Bonding, about 120 s under several sheets of paper on a hot lower plate, is held where the demo's stack is answered (HeatAnswerTests).
    [Fact]
    public void Over_a_cold_pad_it_bonds_later_than_over_a_warm_one()
    {
        var warm = Window("cotton-fabric", 0.6, 150, StepKind.Press);
        var cold = HeatWindows.Find(
            PressLayers.For(Step(StepKind.Press, 150), Material("cotton-fabric", 0.6), 600, padC: 22)!,
            HeatSearch.Quick
        );
        Assert.True(cold.ShortestS > warm.ShortestS);
    }

    [Fact]
    public void Too_hot_a_plate_for_a_tender_fabric_is_answered_with_a_set_point_that_works()
    {
        HeatWindowAsk Tender(int celsius)
        {
            var ask = PressLayers.For(Step(StepKind.Press, celsius), Material("polyester-fabric", 0.5), 300)!;
            return ask with
            {
                Harm = ask.Harm.SetItem(PressLayers.Item, new(null, new(140, 8, 120), "its dye wanders")),
            };
        }

        var answer = PressAdvice.On(Tender(200), HeatSearch.Quick);
        Assert.Contains(" at 200 °C", answer.Say.English, StringComparison.Ordinal);
        Assert.Contains("lower to ", answer.Say.English, StringComparison.Ordinal);
        var there = HeatWindows.Find(Tender((int)answer.SetpointC!.Value), HeatSearch.Quick);
        Assert.True(there.Open && there.LongestS >= 1.3 * there.ShortestS);
    }

    [Theory]
    [InlineData(240)]
    [InlineData(300)]
    public void A_plate_hotter_than_any_dial_is_answered_with_a_set_point_that_works(int celsius)
    {
        var ask = PressLayers.For(Step(StepKind.Press, celsius), Material("polyester-fabric", 0.5), 300)!;
        ask = ask with { Harm = ask.Harm.SetItem(PressLayers.Item, new(null, new(140, 8, 120), "its dye wanders")) };
        var answer = PressAdvice.On(ask, HeatSearch.Quick);
        Assert.Contains("lower to ", answer.Say.English, StringComparison.Ordinal);
        Assert.InRange(answer.SetpointC!.Value, 105, 230);
    }

    [Theory]
    [InlineData(90)]
    [InlineData(104)]
    [InlineData(105)]
    public void Too_cold_a_plate_is_answered_with_a_hotter_one(int celsius)
    {
        // The usual glue softens at 105 °C.
        var ask = PressLayers.For(Step(StepKind.Press, celsius), Material("cotton-fabric", 0.6), 300)!;
        var answer = PressAdvice.On(ask, HeatSearch.Quick);
        Assert.False(answer.Window.Open);
        Assert.Contains("raise to ", answer.Say.English, StringComparison.Ordinal);
        Assert.True(answer.SetpointC > 105);
    }

    // 1 - 2 * 0.025: what an interval of 95 % holds, however lopsided it is.
    [Theory]
    [InlineData(0.41, 0.07, 2.42)]
    [InlineData(700, 650, 760)]
    [InlineData(1, 0.9, 1.9)]
    public void The_spread_of_a_measured_figure_holds_95_of_100_cases_within_its_interval(
        double value,
        double low,
        double high
    )
    {
        var spread = HeatTrust.Spread(value, low, high);
        var within = Enumerable
            .Range(0, 20_000)
            .Select(i => value * spread.Quantile((i + 0.5) / 20_000))
            .Count(v => v >= low && v <= high);
        Assert.Equal(0.95, within / 20_000.0, 0.002);
    }

    [Fact]
    public void Trials_that_leave_the_glue_open_do_not_calibrate_it()
    {
        Assert.Contains(
            "between 0.07 and 2.42",
            HeatTrust.Doubt(new GlueFitted(0.41, 0.07, 2.42)),
            StringComparison.Ordinal
        );
        Assert.Null(HeatTrust.Doubt(new GlueFitted(1, 0.5, 2)));
    }

    [Fact]
    public void Where_no_set_point_helps_the_cover_sheet_is_named()
    {
        var ask = PressLayers.For(Step(StepKind.Press, 150), Material("cotton-fabric", 0.6), 300)!;
        ask = ask with { Harm = ask.Harm.SetItem(PressLayers.Item, new(100, null, "it shrinks")) };
        var answer = PressAdvice.On(ask, HeatSearch.Quick);
        Assert.Null(answer.SetpointC);
        Assert.Contains("change the cover sheet", answer.Say.English, StringComparison.Ordinal);
        // Harm comes first: more heat from below would only hasten it.
        Assert.DoesNotContain("warm the pad", answer.Say.English, StringComparison.Ordinal);
    }

    private static HeatWindow Window(string material, double mm, int celsius, StepKind kind) =>
        HeatWindows.Find(PressLayers.For(Step(kind, celsius), Material(material, mm), 600)!, HeatSearch.Quick);

    private static ProcessStep Step(StepKind kind, int celsius) =>
        new(kind, "press", celsius, 30, null, null, 0, 0, "common practice, no source");

    private static Material Material(string heat, double mm) =>
        new("m", heat, "film", mm, [], new CareLimits(30, 1, 0, 0, 110, false), "test") { Heat = heat };
}
