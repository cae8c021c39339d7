using System.Text.Json.Nodes;

namespace Coldpeel.Hosts.Tests.Cli;

public sealed class HeatTests
{
    [Theory]
    [InlineData("/layers/4/thicknessMm", "-2", "layers[4].thicknessMm|0.001")]
    [InlineData("/layers/4/thicknessMm", "1e9", "layers[4].thicknessMm|1000")]
    [InlineData("/layers/4/material", "\"unobtainium\"", "layers[4].material|not known|cotton-fabric")]
    [InlineData("/x-harm", "[{ \"layer\": \"shirt\", \"limitC\": 100 }]", "x-harm[0].limitC|softens only at 105 °C")]
    [InlineData("/x-cool/untilC", "20", "x-cool.untilC|nothing cools to 20")]
    [InlineData("/stages/0/seconds", "-5", "stages[0].seconds")]
    public async Task Wrong_figures_end_with_2_and_one_line(string place, string value, string words)
    {
        var stack = await Shirt();
        JsonNode at = stack;
        var steps = place.Split('/').Skip(1).ToArray();
        foreach (var step in steps[..^1])
        {
            at = int.TryParse(step, out var i) ? at[i]! : at[step]!;
        }

        at[steps[^1]] = JsonNode.Parse(value);
        var folder = Folder(stack);
        (await CommandLine.Run(folder, "heat", "stack.json", "--json", "--picture", "heat.svg")).Refused(
            words.Split('|')
        );
        Assert.Single(Directory.GetFileSystemEntries(folder));
        Directory.Delete(folder, recursive: true);
    }

    [Theory]
    [InlineData("--picture", "heat.gif", ".svg")]
    [InlineData("--at", "1,x", "\"x\" is no time")]
    [InlineData("--chances", "3", "from 10 to 20000")]
    public async Task Wrong_options_end_with_2_and_one_line(string option, string value, string words)
    {
        var folder = Folder(await Shirt());
        (await CommandLine.Run(folder, "heat", "stack.json", option, value)).Refused(words);
        Directory.Delete(folder, recursive: true);
    }

    [Theory]
    [InlineData("heat.svg", "<svg")]
    [InlineData("heat.png", "PNG")]
    public async Task A_picture_is_drawn_beside_the_answer(string name, string begins)
    {
        var folder = Folder(await Shirt());
        var ran = (await CommandLine.Run(folder, "heat", "stack.json", "--picture", name, "--json")).Ended(0);
        Assert.True(ran.Json().GetProperty("x-window").GetProperty("open").GetBoolean());
        var picture = await File.ReadAllTextAsync(Path.Combine(folder, name), TestContext.Current.CancellationToken);
        Assert.Contains(begins, picture[..200], StringComparison.Ordinal);
        Directory.Delete(folder, recursive: true);
    }

    [Theory]
    [InlineData(
        "calibration",
        "Measured here: the upper plate|in the workshop file: \"contacts\": {\"upperWm2K\":|contacts measured here, glue not yet calibrated"
    )]
    [InlineData("sheet-bond", "hot peel: the glue line stays above|, the lower plate under it for")]
    [InlineData(
        "cotton-shirt",
        "Cold enough to peel (|on a wooden table|The plate is coldest at the|nothing is harmed"
    )]
    public async Task The_answer_in_words_tells_all_that_was_asked(string stack, string words)
    {
        var ran = (await CommandLine.Run(Place.Root, "heat", $"demo/stacks/{stack}.json")).Ended(0);
        Assert.All(words.Split('|'), w => Assert.Contains(w, ran.Out, StringComparison.Ordinal));
    }

    [Fact]
    public async Task No_window_at_this_set_point_ends_with_1_and_says_what_to_change()
    {
        var ran = (await CommandLine.Run(Place.Root, "heat", "demo/stacks/dark-polyester.json")).Ended(1);
        Assert.Contains("no such time at 190 °C", ran.Out, StringComparison.Ordinal);
        Assert.Contains("lower to 1", ran.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Chances_and_measured_contacts_are_told_in_words()
    {
        var ran = (await CommandLine.Run(Place.Root, "heat", "demo/stacks/calibration.json", "--chances", "50")).Ended(
            0
        );
        Assert.Contains("Measured here: shirt on pad ", ran.Out, StringComparison.Ordinal);
        Assert.Contains("Of 50 cases", ran.Out, StringComparison.Ordinal);
        Assert.Contains("contacts measured here, glue not yet calibrated", ran.Out, StringComparison.Ordinal);
    }

    private static async Task<JsonNode> Shirt() =>
        JsonNode.Parse(
            await File.ReadAllTextAsync(
                Path.Combine(Place.Root, "demo", "stacks", "cotton-shirt.json"),
                TestContext.Current.CancellationToken
            )
        )!;

    private static string Folder(JsonNode stack)
    {
        var folder = Place.NewFolder();
        File.WriteAllText(Path.Combine(folder, "stack.json"), stack.ToJsonString());
        return folder;
    }
}
