using System.Collections.Immutable;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Workshop.Tests.Artwork;

public sealed class LetteringTextTests
{
    private static readonly Roster Crew = new(
        "crew.csv",
        ["name", "number"],
        [
            new(
                2,
                ImmutableDictionary.CreateRange(
                    StringComparer.OrdinalIgnoreCase,
                    [new KeyValuePair<string, string>("name", "Åsa {x}"), new("number", "7")]
                )
            ),
        ]
    );

    [Theory]
    [InlineData("{name}", "Åsa {x}")]
    [InlineData("{ Name }\nNo. {number}{number}", "Åsa {x}\nNo. 77")]
    [InlineData("plain", "plain")]
    [InlineData("{{name}} }} {number}", "{name} } 7")]
    [InlineData("{} { } a } {open", "{} { } a } {open")]
    [InlineData("", "")]
    public void The_places_of_a_text_take_the_cells_of_a_row(string text, string filled) =>
        Assert.Equal(filled, LetteringText.Fill(text, Crew.Rows[0]));

    [Fact]
    public void Columns_that_the_roster_lacks_are_named_each_once() =>
        Assert.Equal(["club", "Town"], LetteringText.Missing("{club} {name} {Town} {CLUB} {NUMBER} {{size}}", Crew));

    [Fact]
    public void A_place_is_the_same_however_its_accents_are_typed() =>
        Assert.Equal(["pr\u00E9nom"], LetteringText.Columns("{pre\u0301nom}{pr\u00E9nom}"));

    [Fact]
    public void To_fill_a_place_that_has_no_column_is_a_fault_of_the_caller() =>
        Assert.Throws<ArgumentException>(() => LetteringText.Fill("{club}", Crew.Rows[0]));
}
