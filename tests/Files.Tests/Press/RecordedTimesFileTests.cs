using Coldpeel.Files.Press;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Tests.Press;

public sealed class RecordedTimesFileTests
{
    [Fact]
    public void Times_are_read_from_a_file_that_holds_other_things_too()
    {
        var read = Read(
            """
            { "name": "a workshop", "prices": { "hour": 30 },
              "x-times": [{ "step": "load", "person": "Ada", "seconds": 33 }, { "step": "finish.load", "person": "Łucja", "seconds": 0 }] }
            """
        );

        Assert.True(read.Ok, read.Fault?.ToString());
        Assert.Equal(
            [new RecordedTime("load", "Ada", 33), new RecordedTime("finish.load", "Łucja", 0)],
            read.Value.All
        );
    }

    [Theory]
    [InlineData("""{ }""", "key \"x-times\" is missing")]
    [InlineData("""{ "x-times": 7 }""", "instead of a list")]
    [InlineData("""{ "x-times": [7] }""", "x-times[0]")]
    [InlineData("""{ "x-times": [{ "step": "press", "person": "Ada", "seconds": 3 }] }""", "is \"press\"")]
    [InlineData("""{ "x-times": [{ "step": "load", "seconds": 3 }] }""", "key \"person\" is missing")]
    [InlineData("""{ "x-times": [{ "step": "load", "person": " ", "seconds": 3 }] }""", "instead of a text")]
    [InlineData("""{ "x-times": [{ "step": "load", "person": "Ada", "seconds": -3 }] }""", "is -3")]
    [InlineData("""{ "x-times": [{ "step": "load", "person": "Ada", "seconds": 3.5 }] }""", "whole number")]
    [InlineData(
        """{ "x-times": [{ "step": "load", "person": "Ada", "seconds": 3, "day": 1 }] }""",
        "\"day\" is not a key"
    )]
    [InlineData("""{ "x-times": [""", "is not JSON")]
    public void A_wrong_file_is_refused_in_one_line_that_names_the_place(string text, string says)
    {
        var line = Read(text).Fault!.ToString();

        Assert.StartsWith("times.json", line, StringComparison.Ordinal);
        Assert.Contains(says, line, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', line);
    }

    [Fact]
    public void A_missing_file_is_a_fault_and_no_exception() =>
        Assert.Contains(
            "is not there",
            RecordedTimesFile.Read("/nowhere/times.json", "times.json").Fault!.ToString(),
            StringComparison.Ordinal
        );

    private static Coldpeel.Workshop.Findings.Outcome<RecordedTimes> Read(string text)
    {
        var path = Path.Combine(Place.NewFolder(), "times.json");
        File.WriteAllText(path, text);
        return RecordedTimesFile.Read(path, "times.json");
    }
}
