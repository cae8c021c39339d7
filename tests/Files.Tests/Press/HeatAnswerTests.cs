using System.Buffers.Binary;
using System.Text.Json;
using System.Xml.Linq;
using CliWrap.Buffered;
using Coldpeel.Craft.Press.Heat;
using Coldpeel.Files.Press;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Tests.Press;

public sealed class HeatAnswerTests
{
    private static HeatAsk Demo(string name) =>
        StackFile.Read(Path.Combine(Place.Root, "demo", "stacks", $"{name}.json"), name).Value!;

    [Fact]
    public void The_answer_keeps_the_contracts_keys_and_says_what_was_asked_beside()
    {
        var ask = Demo("cotton-shirt");
        var report = HeatReports.Of(ask, TestContext.Current.CancellationToken);
        using var json = JsonDocument.Parse(HeatAnswerFile.Write(ask, report));
        string[] keys = ["reachedS", "heldAboveS", "boundaries", "timesS", "glueLineC", "hottestC", "energyBalance"];
        Assert.All(keys, k => Assert.True(json.RootElement.TryGetProperty(k, out _), k));
        Assert.All(
            json.RootElement.EnumerateObject(),
            p => Assert.True(keys.Append("coolS").Contains(p.Name) || p.Name.StartsWith("x-", StringComparison.Ordinal))
        );
        var lines = json.RootElement.GetProperty("timesS").GetArrayLength();
        Assert.All(
            json.RootElement.GetProperty("boundaries").EnumerateArray(),
            b => Assert.Equal(lines, b.GetProperty("upperSideC").GetArrayLength())
        );
        Assert.Equal("not yet calibrated", json.RootElement.GetProperty("x-window").GetProperty("glue").GetString());
        Assert.Equal("model", json.RootElement.GetProperty("x-evidence").GetString());
        Assert.Equal(9, json.RootElement.GetProperty("x-plate").GetProperty("points").GetArrayLength());
        Assert.True(json.RootElement.GetProperty("x-errorC").GetDouble() < 0.1);
    }

    // Common practice, no source: about 120 s for a sheet under several papers on a hot lower plate.
    [Fact]
    public void The_window_of_bonding_a_sheet_contains_120_s_and_the_plate_stays_hot_for_the_peel()
    {
        var report = HeatReports.Of(Demo("sheet-bond"), TestContext.Current.CancellationToken);
        Assert.True(report.Window!.Window.ShortestS < 120);
        Assert.True(report.Window.Window.LongestS is null or > 120);
        // A peel takes some seconds; the plate of 12 mm of aluminium holds it for minutes.
        Assert.InRange(report.HotPeelS!.Value, 60, 600);
    }

    [Fact]
    public void A_layer_taken_out_before_anything_happens_has_no_hottest_point()
    {
        var ask = Demo("cotton-shirt");
        var stage = ask.Problem.Stages[0] with { Remove = [ask.Problem.Layers[0].Name] };
        ask = ask with { Problem = ask.Problem with { Stages = [stage] }, Cool = null, HotPeel = null, PlateC = [] };
        var report = HeatReports.Of(ask, TestContext.Current.CancellationToken);
        Assert.Equal(ask.Problem.Layers.Skip(1).Select(l => l.Name), report.Hottest.Select(h => h.Layer));
    }

    [Fact]
    public void Metal_cools_sooner_than_a_table_and_a_table_sooner_than_the_rack()
    {
        var cool = HeatReports.Of(Demo("cotton-shirt"), TestContext.Current.CancellationToken).Cool!;
        Assert.True(cool.MetalS < cool.TableS && cool.TableS < cool.RackS);
    }

    [Fact]
    public void A_colder_corner_needs_longer()
    {
        var report = HeatReports.Of(Demo("cotton-shirt"), TestContext.Current.CancellationToken);
        var byHeat = report.Plate.OrderByDescending(p => p.Celsius).Select(p => p.Window.ShortestS!.Value).ToArray();
        Assert.Equal(byHeat.Order(), byHeat);
        Assert.True(byHeat[^1] > report.Window!.Window.ShortestS);
    }

    // Trials that failed where the usual figures say it bonds: the glue is slower, and the window moves out.
    [Fact]
    public void Press_trials_move_the_window_and_are_named_as_its_ground()
    {
        var ask = Demo("cotton-shirt");
        var before = HeatReports.Of(ask, TestContext.Current.CancellationToken).Window!.Window.ShortestS!.Value;
        ask = ask with
        {
            Trials =
            [
                new(before + 3, null, false),
                new(before + 6, null, false),
                new(before + 14, null, true),
                new(before + 20, null, true),
            ],
        };
        var report = HeatReports.Of(ask, TestContext.Current.CancellationToken);
        Assert.True(report.GlueFitted!.Speed < 1);
        Assert.InRange(report.Window!.Window.ShortestS!.Value, before + 6, before + 14);
        Assert.Equal("from trials", report.GlueFrom(ask));
    }

    [Fact]
    public void What_was_measured_is_said_to_be_measured_here()
    {
        var ask = Demo("cotton-shirt");
        var truth = HeatSolver.Solve(
            ask.Problem with
            {
                Contacts = [.. ask.Problem.Contacts.Select(c => c.Above == "glue" ? c with { Wm2K = 600 } : c)],
            },
            HeatSearch.Quick
        );
        ask = ask with
        {
            Measured = new(
                [new HeatUnknown.Between("glue", "shirt")],
                [
                    .. new[] { 3.0, 6, 12, 24 }.Select(t => new HeatReading(
                        "shirt",
                        t,
                        truth.Faces["shirt"].Lower.At(t) + (t > 10 ? 0.1 : -0.1),
                        0.5
                    )),
                ]
            ),
        };
        var report = HeatReports.Of(ask, TestContext.Current.CancellationToken);
        Assert.Equal(Evidence.CalibratedModel, report.Evidence);
        Assert.InRange(600, report.Fitted!.Found[0].LowWm2K, report.Fitted.Found[0].HighWm2K);
        using var json = JsonDocument.Parse(HeatAnswerFile.Write(ask, report));
        Assert.Equal(
            "measured here",
            json.RootElement.GetProperty("x-measured").GetProperty("found")[0].GetProperty("from").GetString()
        );
    }

    [Fact]
    public async Task The_picture_is_drawn_by_another_renderer_too_and_names_every_layer()
    {
        var ask = Demo("cotton-shirt");
        var problem = ask.Problem with { ProfileS = [1, 10, 30] };
        var answer = HeatSolver.Solve(problem, new HeatSearch());
        var svg = HeatPicture.Svg(problem, answer);
        var texts = XDocument
            .Parse(svg)
            .Descendants()
            .Where(e => e.Name.LocalName == "text")
            .Select(e => e.Value)
            .ToArray();
        foreach (var layer in problem.EveryLayer)
        {
            Assert.Contains(layer.Name, texts);
        }

        Assert.Contains("glue line (under glue)", texts);
        Assert.Contains("10 s", texts);
        var folder = Place.NewFolder();
        var path = Path.Combine(folder, "heat.svg");
        await File.WriteAllTextAsync(path, svg, TestContext.Current.CancellationToken);
        var drawn = await CliWrap
            .Cli.Wrap(Place.Tool("rsvg-convert"))
            .WithArguments([path, "-o", Path.Combine(folder, "heat.png")])
            .ExecuteBufferedAsync(TestContext.Current.CancellationToken);
        Assert.Equal("", drawn.StandardError);
        Assert.True(new FileInfo(Path.Combine(folder, "heat.png")).Length > 10_000);
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public void The_picture_as_png_is_twice_as_fine()
    {
        var problem = Demo("sheet-bond").Problem with { ProfileS = [5] };
        var png = HeatPicture.Png(problem, HeatSolver.Solve(problem, HeatSearch.Quick));
        Assert.Equal(2000, BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(16)));
    }
}
