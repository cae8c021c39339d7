using Coldpeel.Craft.Press.Day;
using Coldpeel.Files.Press;
using CsCheck;

namespace Coldpeel.Files.Tests.Press;

public sealed class DayRoundsTests
{
    [Fact]
    public void Rounds_of_equal_work_are_found_between_work_that_does_not_repeat()
    {
        var parts = DayRounds.Split(Steps("bblpilpilpilpxx"), s => s.Op);

        // b b | l p i, four times less the last i: three whole rounds | l p x x.
        Assert.Equal([(0, 2), (3, 9), (0, 4)], parts.Select(p => (p.Period, p.Steps.Count)));
    }

    [Fact]
    public void Equal_steps_in_a_row_are_a_run_and_no_round()
    {
        var part = Assert.Single(DayRounds.Split(Steps("ttttttttt"), s => s.Op));

        Assert.Equal(0, part.Period);
    }

    [Fact]
    public void No_step_is_lost_doubled_or_moved() =>
        Gen.String[Gen.Char["lpi"], 0, 40]
            .Sample(
                work =>
                {
                    var steps = Steps(work);
                    var parts = DayRounds.Split(steps, s => s.Op);
                    Assert.Equal(steps, parts.SelectMany(p => p.Steps));
                    Assert.All(
                        parts.Where(p => p.Period > 0),
                        p => Assert.True(p.Steps.Count >= 3 * p.Period && p.Steps.Count % p.Period == 0)
                    );
                },
                iter: 500
            );

    private static DayStep[] Steps(string work) =>
        [.. work.Select((w, i) => new DayStep(w.ToString(), $"J{i}", i, i + 1, null, 1, null))];
}
