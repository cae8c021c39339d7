using System.Text;
using Coldpeel.Desk.Tests.Press;

namespace Coldpeel.Desk.Tests.Orders;

/// <summary>day.json and day-plan.json of the demo held against the contract's rules from outside.</summary>
[Collection(nameof(Regatta))]
[Trait("Speed", "slow")]
public sealed class RegattaDayTests(MadeRegatta regatta)
{
    private PlanPaper Paper { get; } =
        PlanPaper.Read(
            File.ReadAllText(regatta.PathOf("day.json"), Encoding.UTF8),
            File.ReadAllText(regatta.PathOf("day-plan.json"), Encoding.UTF8)
        );

    [Fact]
    public void The_plan_of_the_demo_keeps_every_rule() => Assert.Empty(PlanRules.Broken(Paper));

    [Fact]
    public void Every_piece_of_the_film_is_pressed_once_and_comes_from_the_sheet_it_lies_on()
    {
        // 90 pieces as counted by hand from job.json; sheets are named S and their page.
        Assert.Equal(90, Paper.Day.Placements.Length);
        var laid = regatta.Layout.Sheets.ToDictionary(s => $"S{s.Page}", s => s.Placed.Length);
        Assert.Equal(laid.OrderBy(s => s.Key), Paper.Day.Placements.CountBy(p => p.Sheet!).OrderBy(s => s.Key));
        foreach (var sheet in Paper.Day.Sheets)
        {
            var page = regatta.Layout.Sheets.Single(s => $"S{s.Page}" == sheet.Id);
            Assert.Equal((page.WidthMm, page.HeightMm), (sheet.Wide, sheet.High));
        }
    }

    [Fact]
    public void What_is_pressed_twice_goes_from_its_first_place_to_its_second()
    {
        // Gilets and shirts have two places each: 12 + 18 follow an earlier one.
        var second = Paper.Day.Placements.Where(p => p.After is not null).ToArray();
        Assert.Equal(30, second.Length);
        Assert.All(second, p => Assert.Equal(p.Item, Paper.Day.Placements.Single(first => first.Id == p.After).Item));
    }

    [Fact]
    public void Settings_of_the_day_are_those_of_the_workshops_recipes()
    {
        Assert.All(
            Paper.Day.Placements,
            p =>
                Assert.Equal(
                    MadeRegatta.Recipes[p.Item.Split('-')[0]],
                    (p.TempC, p.Lasts["press"], p.Lasts["cool"], p.Lasts["finishPress"])
                )
        );
        Assert.All(Paper.Day.Sheets, s => Assert.Equal((150, 120), (s.TempC, s.Lasts["press"])));
    }
}
