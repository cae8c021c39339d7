using System.Buffers.Binary;
using System.Text.Json;
using System.Xml.Linq;
using CliWrap.Buffered;
using Coldpeel.Craft.Measures;
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
        Assert.InRange(report.HotPeel!.GlueLineS, 60, 600);
        // What the glue line lies on is what keeps it hot, so it is not the colder one for long.
        Assert.Equal("lower plate", report.HotPeel.Under);
        Assert.InRange(report.HotPeel.UnderS!.Value, report.HotPeel.GlueLineS - 5, 600);
    }

    // One board, or the same board in slices that touch perfectly, is the same thing: no formula needed. A thick layer must not be cut so coarsely that its face lies deep inside.
    [Fact]
    public void A_thick_board_heats_alike_as_one_layer_and_in_slices()
    {
        HeatLayer Layer(string name, string material, double mm) =>
            new(
                name,
                HeatMaterials.Find(material)!.WmK.Value,
                HeatMaterials.Find(material)!.DensityKgM3.Value,
                HeatMaterials.Find(material)!.HeatJkgK.Value,
                Length.FromMillimetres(mm),
                Temperature.FromCelsius(22)
            );
        HeatProblem Stack(params double[] slicesMm) =>
            new(
                [
                    Layer("film", "polyester-film", 0.1),
                    Layer("glue", "hot-melt-film", 0.06),
                    .. slicesMm.Select((mm, i) => Layer($"board {i}", "pine", mm)),
                ],
                [],
                "glue",
                Temperature.FromCelsius(105),
                [
                    new(
                        "press",
                        10,
                        null,
                        new HeatSide.Held(Temperature.FromCelsius(150), 3000),
                        new HeatSide.Insulated(),
                        [],
                        []
                    ),
                ],
                0.1
            );
        HeatReport Report(params double[] slicesMm) =>
            HeatReports.Of(
                Demo("cotton-shirt") with
                {
                    Problem = Stack(slicesMm),
                    Materials = [],
                    Harm = [],
                    Window = null,
                    Cool = null,
                    HotPeel = null,
                    PlateC = [],
                },
                TestContext.Current.CancellationToken
            );
        var (whole, sliced) = (Report(40), Report(0.1, 0.2, 0.4, 0.8, 1.5, 3, 6, 12, 16));
        Assert.Equal(sliced.Heat.ReachedS!.Value, whole.Heat.ReachedS!.Value, 0.005);
        foreach (var t in (double[])[0.2, 0.5, 1, 2, 5, 10])
        {
            var apart = Math.Abs(sliced.Heat.GlueLine.At(t) - whole.Heat.GlueLine.At(t));
            Assert.InRange(apart, 0, 0.15);
            // What is stated is a bound.
            Assert.True(
                apart <= whole.Error.Kelvin + sliced.Error.Kelvin,
                $"{apart:0.000} K apart at {t} s, {whole.Error.Kelvin:0.000} stated"
            );
        }
    }

    // The rows that are printed have no part in how right the answer is.
    [Fact]
    public void The_stated_error_does_not_hang_on_the_rows_that_are_printed()
    {
        double Stated(double every) =>
            HeatReports
                .Of(
                    Demo("cotton-shirt") with
                    {
                        Problem = Demo("cotton-shirt").Problem with { OutputEveryS = every },
                        Window = null,
                        Cool = null,
                        HotPeel = null,
                        PlateC = [],
                    },
                    TestContext.Current.CancellationToken
                )
                .Error.Kelvin;
        Assert.Equal(Stated(0.1), Stated(30), 1e-12);
    }

    [Fact]
    public void What_is_cold_already_takes_no_time_to_cool_and_what_never_cools_has_no_such_time()
    {
        var shirt = Demo("cotton-shirt");
        var rack = new HeatSide.Open(Temperature.FromCelsius(22), 8, 0.9);
        HeatStage Cool(double until, HeatSide side) =>
            new("cool", 600, Temperature.FromCelsius(until), side, side, [], []);
        HeatAnswer Of(params HeatStage[] stages) =>
            HeatSolver.Solve(shirt.Problem with { Stages = [shirt.Problem.Stages[0], .. stages] }, HeatSearch.Quick);
        HeatStage open = new("open", 7200, null, rack, rack, [], []);
        var twice = Of(open, Cool(35, rack));
        Assert.True(twice.Stages[^1].Passed);
        Assert.Equal(0, twice.CoolS);
        var never = Of(Cool(25, new HeatSide.Insulated()));
        Assert.False(never.Stages[^1].Passed);
        Assert.Null(never.CoolS);
        Assert.InRange(Of(Cool(35, rack)).CoolS!.Value, 10, 600);
    }

    // Two runs end such a stage at other times; what follows is compared by its age, else the jump of the next laying in would stand there as error.
    [Fact]
    public void The_stated_error_is_small_also_after_a_stage_that_waits_for_the_glue_line()
    {
        var ask = Demo("cotton-shirt");
        var press = ask.Problem.Stages[0];
        var rack = new HeatSide.Open(Temperature.FromCelsius(22), 8, 0.9);
        HeatStage cool = new("cool", 3600, Temperature.FromCelsius(35), rack, rack, [], []);
        ask = ask with
        {
            Problem = ask.Problem with { Stages = [press, cool, press with { Name = "again" }] },
            Cool = null,
            HotPeel = null,
            Window = null,
            PlateC = [],
        };
        var error = HeatReports.Of(ask, TestContext.Current.CancellationToken).Error;
        Assert.InRange(error.Kelvin, 0, 0.2);
        Assert.InRange(error.Seconds, 1e-6, 1);
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

    // Readings at the cold side of the pad tell nothing of the glue; readings above the plate's own temperature belong to no contact at all.
    [Theory]
    [InlineData("pad", 60, "do not tell how well glue on shirt touches|did not come to rest")]
    [InlineData("shirt", 300, "K apart|did not come to rest")]
    public void Readings_that_measure_nothing_leave_the_answer_from_tables(string below, double celsius, string words)
    {
        var ask = Demo("cotton-shirt");
        ask = ask with
        {
            Measured = new(
                [new HeatUnknown.Between("glue", "shirt")],
                [.. new[] { 5.0, 10, 20 }.Select(t => new HeatReading(below, t, celsius, 1))]
            ),
        };
        var report = HeatReports.Of(ask, TestContext.Current.CancellationToken);
        Assert.Equal(Evidence.Model, report.Evidence);
        Assert.Contains(words.Split('|'), w => report.Doubt!.Contains(w, StringComparison.Ordinal));
        Assert.Equal(ask.Problem.Contacts, report.Problem.Contacts);
        using var json = JsonDocument.Parse(HeatAnswerFile.Write(ask, report));
        Assert.Equal("model", json.RootElement.GetProperty("x-evidence").GetString());
        Assert.Equal(
            "not measured",
            json.RootElement.GetProperty("x-measured").GetProperty("found")[0].GetProperty("from").GetString()
        );
    }

    [Fact]
    public void The_demos_readings_measure_both_contacts()
    {
        var report = HeatReports.Of(Demo("calibration"), TestContext.Current.CancellationToken);
        Assert.Null(report.Doubt);
        Assert.Equal(Evidence.CalibratedModel, report.Evidence);
    }

    // A triangle from a to b about 1 holds 95 % within 1 - sqrt(0.05) of its half width (its own distribution function).
    [Fact]
    public void Chances_draw_a_measured_contact_from_its_own_interval_and_the_glue_from_its_trials()
    {
        var ask = Demo("cotton-shirt");
        var glue = new HeatUnknown.Between("glue", "shirt");
        var fitted = new HeatFitted([new(glue, 600, 300, 1200)], ask.Problem, 0.5, 5, true);
        var spreads = HeatReports.Spreads(ask, fitted, new(0.8, 0.76, 0.84));
        Assert.Equal(0.41, spreads.Of(glue).Low, 0.01);
        Assert.Equal(2.44, spreads.Of(glue).High, 0.01);
        Assert.Equal(new HeatSpread(0.5, 2), spreads.Of(new HeatUnknown.Between("shirt", "pad")));
        Assert.Equal(new HeatSpread(0.5, 2), spreads.Of(new HeatUnknown.UpperPlate()));
        Assert.InRange(spreads.Bond.Low, 0.92, 0.95);
        Assert.InRange(spreads.Bond.High, 1.05, 1.08);
        Assert.Equal(new HeatSpread(0.5, 2), HeatReports.Spreads(ask).Bond);
    }

    [Fact]
    public void Every_answer_ends_with_a_caution_and_a_film_above_its_limit_asks_for_fresh_air()
    {
        var ask = Demo("cotton-shirt");
        Assert.Equal(
            [HeatCautions.Always],
            HeatCautions.Of(ask, HeatReports.Of(ask, TestContext.Current.CancellationToken))
        );
        var stage = ask.Problem.Stages[0] with
        {
            Upper = new HeatSide.Held(Craft.Measures.Temperature.FromCelsius(230), 1000),
        };
        ask = ask with { Problem = ask.Problem with { Stages = ask.Problem.Stages.SetItem(0, stage) } };
        var report = HeatReports.Of(ask, TestContext.Current.CancellationToken);
        var said = HeatCautions.Of(ask, report);
        Assert.Equal(2, said.Length);
        Assert.StartsWith("Fumes: film gets 2", said[0], StringComparison.Ordinal);
        Assert.DoesNotContain("release sheet", said[0], StringComparison.Ordinal);
        using var json = JsonDocument.Parse(HeatAnswerFile.Write(ask, report));
        Assert.Equal(2, json.RootElement.GetProperty("x-cautions").GetArrayLength());
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

    // Nine layers, of which the cover is taken out after the press: its line ends there and has its name there.
    [Fact]
    public void Nine_layers_are_told_apart_and_a_line_is_named_where_it_ends()
    {
        var ask = Demo("cotton-shirt");
        var first = ask.Problem.Layers;
        var problem = ask.Problem with
        {
            Layers =
            [
                .. first,
                .. Enumerable.Range(1, 9 - first.Length).Select(i => first[^1] with { Name = $"pad {i}" }),
            ],
            ProfileS = [10],
        };
        problem = problem with
        {
            Stages =
            [
                problem.Stages[0],
                problem.Stages[0] with
                {
                    Name = "uncovered",
                    Remove = [first[0].Name],
                    Add = [],
                },
            ],
        };
        var all = XDocument
            .Parse(HeatPicture.Svg(problem, HeatSolver.Solve(problem, HeatSearch.Quick)))
            .Descendants()
            .ToArray();
        var name = all.Single(e => e.Name.LocalName == "text" && e.Value == $"under {first[0].Name}");
        Assert.InRange(
            double.Parse((string)name.Attribute("x")!, System.Globalization.CultureInfo.InvariantCulture),
            100,
            700
        );
        // Under nine layers and over all, but for the glue line, which is thicker and has a colour.
        var thin = all.Where(e => e.Name.LocalName == "path" && (string?)e.Attribute("stroke-width") == "1.4")
            .Select(e => (string?)e.Attribute("stroke-dasharray") ?? "")
            .Take(9)
            .ToArray();
        Assert.Equal(9, thin.Distinct().Count());
    }

    [Fact]
    public void The_picture_as_png_is_twice_as_fine()
    {
        var problem = Demo("sheet-bond").Problem with { ProfileS = [5] };
        var png = HeatPicture.Png(problem, HeatSolver.Solve(problem, HeatSearch.Quick));
        Assert.Equal(2000, BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(16)));
    }
}
