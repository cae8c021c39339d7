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
        Assert.Contains("P1 130 °C 25 s", text, StringComparison.Ordinal);
        Assert.Contains("P1 150 °C 120 s", text, StringComparison.Ordinal);
        Assert.Contains("150 °C → 130 °C", text, StringComparison.Ordinal);
        // 10 °C up at 12 °C a minute take 50 s, 20 °C down at 3 °C a minute 400 s.
        Assert.Contains("140 °C → 150 °C", text, StringComparison.Ordinal);
        Assert.Contains("takes 50 s", text, StringComparison.Ordinal);
        Assert.Contains("6 min 40 s", text, StringComparison.Ordinal);
        Assert.Contains("No plan can be shorter than", text, StringComparison.Ordinal);
        Assert.Contains("no plate is so large", text, StringComparison.Ordinal);
        // Word by word: a name may be wrapped in its cell.
        Assert.All(
            Regatta.Crew.Take(gilets).SelectMany(n => n.Split([' ', '-'])),
            w => Assert.Contains(w, text, StringComparison.Ordinal)
        );
        Assert.Equal(gilets > 1, text.Contains($"{gilets} × trim", StringComparison.Ordinal));
        Assert.Empty(paper.Outside(15));
        Assert.Empty(paper.Overlapping());
        Assert.Equal((297, 210), (Math.Round(paper.Size(1).WidthMm), Math.Round(paper.Size(1).HeightMm)));
    }

    [Fact]
    public async Task Breaks_and_late_orders_stand_on_the_wall()
    {
        var whole = Paper(60);
        whole = whole with
        {
            Problem = whole.Problem with { Orders = [.. whole.Problem.Orders.Select(o => o with { Due = 3600 })] },
            Plan = whole.Plan with { Breaks = [new DayPause(900, 1500, 1)] },
        };

        using var paper = new Printed(DayPlanPdf.Write(whole), "day-late");
        var text = await paper.Text();

        Assert.Contains("Done after it was due:", text, StringComparison.Ordinal);
        Assert.Contains("(due 09:00)", text, StringComparison.Ordinal);
        Assert.Contains("until 08:25:00", text, StringComparison.Ordinal);
        Assert.Empty(paper.Outside(15));
    }

    // By hand: on the day of Regatta.Day each gilet is loaded, pressed for 25 s and lifted with nothing between, cools for 60 s, and is then peeled,
    // finished for 10 s, taken off and looked at in one go. So a gilet takes two lines, and all trims of the one sheet a third.
    [Fact]
    public void What_is_done_to_one_thing_without_a_pause_is_one_line()
    {
        var paper = Paper(6);
        var words = new DayWords(paper);
        var runs = DayLists.Runs([.. words.Steps.Where(s => s.Hand == 1)], words);

        string[] gilet = ["load lift", "peel finish.load unload inspect"];
        Assert.Equal(
            ["bond.load bond.peel", "trim trim trim trim trim trim", .. Enumerable.Repeat(gilet, 6).SelectMany(g => g)],
            runs.Select(r => string.Join(' ', r.Select(s => s.Op)))
        );
        Assert.All(runs.Where(r => r[0].Op != "trim"), r => Assert.Single(r.Select(s => s.Ref).Distinct()));
    }

    [Fact]
    public async Task Pieces_to_be_trimmed_are_told_by_the_labels_printed_beside_them()
    {
        var paper = Paper(3) with
        {
            Labels = new Dictionary<string, string>
            {
                ["J1"] = "A4",
                ["J2"] = "B17",
                ["J3"] = "C1",
            },
        };
        using var printed = new Printed(DayPlanPdf.Write(paper), "day-labels");
        var text = await printed.Text();

        Assert.Contains("sheet 1: A4; B17; C1", text, StringComparison.Ordinal);
        Assert.Contains("2 · B17", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_plan_without_a_day_says_how_its_times_count()
    {
        using var printed = new Printed(DayPlanPdf.Write(Paper(1) with { Day = null }), "day-open");

        Assert.Contains("its clock starts at 08:00", await printed.Text(), StringComparison.Ordinal);
    }

    // 90 gilets one after another are nearly 6 h: 12 strips of half an hour, three a page, and 182 lines; the limit is our own aim.
    [Fact]
    public void A_full_day_takes_no_more_than_eight_pages()
    {
        using var printed = new Printed(DayPlanPdf.Write(Paper(90)), "day-full");

        Assert.InRange(printed.Pages, 4, 8);
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

    internal static DayPlanPaper Paper(int gilets)
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
