using System.Text.Json.Nodes;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Files.Press;
using Json.Schema;

namespace Coldpeel.Files.Tests.Press;

public sealed class DayFileTests
{
    public static TheoryData<string> Days =>
        [
            .. from size in new[] { "006", "020", "060", "150", "400" }
            from shop in new[] { "2p1h", "3p2h" }
            from seed in new[] { 1, 2, 3 }
            select $"d{size}-{shop}-s{seed}.json",
        ];

    [Theory]
    [MemberData(nameof(Days))]
    public void A_day_keeps_to_its_schema_and_survives_reading_and_writing(string name)
    {
        var path = Place.SharedData("days", name);

        var day = DayFile.ReadWithSeed(path, name);

        Assert.True(day.Ok, day.Fault?.ToString());
        var text = DayFile.Write(day.Value.Problem, day.Value.Seed ?? 0);
        // The files hold whole numbers only, so the written text must say the same as the file, key by key.
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(File.ReadAllText(path)), JsonNode.Parse(text)));
        Assert.True(Keeps("day", text));
    }

    [Theory]
    [InlineData("\"hands\": 1", "\"hands\": 0", "hands")]
    [InlineData("\"hands\": 1", "\"hands\": 1.5", "whole number")]
    [InlineData("\"hands\": 1", "\"hands\": \"one\"", "\"one\" instead of a whole number")]
    [InlineData("\"hands\": 1", "\"hans\": 1", "hands")]
    [InlineData("\"hands\": 1", "\"hands\": 1, \"feet\": 2", "\"feet\" is not a key")]
    [InlineData("\"hands\": 1", "\"hands\": 1, \"hands\": 2", "is not JSON")]
    [InlineData("\"coolCPerMin\": 3", "\"coolCPerMin\": 0", "coolCPerMin")]
    [InlineData("\"heatCPerMin\": 12", "\"heatCPerMin\": -12", "above 0")]
    [InlineData("\"format\": 1", "\"format\": 2", "format")]
    [InlineData("\"sheet\": \"S1\"", "\"sheet\": \"S9\"", "names S9")]
    [InlineData("\"order\": \"O1\"", "\"order\": \"O9\"", "names O9")]
    [InlineData("\"after\": \"J1\"", "\"after\": \"J2\"", "in which order J1, J2 come on item I1")]
    [InlineData(", \"after\": \"J1\"", "", "in which order J1, J2 come on item I1")]
    [InlineData(
        "\"item\": \"I1\", \"order\": \"O1\", \"sheet\": \"S1\", \"after\"",
        "\"item\": \"I2\", \"order\": \"O1\", \"sheet\": \"S1\", \"after\"",
        "on item I2 comes after J1, which is on item I1"
    )]
    [InlineData("\"id\": \"J2\"", "\"id\": \"J1\"", "two entries with the id J1")]
    [InlineData("\"cool\": 120", "\"cool\": -1", "placements[0] (J1), key \"cool\"")]
    [InlineData("\"fixed\": []", "\"fixed\": [{ \"op\": \"iron\", \"ref\": \"J1\", \"start\": 0 }]", "fixed[0].op")]
    [InlineData("\"fixed\": []", "\"fixed\": [{ \"op\": \"place\", \"ref\": \"J1\", \"start\": 0 }]", "on which press")]
    [InlineData("\"fixed\": []", "\"fixed\": [{ \"op\": \"trim\", \"ref\": \"S1\", \"start\": 0 }]", "names S1")]
    [InlineData("\"fixed\": []", "\"fixed\": [7]", "fixed[0]")]
    [InlineData("\"fixed\": []", "\"fixed\": [", "is not JSON")]
    [InlineData("\"presses\": [", "\"presses\": {}, \"x-old\": [", "instead of a list")]
    // Pins, bans and breaks.
    [InlineData("\"fixed\": []", "\"x-pins\": [{ \"op\": \"iron\", \"ref\": \"J1\", \"start\": 0 }]", "x-pins[0].op")]
    [InlineData("\"fixed\": []", "\"x-pins\": [{ \"op\": \"bond\", \"ref\": \"J1\", \"start\": 0 }]", "names J1")]
    [InlineData("\"fixed\": []", "\"x-pins\": [{ \"op\": \"place\", \"ref\": \"J1\" }]", "key \"start\" is missing")]
    [InlineData("\"fixed\": []", "\"x-pins\": [{ \"op\": \"place\", \"ref\": \"J1\", \"start\": -1 }]", "is -1")]
    [InlineData(
        "\"fixed\": []",
        "\"x-pins\": [{ \"op\": \"place\", \"ref\": \"J1\", \"start\": 1, \"press\": \"P9\" }]",
        "names P9"
    )]
    [InlineData(
        "\"fixed\": []",
        "\"x-pins\": [{ \"op\": \"place\", \"ref\": \"J1\", \"start\": 1, \"hand\": 2 }]",
        "the day has 1"
    )]
    [InlineData(
        "\"fixed\": []",
        "\"x-pins\": [{ \"op\": \"place\", \"ref\": \"J1\", \"start\": 1, \"exactly\": 1 }]",
        "Give true or false"
    )]
    [InlineData(
        "\"fixed\": []",
        "\"x-pins\": [{ \"op\": \"place\", \"ref\": \"J1\", \"start\": 1, \"exact\": true }]",
        "\"exact\" is not a key"
    )]
    [InlineData("\"fixed\": []", "\"x-pins\": { }", "instead of a list")]
    [InlineData("\"fixed\": []", "\"x-bans\": [{ \"press\": \"P9\" }]", "names P9")]
    [InlineData("\"fixed\": []", "\"x-bans\": [{ \"press\": \"P1\", \"ref\": \"J9\" }]", "names J9")]
    [InlineData("\"fixed\": []", "\"x-bans\": [{ }]", "key \"press\" is missing")]
    [InlineData("\"fixed\": []", "\"x-breaks\": [{ \"from\": 9, \"to\": 9 }]", "not after from")]
    [InlineData("\"fixed\": []", "\"x-breaks\": [{ \"from\": 9, \"to\": 99, \"hands\": 0 }]", "is 0")]
    public void A_wrong_day_is_refused_in_one_line_that_names_the_place(string right, string wrong, string says)
    {
        var path = Save(Small.Replace(right, wrong, StringComparison.Ordinal));

        var day = DayFile.Read(path, "day.json");

        Assert.False(day.Ok);
        var line = day.Fault.ToString();
        Assert.Contains(says, line, StringComparison.Ordinal);
        Assert.StartsWith("day.json", line, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', line);
    }

    [Fact]
    public void Keys_of_the_writers_own_are_passed_over()
    {
        var path = Save(
            Small.Replace("\"hands\": 1", "\"x-shop\": { \"a\": 1 }, \"hands\": 1", StringComparison.Ordinal)
        );

        Assert.True(DayFile.Read(path, "day.json").Ok);
    }

    [Fact]
    public void Two_pins_of_one_task_to_two_presses_are_refused()
    {
        var two = Small
            .Replace(
                "\"presses\": [",
                "\"presses\": [{ \"id\": \"P2\", \"plateW\": 400, \"plateH\": 500, \"setpointC\": 150, \"freeAt\": 0 },",
                StringComparison.Ordinal
            )
            .Replace(
                "\"fixed\": []",
                "\"x-pins\": [{ \"op\": \"peel\", \"ref\": \"J1\", \"start\": 1 }, { \"op\": \"place\", \"ref\": \"J1\", \"start\": 1, \"press\": \"P1\" },"
                    + "{ \"op\": \"place\", \"ref\": \"J1\", \"start\": 2, \"press\": \"P2\" }]",
                StringComparison.Ordinal
            );

        Assert.Contains("to two presses", DayFile.Read(Save(two), "day").Fault!.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Pins_bans_and_breaks_keep_to_the_schema_and_survive_writing_and_reading()
    {
        var day = DayFile.Read(Save(Small), "day.json").Value!;
        var wishes = new DayWishes
        {
            Pins =
            [
                new DayPin("place", "J1", 700, "P1") { Hand = 1, Exactly = true },
                new DayPin("bond", "S1", 90, null),
            ],
            Bans = [new DayBan("P1", "J2"), new DayBan("P1", null)],
            Breaks = [new DayBreak(100, 200, 1)],
        };

        var text = DayFile.Write(day with { Wishes = wishes }, 1);

        Assert.True(Keeps("day", text));
        var read = DayFile.Read(Save(text), "day.json").Value!.Wishes;
        Assert.Equal(wishes.Pins, read.Pins);
        Assert.Equal(wishes.Bans, read.Bans);
        Assert.Equal(wishes.Breaks, read.Breaks);
        // The published schema refuses what the reader refuses.
        Assert.False(Keeps("day", text.Replace("\"exactly\"", "\"exact\"", StringComparison.Ordinal)));
        Assert.False(Keeps("day", text.Replace("\"from\"", "\"form\"", StringComparison.Ordinal)));
        Assert.False(Keeps("day", text.Replace("\"op\": \"bond\"", "\"op\": \"iron\"", StringComparison.Ordinal)));
    }

    [Fact]
    public void What_is_added_stands_beside_what_is_there_and_may_not_clash_with_it()
    {
        var day = DayFile.Read(Save(Small), "day.json").Value!;
        var one = Small[
            Small.IndexOf("{ \"id\": \"J1\"", StringComparison.Ordinal)..Small.IndexOf(
                ",\n    { \"id\": \"J2\"",
                StringComparison.Ordinal
            )
        ];
        string Added(string placement) => Save($"{{ \"format\": 1, \"placements\": [{placement}] }}");

        var clash = DayFile.ReadAdded(Added(one), "more.json", day);
        var fresh = DayFile.ReadAdded(
            Added(
                one.Replace("J1", "J7", StringComparison.Ordinal).Replace("\"I1\"", "\"I7\"", StringComparison.Ordinal)
            ),
            "more.json",
            day
        );

        Assert.Contains("two entries with the id J1", clash.Fault!.ToString(), StringComparison.Ordinal);
        Assert.True(fresh.Ok, fresh.Fault?.ToString());
        Assert.Equal(["J1", "J2", "J7"], fresh.Value.Placements.Select(p => p.Id));
        Assert.Equal(day.Sheets, fresh.Value.Sheets);
    }

    [Fact]
    public void A_missing_file_is_a_fault_and_no_exception() =>
        Assert.Contains(
            "is not there",
            DayFile.Read("/nowhere/day.json", "day.json").Fault!.ToString(),
            StringComparison.Ordinal
        );

    [Fact]
    public void A_plan_keeps_to_its_schema_and_survives_writing_and_reading()
    {
        var day = DayFile.Read(Save(Small), "day.json").Value!;
        day = day with
        {
            Placements = [.. day.Placements, day.Placements[0] with { Id = "J3", Item = "I3", W = 900, Sheet = null }],
        };
        var plan = DayPlanner.Solve(
            day,
            new DaySearch { Seed = 1, Trials = 5 },
            null,
            TestContext.Current.CancellationToken
        );

        var text = DayPlanFile.Write(day, plan);

        Assert.True(Keeps("day-plan", text));
        var read = DayPlanFile.Read(Save(text), "plan.json");
        Assert.True(read.Ok, read.Fault?.ToString());
        Assert.Equal("small", read.Value.Day);
        Assert.Equal(plan.Steps, read.Value.Plan.Steps);
        Assert.Equal(plan.LeftOut, read.Value.Plan.LeftOut);
        Assert.Equal(
            (plan.MakespanS, plan.BoundS, plan.Proved),
            (read.Value.Plan.MakespanS, read.Value.Plan.BoundS, read.Value.Plan.Proved)
        );
    }

    private const string Small = """
        { "format": 1, "name": "small", "seed": 1, "now": 0, "heatCPerMin": 12, "coolCPerMin": 3, "hands": 1, "rackPlaces": 6,
          "presses": [{ "id": "P1", "plateW": 400, "plateH": 500, "setpointC": 150, "freeAt": 0 }],
          "sheets": [{ "id": "S1", "availableAt": 40, "w": 380, "h": 480, "tempC": 150, "load": 20, "press": 120, "peel": 25, "trim": 25 }],
          "orders": [{ "id": "O1", "due": 900, "weight": 5 }],
          "placements": [
            { "id": "J1", "item": "I1", "order": "O1", "sheet": "S1", "w": 120, "h": 80, "tempC": 150, "load": 30, "press": 25, "lift": 8,
              "cool": 120, "peel": 25, "finishLoad": 10, "finishPress": 10, "unload": 5, "inspect": 10 },
            { "id": "J2", "item": "I1", "order": "O1", "sheet": "S1", "after": "J1", "w": 120, "h": 80, "tempC": 150, "load": 30, "press": 25,
              "lift": 8, "cool": 120, "peel": 25, "finishLoad": 10, "finishPress": 10, "unload": 5, "inspect": 10 }],
          "fixed": [] }
        """;

    private static string Save(string text)
    {
        var path = Path.Combine(Place.NewFolder(), "file.json");
        File.WriteAllText(path, text);
        return path;
    }

    private static bool Keeps(string schema, string text)
    {
        var rules = JsonSchema.FromText(
            File.ReadAllText(Path.Combine(Place.Root, "docs", "schemas", $"{schema}.schema.json"))
        );
        using var document = System.Text.Json.JsonDocument.Parse(text);
        return rules.Evaluate(document.RootElement).IsValid;
    }
}
