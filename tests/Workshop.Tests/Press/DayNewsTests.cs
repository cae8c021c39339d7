using Coldpeel.Craft.Press.Day;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Workshop.Tests.Press;

/// <summary>What came late and what was spoilt, taken into a day.</summary>
public sealed class DayNewsTests
{
    [Theory]
    [InlineData("S2", 900)]
    [InlineData("P1", 900)]
    [InlineData("J3", 900)]
    [InlineData("I2", 900)]
    [InlineData("O2", 900)]
    public void What_is_late_is_there_from_its_second_on(string id, int second)
    {
        var late = LateThings.Apply(Day(), "--late", id, second).Value!;

        Assert.Equal(id == "S2" ? second : 60, late.Sheets[1].AvailableAt);
        Assert.Equal(id == "P1" ? second : 0, late.Presses[0].FreeAt);
        // J3 is all of item I2, and I2 all of order O2.
        var pins = late.Wishes.Pins.Select(p => (p.Op, p.Ref, p.Start, p.Exactly));
        Assert.Equal(id is "J3" or "I2" or "O2" ? [("place", "J3", second, false)] : [], pins);
    }

    [Fact]
    public void What_has_begun_cannot_be_late_and_an_unknown_name_is_refused()
    {
        Assert.Contains("had begun", LateThings.Apply(Day(), "--late S1@9", "S1", 9).Fault!.ToString(), Ordinal);
        Assert.Contains("had been pressed", LateThings.Apply(Day(), "--late J1@9", "J1", 9).Fault!.ToString(), Ordinal);
        Assert.Contains("nothing in the day", LateThings.Apply(Day(), "--late X@9", "X", 9).Fault!.ToString(), Ordinal);
        var twice = Day() with { Orders = [.. Day().Orders, new DayOrder("S1", 1, 1)] };
        Assert.Contains(
            "of a sheet and of a order",
            LateThings.Apply(twice, "--late", "S1", 9).Fault!.ToString(),
            Ordinal
        );
    }

    // J1 had been pressed and J2, on the same item, not: J1 is made again from the shelf, J2 keeps its piece and comes after it.
    [Fact]
    public void A_spoilt_item_is_made_again_and_its_press_time_stays_as_a_run_without_a_piece()
    {
        var day = SpoiltThings.Apply(Day(), "--spoilt I1", "I1", null).Value!;

        Assert.Equal(["J1 again", "J2", "J3"], day.Placements.Select(p => p.Id));
        var (again, second) = (day.Placements[0], day.Placements[1]);
        Assert.Equal(("I1 again", null, null), (again.Item, again.Sheet, again.After));
        Assert.Equal(("I1 again", "S1", "J1 again"), (second.Item, second.Sheet, second.After));
        // 30 + 25 + 8 at 150 °C on P1 from 230 s, with the hands that did it.
        var lost = day.Sheets[^1];
        Assert.Equal(
            ("J1 spoilt", 30, 25, 8, 150, 0),
            (lost.Id, lost.Load, lost.Press, lost.Peel, lost.TempC, lost.Trim)
        );
        var run = Assert.Single(day.Fixed, f => f.Ref == "J1 spoilt");
        Assert.Equal(("bond", "P1", 230, 1, 2, null), (run.Op, run.Press, run.Start, run.Hand, run.LastHand, run.Rack));
        Assert.DoesNotContain(day.Fixed, f => f.Ref == "J1");
        // What had begun on the other piece stays its own.
        Assert.Contains(day.Fixed, f => f is { Op: "trim", Ref: "J2" });
    }

    [Fact]
    public void A_transfer_printed_again_comes_on_a_sheet_of_its_own()
    {
        var once = SpoiltThings.Apply(Day(), "--spoilt", "J1", 900).Value!;

        var sheet = once.Sheets.Single(s => s.Id == "S1 again");
        Assert.Equal(Day().Sheets[0] with { Id = "S1 again", AvailableAt = 900 }, sheet);
        Assert.Equal("S1 again", once.Placements[0].Sheet);
        // Spoilt once more, after it was pressed once more: names do not clash.
        var pressed = once with
        {
            Fixed =
            [
                .. once.Fixed,
                new DayFixed("bond", "S1 again", "P1", 900),
                new DayFixed("place", "J1 again", "P1", 1300),
            ],
        };
        var twice = SpoiltThings.Apply(pressed, "--spoilt", "J1 again", 1500).Value!;
        Assert.Equal(twice.Sheets.Length, twice.Sheets.Select(s => s.Id).Distinct().Count());
        Assert.Equal(1500, twice.Sheets.Single(s => s.Id == twice.Placements[0].Sheet).AvailableAt);
    }

    [Fact]
    public void A_spoilt_sheet_is_printed_again_for_the_pieces_that_were_not_yet_pressed()
    {
        var day = SpoiltThings.Apply(Day(), "--spoilt", "S1", 700).Value!;

        Assert.Equal(["S1", "S1 again", "S2"], day.Placements.Select(p => p.Sheet));
        Assert.Equal(700, day.Sheets.Single(s => s.Id == "S1 again").AvailableAt);
        Assert.DoesNotContain(day.Fixed, f => f is { Op: "trim", Ref: "J2" });
        Assert.Contains("S1@5400", SpoiltThings.Apply(Day(), "--spoilt", "S1", null).Fault!.ToString(), Ordinal);
        // One that was not bonded yet is only late.
        Assert.Equal(700, SpoiltThings.Apply(Day(), "--spoilt", "S2", 700).Value!.Sheets[1].AvailableAt);
    }

    [Fact]
    public void What_was_never_pressed_is_not_spoilt_and_a_transfer_from_the_shelf_may_be_late()
    {
        Assert.Contains(
            "nothing had been pressed",
            SpoiltThings.Apply(Day(), "--spoilt", "J3", null).Fault!.ToString(),
            Ordinal
        );
        Assert.Contains("no item", SpoiltThings.Apply(Day(), "--spoilt", "X", null).Fault!.ToString(), Ordinal);
        var shelf = Day() with { Placements = [.. Day().Placements.Select(p => p with { Sheet = null })] };
        var pin = Assert.Single(SpoiltThings.Apply(shelf, "--spoilt", "J1", 900).Value!.Wishes.Pins);
        Assert.Equal(("place", "J1 again", 900), (pin.Op, pin.Ref, pin.Start));
    }

    private const StringComparison Ordinal = StringComparison.Ordinal;

    private static DayProblem Day() =>
        new(
            "a day",
            400,
            12,
            3,
            2,
            6,
            [new DayPress("P1", 400, 500, 150, 0)],
            [
                new DaySheet("S1", 40, 380, 480, 150, 20, 120, 25, 25),
                new DaySheet("S2", 60, 380, 480, 150, 20, 120, 25, 25),
            ],
            [new DayOrder("O1", 900, 2), new DayOrder("O2", 400, 5)],
            [
                Placement("J1", "I1", "O1", "S1", null),
                Placement("J2", "I1", "O1", "S1", "J1"),
                Placement("J3", "I2", "O2", "S2", null),
            ],
            [
                new DayFixed("bond", "S1", "P1", 40),
                new DayFixed("trim", "J1", null, 205),
                new DayFixed("trim", "J2", null, 240),
                new DayFixed("place", "J1", "P1", 230)
                {
                    Hand = 1,
                    LastHand = 2,
                    Rack = 1,
                },
            ]
        );

    private static DayPlacement Placement(string id, string item, string order, string? sheet, string? after) =>
        new(id, item, order, sheet, after, 120, 80, 150, 30, 25, 8, 120, 25, 10, 10, 5, 10);
}
