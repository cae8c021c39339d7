using Coldpeel.Workshop.Press;

namespace Coldpeel.Workshop.Tests.Press;

public sealed class StepTimesTests
{
    // By hand: 20 22 24 26 300 has the median 24; distances 4 2 0 2 276 have the median 2; 2 × 1.4826 = 2.9652.
    [Fact]
    public void A_forgotten_watch_moves_neither_median_nor_spread()
    {
        var times = StepTimes.Of(new[] { 24, 20, 300, 22, 26 }.Select(s => new RecordedTime("peel", "Ada", s)));

        Assert.Equal([(null, 5, 24.0), ("Ada", 5, 24.0)], times.Select(t => (t.Person, t.Count, t.MedianS)));
        Assert.Equal(2.9652, times[0].SpreadS, 4);
    }

    [Fact]
    public void Persons_are_told_apart_and_few_times_are_not_planned_with()
    {
        RecordedTime[] recorded =
        [
            .. new[] { 10, 10, 12 }.Select(s => new RecordedTime("lift", "Ada", s)),
            .. new[] { 30, 34 }.Select(s => new RecordedTime("lift", "Bo", s)),
            new RecordedTime("trim", "Bo", 99),
        ];

        var times = StepTimes.Of(recorded);

        Assert.Equal(
            [
                ("trim", null, 99.0),
                ("trim", "Bo", 99.0),
                ("lift", null, 12.0),
                ("lift", "Ada", 10.0),
                ("lift", "Bo", 32.0),
            ],
            times.Select(t => (t.Step, t.Person, t.MedianS))
        );
        Assert.Equal(["lift"], StepTimes.Shares(recorded).Keys);
    }
}
