using System.Collections.Frozen;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Files.Press;
using Coldpeel.Files.Tests.Paper;

namespace Coldpeel.Files.Tests.Press;

public sealed class DayPlanPdfTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(6)]
    [InlineData(60)]
    public async Task The_plan_names_all_work_with_clock_times_and_nothing_is_clipped_or_overlaps(int gilets)
    {
        using var paper = new Printed(DayPlanPdf.Write(Paper(gilets)), $"day-{gilets}");
        var text = await paper.Text();

        // By hand: the day starts at 08:00:00, the bond is laid at 50 s, and the first gilet after 20 + 120 + 25 + n × 25 + 400 s more.
        Assert.Contains("08:00:50", text, StringComparison.Ordinal);
        var first = 50 + 165 + (gilets * 25) + 400;
        Assert.Contains(
            $"{8 + (first / 3600):00}:{first / 60 % 60:00}:{first % 60:00}",
            text,
            StringComparison.Ordinal
        );
        Assert.Contains("P1, 130 °C, 25 s", text, StringComparison.Ordinal);
        Assert.Contains("P1, 150 °C, 120 s", text, StringComparison.Ordinal);
        Assert.Contains("150 °C → 130 °C", text, StringComparison.Ordinal);
        // 10 °C up at 12 °C a minute take 50 s, 20 °C down at 3 °C a minute 400 s.
        Assert.Contains("140 °C → 150 °C 50 s", text, StringComparison.Ordinal);
        Assert.Contains("6 min 40 s", text, StringComparison.Ordinal);
        Assert.Contains("No plan can be shorter than", text, StringComparison.Ordinal);
        Assert.Contains("no plate is so large", text, StringComparison.Ordinal);
        // Word by word: a name may be wrapped in its cell.
        Assert.All(
            Regatta.Crew.Take(gilets).SelectMany(n => n.Split([' ', '-'])),
            w => Assert.Contains(w, text, StringComparison.Ordinal)
        );
        Assert.Equal(gilets == 60, text.Contains("numbers 1–60", StringComparison.Ordinal));
        Assert.Empty(paper.Outside(15));
        Assert.Empty(paper.Overlapping());
        Assert.Equal((297, 210), (Math.Round(paper.Size(1).WidthMm), Math.Round(paper.Size(1).HeightMm)));
    }

    [Fact]
    public async Task Equal_work_that_follows_on_itself_is_one_line()
    {
        using var paper = new Printed(DayPlanPdf.Write(Paper(6)), "day-runs");

        Assert.Contains("6 × trim", await paper.Text(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_day_without_work_says_so()
    {
        var problem = new DayProblem("none", 0, 12, 3, 1, 6, [], [], [], [], []);
        using var paper = new Printed(
            DayPlanPdf.Write(
                new(
                    "Nothing",
                    "Werkstatt",
                    null,
                    new(8, 0),
                    problem,
                    new([], [], 0, 0, true),
                    FrozenDictionary<string, string>.Empty
                )
            ),
            "day-none"
        );

        Assert.Equal(1, paper.Pages);
        Assert.Contains("nothing to do", await paper.Text(), StringComparison.Ordinal);
    }

    [Fact]
    public void The_same_plan_gives_the_same_bytes() =>
        Assert.Equal(DayPlanPdf.Write(Paper(3)), DayPlanPdf.Write(Paper(3)));

    private static DayPlanPaper Paper(int gilets)
    {
        var (problem, plan) = Regatta.Day(gilets);
        var names = problem
            .Placements.Select((p, i) => (p.Id, Name: $"gilet {i + 1} {Regatta.Crew[i % 8]}"))
            .Append(("S1", "sheet 1"))
            .ToDictionary(p => p.Item1, p => p.Item2);
        return new(
            "Regatta crew kit, spring",
            "Werkstatt am Kanal",
            new DateOnly(2026, 12, 1),
            new(8, 0),
            problem,
            plan,
            names
        );
    }
}
