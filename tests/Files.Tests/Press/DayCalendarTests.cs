using System.Text;
using System.Xml.Linq;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Files.Press;

namespace Coldpeel.Files.Tests.Press;

/// <summary>The plan for the phone, read back by Ical.Net, and the chart, read as XML.</summary>
public sealed class DayCalendarTests
{
    private static readonly DateTimeOffset Made = new(2026, 11, 28, 9, 0, 0, TimeSpan.Zero);

    [Fact]
    public void Another_reader_finds_every_step_of_every_hand_once_at_its_time()
    {
        var paper = DayPlanPdfTests.Paper(60) with { Day = new DateOnly(2026, 11, 30) };

        var read = Ical.Net.Calendar.Load(DayCalendar.Write(paper, Made))!;

        var steps = paper.Plan.Steps.Where(s => s.Hand is not null).OrderBy(s => s.Start).ToList();
        Assert.Equal(steps.Count, read.Events.Sum(e => e.Description!.Split('\n').Length));
        var first = read.Events.MinBy(e => e.DtStart!.Value)!;
        Assert.Equal(
            new DateOnly(2026, 11, 30).ToDateTime(paper.DayStart).AddSeconds(steps[0].Start),
            first.DtStart!.Value
        );
        Assert.Equal(read.Events.Count, read.Events.Select(e => e.Uid).Distinct().Count());
        Assert.All(read.Events, e => Assert.True(e.DtEnd!.Value > e.DtStart!.Value));
    }

    // RFC 5545, 3.1: lines end with CR LF and hold at most 75 octets; 3.3.11: commas, semicolons and backslashes are escaped.
    [Fact]
    public void Lines_are_folded_by_octets_and_names_come_back_whole()
    {
        var paper = DayPlanPdfTests.Paper(6);
        var name = "Łódź; crew, \\ " + new string('é', 90);
        paper = paper with { Names = paper.Plan.Steps.Select(s => s.Ref).Distinct().ToDictionary(r => r, _ => name) };

        var text = DayCalendar.Write(paper, Made);

        Assert.All(
            text.Split("\r\n"),
            line =>
                Assert.True(Encoding.UTF8.GetByteCount(line) <= 75 && !line.Contains('\n', StringComparison.Ordinal))
        );
        Assert.Contains(
            Ical.Net.Calendar.Load(text)!.Events,
            e => e.Description!.Contains(name, StringComparison.Ordinal)
        );
    }

    [Fact]
    public void A_break_is_an_entry_of_the_hands_that_take_it_in_calendar_chart_and_on_the_wall()
    {
        var paper = DayPlanPdfTests.Paper(6);
        paper = paper with
        {
            Day = new DateOnly(2026, 11, 30),
            Plan = paper.Plan with { Breaks = [new DayPause(900, 1500, 1)] },
        };

        var read = Ical.Net.Calendar.Load(DayCalendar.Write(paper, Made))!;

        var pause = Assert.Single(read.Events, e => e.Summary == "Hands 1: break");
        var midnight = new DateOnly(2026, 11, 30).ToDateTime(paper.DayStart);
        Assert.Equal((midnight.AddSeconds(900), midnight.AddSeconds(1500)), (pause.DtStart!.Value, pause.DtEnd!.Value));
        Assert.Contains(">break<", DayChartSvg.Write(paper), StringComparison.Ordinal);
    }

    // RFC 5545, 3.6: a calendar holds at least one component.
    [Fact]
    public void A_plan_without_work_is_a_calendar_that_says_so()
    {
        var paper = DayPlanPdfTests.Paper(1);
        paper = paper with { Plan = paper.Plan with { Steps = [], Breaks = [] } };

        var read = Ical.Net.Calendar.Load(DayCalendar.Write(paper, Made))!;

        Assert.Equal("Nothing to do at the presses", Assert.Single(read.Events).Summary);
    }

    // RFC 5545, 3.8.4.7: a UID is the entry's alone; 3.1: no control character but the tab stands in a text.
    [Fact]
    public void Plans_of_two_names_share_no_entry_and_control_characters_are_left_out()
    {
        var paper = DayPlanPdfTests.Paper(1);
        string[] Ids(string name) =>
            [
                .. Ical
                    .Net.Calendar.Load(
                        DayCalendar.Write(paper with { Problem = paper.Problem with { Name = name } }, Made)
                    )!
                    .Events.Select(e => e.Uid!),
            ];

        Assert.Empty(Ids("лодка").Intersect(Ids("лыжи")));
        Assert.Equal(Ids("лодка"), Ids("лодка"));
        var named = paper with
        {
            Names = paper.Plan.Steps.Select(s => s.Ref).Distinct().ToDictionary(r => r, _ => "a\u0007b\tc"),
        };
        var text = DayCalendar.Write(named, Made);
        Assert.DoesNotContain('\u0007', text);
        Assert.Contains("ab\tc", text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_chart_shows_every_step_in_its_lane()
    {
        var paper = DayPlanPdfTests.Paper(6);

        var svg = XDocument.Parse(DayChartSvg.Write(paper));

        var boxes = svg.Descendants().Count(e => e.Name.LocalName == "rect" && e.Elements().Any());
        var atPress = paper.Plan.Steps.Count(s => s.Press is not null);
        var byHand = paper.Plan.Steps.Count(s => s.Hand is not null);
        Assert.True(boxes >= atPress + byHand, $"{boxes} boxes for {atPress} and {byHand} steps");
        Assert.Contains(
            svg.Descendants(),
            e => e.Name.LocalName == "title" && e.Value.Contains("150 °C to 130 °C", StringComparison.Ordinal)
        );
    }
}
