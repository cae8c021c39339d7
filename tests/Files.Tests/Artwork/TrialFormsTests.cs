using System.Text.Json.Nodes;
using Coldpeel.Craft.Artwork;
using Coldpeel.Files.Artwork;
using Coldpeel.Files.Orders;

namespace Coldpeel.Files.Tests.Artwork;

/// <summary>Forms that go out empty and come back filled, and the parts of the workshop file that they become.</summary>
public sealed class TrialFormsTests
{
    private static readonly ProcessLimits Before = new(0.35, 0.6, 0.5, 30, 200) { SolidMm = 60 };

    private static string Saved(string text)
    {
        var file = Path.Combine(Place.NewFolder(), "form.json");
        File.WriteAllText(file, text);
        return file;
    }

    private static string Demo(string name) => Path.Combine(Place.Root, "demo", "trials", name);

    /// <summary>The example workshop with keys of its first process replaced.</summary>
    private static string WorkshopWith(string fragment)
    {
        var book = JsonNode.Parse(WorkshopBookReader.ExampleText())!;
        foreach (var (key, value) in JsonNode.Parse(fragment)!.AsObject())
        {
            book["processes"]![0]![key] = value!.DeepClone();
        }

        return Saved(book.ToJsonString());
    }

    [Fact]
    public void A_form_comes_back_as_it_went_out_only_with_nothing_surviving()
    {
        var read = TargetFile.Read(Saved(System.Text.Encoding.UTF8.GetString(TargetFile.Form())), "t.json", Before);
        Assert.False(read.Ok);
        Assert.Contains("lines", read.Fault.ToString(), StringComparison.Ordinal);
        Assert.Contains("largest of them did not survive", read.Fault.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Ticks_become_limits_that_the_workshop_file_takes()
    {
        // In the demo 0.3 mm lines came through in two directions only, and a lucky 0.35 mm gap and dot below ones that did not.
        var ticked = TargetFile.Read(Demo("target.json"), "target.json", Before);
        Assert.True(ticked.Ok, ticked.Fault?.ToString());
        var book = WorkshopBookReader.Read(WorkshopWith(ProfileFragment.Of(ticked.Value)), "w.json");
        Assert.True(book.Ok, book.Fault?.ToString());
        Assert.Equal(
            new ProcessLimits(0.4, 0.5, 0.5, 35, 200) { SolidMm = 60, TextMm = 3 },
            book.Value.Processes[0].Limits
        );
        Assert.Equal("invented, to show the form", book.Value.Processes[0].LimitsSource);
    }

    [Fact]
    public void What_was_not_tried_keeps_the_figure_of_the_process_and_says_so()
    {
        var file = Saved("""{ "format": "coldpeel-target/1", "dots": [ { "mm": 0.7, "survived": true } ] }""");
        var read = TargetFile.Read(file, "t.json", Before);
        Assert.Equal(Before with { DotMm = 0.7 }, read.Value!.Limits);
        Assert.Contains("lines, gaps, text, tints not tried", ProfileFragment.Of(read.Value), StringComparison.Ordinal);
    }

    [Fact]
    public void Readings_become_a_curve_that_the_workshop_file_takes()
    {
        // The demo's readings were made by hand from a gain of 40 % a (1 − a) between 0.05 and 0.78, rounded to thousandths.
        var wedge = WedgeFile.Read(Demo("wedge.json"), "wedge.json");
        Assert.True(wedge.Ok, wedge.Fault?.ToString());
        var book = WorkshopBookReader.Read(WorkshopWith(ProfileFragment.Of(wedge.Value)), "w.json");
        Assert.True(book.Ok, book.Fault?.ToString());
        var (tone, gain) = Assert.Single(book.Value.Processes[0].Gains);
        Assert.Equal((Tone.Screen, 1.0), (tone, gain.N));
        Assert.All(
            (double[])[0.13, 0.25, 0.34, 0.5],
            a => Assert.Equal(a + (0.4 * a * (1 - a)), gain.Curve.Prints(a), 0.001)
        );
    }

    // Density and reflectance are the same reading (R = 10^−D, ISO 5-1): the curve must be too. Tints told by an instrument are taken as they are.
    [Theory]
    [InlineData("density", "1.30103", "0.69897", "0.09691", 0.2)]
    [InlineData("reflectance", "0.05", "0.2", "0.8", 0.2)]
    [InlineData("tint", "0", "20", "100", 0.2)]
    public void Every_kind_of_reading_tells_the_same_tint(
        string kind,
        string bare,
        string half,
        string solid,
        double tint
    )
    {
        var read = WedgeFile.Read(
            Saved(Wedge($"\"{kind}\": {bare}", $"\"{kind}\": {half}", $"\"{kind}\": {solid}")),
            "w"
        );
        Assert.True(read.Ok, read.Fault?.ToString());
        Assert.Equal(tint, read.Value.Gain.Curve.Prints(0.4), 1e-4);
    }

    [Fact]
    public void A_fitted_n_explains_a_gain_of_light_and_leaves_nothing_to_correct()
    {
        // Asked 40 % with n = 2: root of R = 0.4 · √0.8 + 0.6 · √0.05, R = 0.242143 (by hand).
        var text = Wedge("\"reflectance\": 0.05", "\"reflectance\": 0.242143", "\"reflectance\": 0.8")
            .Replace("\"n\": 1", "\"n\": \"fit\"", StringComparison.Ordinal);
        var read = WedgeFile.Read(Saved(text), "w");
        Assert.True(read.Value!.Fitted);
        Assert.Equal(2, read.Value.Gain.N, 0.01);
        Assert.Equal(0.4, read.Value.Gain.Curve.Prints(0.4), 0.001);
    }

    [Theory]
    [InlineData("\"reflectance\": null", "a number is wanted")]
    [InlineData("\"reflectance\": 42", "42 is more than")]
    [InlineData("\"x-note\": 1", "the step has no reading")]
    [InlineData("\"density\": 0.7", "the step has a density where others have a reflectance")]
    [InlineData("\"reflectance\": 0.2, \"tint\": 20", "more than one reading")]
    public void A_form_that_is_not_filled_as_it_should_be_is_refused_by_place(string reading, string words)
    {
        var read = WedgeFile.Read(Saved(Wedge("\"reflectance\": 0.05", reading, "\"reflectance\": 0.8")), "w.json");
        Assert.False(read.Ok);
        Assert.StartsWith("w.json: steps[1]", read.Fault.ToString(), StringComparison.Ordinal);
        Assert.Contains(words, read.Fault.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void White_on_a_fabric_that_is_white_tells_nothing()
    {
        var read = WedgeFile.Read(
            Saved(Wedge("\"reflectance\": 0.79", "\"reflectance\": 0.79", "\"reflectance\": 0.8")),
            "w.json"
        );
        Assert.Contains("read nearly alike", read.Fault!.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void The_form_of_a_wedge_waits_for_its_readings()
    {
        var form = System.Text.Encoding.UTF8.GetString(WedgeFile.Form(Tone.Spray, [0, 50, 100]));
        Assert.Contains(
            "a number is wanted",
            WedgeFile.Read(Saved(form), "w").Fault!.ToString(),
            StringComparison.Ordinal
        );
        var filled = form.Replace("null", "0.5", StringComparison.Ordinal)
            .Replace(
                "\"asked\": 0, \"reflectance\": 0.5",
                "\"asked\": 0, \"reflectance\": 0.1",
                StringComparison.Ordinal
            )
            .Replace(
                "\"asked\": 100, \"reflectance\": 0.5",
                "\"asked\": 100, \"reflectance\": 0.9",
                StringComparison.Ordinal
            );
        Assert.Equal(0.5, WedgeFile.Read(Saved(filled), "w").Value!.Gain.Curve.Prints(0.5), 1e-9);
    }

    private static string Wedge(string bare, string half, string solid) =>
        "{ \"format\": \"coldpeel-wedge/1\", \"tone\": \"screen\", \"n\": 1, \"steps\": [ "
        + $"{{ \"asked\": 0, {bare} }}, {{ \"asked\": 40, {half} }}, {{ \"asked\": 100, {solid} }} ] }}";
}
