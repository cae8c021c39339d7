using Coldpeel.Workshop.Findings;

namespace Coldpeel.Workshop.Tests.Findings;

/// <summary>A fault repeats of what somebody typed as much as it takes to find it again.</summary>
public sealed class FaultTests
{
    private static readonly string Typed = new('x', 3000);

    [Fact]
    public void What_was_typed_is_cut_in_both_languages()
    {
        var fault = new Fault("The colour", $"says “{Typed}”.", "Choose one.");
        var cut = new string('x', 59) + "…";
        Assert.Equal($"The colour says “{cut}”. Choose one.", fault.ToString());
        Assert.Contains($"„{cut}“", fault.In(Wording.For("de", inches: false)), StringComparison.Ordinal);
        Assert.Equal(60, cut.Length);
    }

    [Fact]
    public void What_was_typed_is_cut_in_a_sentence_within_and_where_it_is_given_later()
    {
        Sentence inner = $"says “{Typed}”.";
        var fault = new Fault("Here", $"line 3: {inner}", "Look.");
        Assert.True(fault.ToString().Length < 120, fault.ToString());
        Assert.DoesNotContain(
            "xxxx",
            (fault with { At = "/a" }).What.English.Replace(new string('x', 59), "", StringComparison.Ordinal),
            StringComparison.Ordinal
        );
    }

    // A colon stands before a sentence of its own, and before no verb.
    [Fact]
    public void What_begins_with_a_verb_goes_on_where_the_place_is_named()
    {
        Assert.Equal("“AR-1” is set aside. Look.", new Fault("“AR-1”", "is set aside.", "Look.").ToString());
        Assert.Equal(
            "„AR-1“ ist beiseitegelegt.",
            new Fault("„AR-1“", "is set aside.", "").In(Wording.For("de", inches: false))
        );
        Assert.Equal(
            "job.json: the list is empty. Add one.",
            new Fault("job.json", "the list is empty.", "Add one.").ToString()
        );
    }

    [Fact]
    public void Files_and_lists_of_what_there_is_are_told_whole()
    {
        var path = "/somewhere/" + new string('y', 100) + "/job.json";
        var names = string.Join(", ", Enumerable.Repeat("cotton-jersey", 20));
        Assert.Equal(
            $"{path} is not there. Choose one of {names}.",
            new Fault(path, "is not there.", $"Choose one of {names}.").ToString()
        );
    }

    [Fact]
    public void No_letter_of_two_halves_is_cut_in_two()
    {
        var typed = new string('x', 58) + "🧵🧵🧵";
        var fault = new Fault("The name", $"says “{typed}”.", "Shorten it.");
        Assert.Contains(new string('x', 58) + "…", fault.ToString(), StringComparison.Ordinal);
    }
}
