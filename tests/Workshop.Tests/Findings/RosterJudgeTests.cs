using System.Collections.Immutable;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Workshop.Tests.Findings;

/// <summary>Names as customers type them. Look-alikes: Unicode UTS #39 confusables.</summary>
public sealed class RosterJudgeTests
{
    private static ItemRequest Shirts(string id, string roster, int quantity) =>
        new(
            id,
            "shirt",
            "cotton",
            "navy",
            quantity,
            roster,
            Supplier.Workshop,
            [ItemUse.Everyday],
            [new("name", "left chest")]
        );

    private static ImmutableArray<Finding> Judge(string text, params (string Id, string[] Rows)[] rosters)
    {
        var items = rosters.Select(r => Shirts(r.Id, $"{r.Id}.csv", r.Rows.Length)).ToImmutableArray();
        var job = new Job(
            "job",
            "customer",
            new DateOnly(2027, 5, 14),
            "EUR",
            null,
            [new DesignRequest.Lettered("name", new LetteringRequest(text, "Inter", 20))],
            items
        );
        var read = rosters.ToDictionary(
            r => r.Id,
            r => new Roster(
                $"{r.Id}.csv",
                ["name", "number"],
                [
                    .. r.Rows.Select(
                        (row, i) =>
                            new RosterRow(
                                i + 2,
                                row.Split(';')
                                    .Zip(
                                        new[] { "name", "number" },
                                        (cell, column) => KeyValuePair.Create(column, cell)
                                    )
                                    .ToImmutableDictionary(StringComparer.OrdinalIgnoreCase)
                            )
                    ),
                ]
            )
        );
        return RosterJudge.Judge(job, OrderItems.Of(job, read));
    }

    private static ImmutableArray<Finding> Names(params string[] names) => Judge("{name}", ("a", names));

    [Fact]
    public void Names_as_people_write_them_raise_no_word() =>
        Assert.Empty(
            Names(
                "Åsa Ćosić",
                "van den Berg",
                "Nguyễn",
                "Jean-Luc O'Neill",
                "McKay",
                "Zoë",
                "Müller",
                "Ødegård",
                "St. Clair",
                "Жанна",
                "Łukasz"
            )
        );

    [Theory]
    [InlineData("\u0410nna", "look-alike-letter")] // Cyrillic А
    [InlineData("Mari\u03BF", "look-alike-letter")] // Greek ο
    [InlineData("\u0421\u0410\u0420\u0410", "look-alike-letter")] // САРА, all Cyrillic, among Latin names
    [InlineData("Ann  Lee", "double-space")]
    public void A_letter_or_space_that_cannot_be_meant_warns_with_its_line(string name, string kind)
    {
        var found = Names("Ida Holm", "Per Lund", name, "Eva Dahl").Where(f => f.Severity == Severity.Warn);
        var finding = Assert.Single(found);
        Assert.Equal((kind, 1, "a"), (finding.Kind, finding.Count!.Value, finding.Item));
        Assert.Contains($"“{name}” (line 4)", finding.Say.English, StringComparison.Ordinal);
        Assert.StartsWith("a.csv:", finding.Say.English, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("PER LUND")]
    [InlineData("per lund")]
    [InlineData("pER lund")]
    public void Other_capitals_than_the_rest_are_noted(string name)
    {
        var finding = Assert.Single(Names("Ida", "Eva", "Olga", name));
        Assert.Equal(("odd-capitals", Severity.Note), (finding.Kind, finding.Severity));
        Assert.Contains("(line 5)", finding.Say.English, StringComparison.Ordinal);
    }

    [Fact]
    public void A_roster_all_in_capitals_is_a_style() => Assert.Empty(Names("IDA", "EVA", "OLGA", "PER"));

    [Fact]
    public void The_same_print_twice_warns_and_the_same_name_with_another_number_is_noted()
    {
        var twice = Judge("{name} {number}", ("a", ["Ida;7", "Eva;9", "ida;7"])).Where(f => f.Kind == "name-twice");
        Assert.Contains(
            "lines 2 and 4",
            Assert.Single(twice, f => f.Severity == Severity.Warn).Say.English,
            StringComparison.Ordinal
        );
        var namesakes = Judge("{name} {number}", ("a", ["Ida;7", "Eva;9", "Ida;8"]));
        Assert.Equal(("name-twice", Severity.Note), (Assert.Single(namesakes).Kind, namesakes[0].Severity));
        Assert.Empty(Judge("{number}", ("a", ["Ida;7", "Ida;9"])));
    }

    [Theory]
    [InlineData("Åsa Berg", "Asa Berg")]
    [InlineData("Jonsson", "Johnsson")]
    [InlineData("Kristin", "Kirstin")]
    [InlineData("Anna Holm", "\u0410nna Holm")]
    public void One_person_spelt_in_two_ways_in_two_rosters_of_an_order_warns(string one, string other)
    {
        var found = Judge("{name}", ("shirts", ["Ida", one]), ("bags", ["Ida", other]));
        var finding = Assert.Single(found, f => f.Kind == "two-spellings");
        Assert.Contains($"“{one}” (shirts.csv, line 3)", finding.Say.English, StringComparison.Ordinal);
        Assert.Contains($"“{other}” (bags.csv, line 3)", finding.Say.English, StringComparison.Ordinal);
    }

    [Fact]
    public void Different_people_in_two_rosters_are_left_in_peace() =>
        Assert.Empty(Judge("{name}", ("shirts", ["Ida Holm", "Eva Dahl"]), ("bags", ["Ida Holm", "Olga Lind"])));
}
