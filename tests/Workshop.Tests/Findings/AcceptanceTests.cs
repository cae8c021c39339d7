using Coldpeel.Workshop.Findings;

namespace Coldpeel.Workshop.Tests.Findings;

public sealed class AcceptanceTests
{
    private static readonly Finding[] Found =
    [
        new("thin-stroke", Severity.Warn, "thin") { Design = "crest" },
        new("thin-stroke", Severity.Warn, "thin") { Design = "name/3" },
        new("protective-wear", Severity.Stop, "hi-vis") { Item = "vest" },
    ];

    private static string Accepted(params string[] said) =>
        string.Join(
            " ",
            Acceptance
                .Apply(Found, [.. said.Select(s => Acceptance.Parse(s).Value!)])
                .Select(f =>
                    f.Kind == "acceptance-unused" ? "unused"
                    : f.Accepted ? "yes"
                    : "no"
                )
        );

    [Fact]
    public void A_kind_alone_takes_every_finding_of_it_and_a_name_only_its_own()
    {
        Assert.Equal("yes yes no", Accepted("thin-stroke"));
        Assert.Equal("yes no no", Accepted("thin-stroke@crest"));
        Assert.Equal("no yes no", Accepted("thin-stroke@name"));
        Assert.Equal("no no yes", Accepted("protective-wear@vest"));
    }

    [Fact]
    public void An_acceptance_that_meets_nothing_is_told()
    {
        Assert.Equal("no no no unused", Accepted("thin-strokes"));
        var note = Acceptance.Apply(Found, [new Acceptance("thin-strokes", null)])[^1];
        Assert.Contains("\"thin-stroke\"", note.Say.English, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("@crest")]
    [InlineData("thin-stroke@")]
    [InlineData("Thin Stroke")]
    public void What_names_no_finding_is_refused(string text) => Assert.False(Acceptance.Parse(text).Ok);
}
