using System.Text.Json.Nodes;
using Coldpeel.Craft.Press.Heat;
using Coldpeel.Files.Press;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Tests.Press;

public sealed class StackFileTests
{
    [Fact]
    public void A_figure_of_the_file_comes_before_the_librarys()
    {
        var ask = Read(s => s["layers"]![0]!["kWmK"] = 0.5).Value!;
        Assert.Equal(0.5, ask.Problem.Layers[0].WmK);
        Assert.Equal(2100, ask.Problem.Layers[0].DensityKgM3);
    }

    [Fact]
    public void A_film_of_12_and_a_half_micrometres_is_as_thick_as_written() =>
        Assert.Equal(0.0125, Read(s => s["layers"]![0]!["thicknessMm"] = 0.0125).Value!.Problem.Layers[0].ThicknessMm);

    [Fact]
    public void A_fabric_of_own_weight_and_thickness_gets_the_rest_by_the_rule_of_mixing()
    {
        var layer = Read(s => s["layers"]![1]!["x-gM2"] = 300).Value!.Problem.Layers[1];
        Assert.Equal(500, layer.DensityKgM3, 1e-9);
        Assert.Equal(HeatMaterials.Find("cotton-fabric")!.Weighing(300, 0.6)!.WmK.Value, layer.WmK, 1e-12);
    }

    [Fact]
    public void A_blend_of_the_files_own_is_a_material()
    {
        var ask = Read(s =>
        {
            s["x-materials"] = JsonNode.Parse(
                """[{ "name": "our sweatshirt", "of": { "cotton-fabric": 0.8, "polyester-fabric": 0.2 }, "gM2": 280, "thicknessMm": 1.1 }]"""
            );
            s["layers"]![1]!["material"] = "our sweatshirt";
        }).Value!;
        Assert.Equal(280 / 1.1, ask.Problem.Layers[1].DensityKgM3, 1e-9);
        Assert.Equal("its dye wanders into the print", ask.Harm["shirt"].What);
    }

    [Fact]
    public void Curves_damp_radiation_courses_and_growing_contacts_are_read()
    {
        var ask = Read(s =>
        {
            s["layers"]![1]!["x-kWmK"] = JsonNode.Parse("[[20, 0.07], [150, 0.09]]");
            s["layers"]![1]!["x-water"] = 0.07;
            s["lower"] = JsonNode.Parse("""{ "airC": 22, "hWm2K": 6, "x-emissivity": 0.9 }""");
            s["upper"] = JsonNode.Parse(
                """{ "heldC": 150, "hWm2K": 900, "x-courseC": [[0, 150], [2, 141], [20, 150]], "x-atKPa": 30, "x-power": 0.3 }"""
            );
        }).Value!;
        var layer = ask.Problem.Layers[1];
        Assert.Equal(0.08, layer.WmKOf!.At(85), 1e-12);
        Assert.Equal(0.07, layer.Damp!.WaterShare);
        Assert.Equal(0.9, Assert.IsType<HeatSide.Open>(ask.Problem.Stages[0].Lower).Emissivity);
        var course = Assert.IsType<HeatSide.Course>(ask.Problem.Stages[0].Upper);
        Assert.Equal((3, 900.0, 0.3), (course.Points.Length, course.ContactWm2K, course.Growth!.Power));
    }

    [Fact]
    public void A_window_without_a_pressure_takes_the_usual_one_and_all_else_stays_unpressed()
    {
        Assert.Equal(0, Read(s => s.Remove("x-window")).Value!.Problem.Stages[0].PressureKPa);
        Assert.Equal(GlueLaws.UsualKPa, Read(_ => { }).Value!.Problem.Stages[0].PressureKPa);
        Assert.Equal(55, Read(s => s["stages"]![0]!["x-kPa"] = 55).Value!.Problem.Stages[0].PressureKPa);
    }

    public static TheoryData<string, string, string> Wrong =>
        new()
        {
            {
                "layers[0].thicknessMm",
                """{ "layers": [{ "name": "a", "material": "ptfe", "thicknessMm": -0.1 }] }""",
                "0.001"
            },
            {
                "layers[0].thicknessMm",
                """{ "layers": [{ "name": "a", "material": "ptfe", "thicknessMm": 0 }] }""",
                "0.001"
            },
            {
                "layers[0].thicknessMm",
                """{ "layers": [{ "name": "a", "material": "ptfe", "thicknessMm": 25000 }] }""",
                "1000"
            },
            {
                "layers[0].material",
                """{ "layers": [{ "name": "a", "material": "unobtainium", "thicknessMm": 1 }] }""",
                "is not known"
            },
            { "x-harm[0].limitC", """{ "x-harm": [{ "layer": "shirt", "limitC": 90 }] }""", "softens only at 105 °C" },
            { "x-harm[0].limitC", """{ "x-harm": [{ "layer": "shirt", "limitC": 15 }] }""", "before it is pressed" },
            {
                "contacts[0]",
                """{ "layers": [{ "name": "glue", "material": "ptfe-cloth", "thicknessMm": 0.06 }, { "name": "shirt", "material": "cotton-fabric", "thicknessMm": 0.6 }, { "name": "pad", "material": "silicone-foam", "thicknessMm": 8 }], "contacts": [{ "above": "glue", "below": "pad", "hWm2K": 500 }] }""",
                "never touch"
            },
            { "x-harm[0]", """{ "x-harm": [{ "layer": "shirt" }] }""", "neither limit nor dose" },
            { "x-harm[0].doseS", """{ "x-harm": [{ "layer": "shirt", "doseS": 30 }] }""", "atC" },
            { "x-harm[0].layer", """{ "x-harm": [{ "layer": "coat", "limitC": 150 }] }""", "no layer is called" },
            { "x-cool.untilC", """{ "x-cool": { "untilC": 20, "airC": 22 } }""", "nothing cools to 20" },
            { "x-window.stage", """{ "x-window": { "stage": "iron" } }""", "no stage is called" },
            { "x-hotPeel.stage", """{ "x-hotPeel": { "stage": "iron", "aboveC": 100 } }""", "no stage is called" },
            { "x-trials", """{ "x-trials": [{ "seconds": 8, "held": true }] }""", "every trial held" },
            { "x-plate", """{ "x-plate": [150, 150, 150, 150, 150, 150, 150, 150] }""", "9" },
            {
                "x-measured.unknown[0]",
                """{ "x-measured": { "unknown": ["lower"], "readings": [{ "below": "shirt", "celsius": 90 }] } }""",
                "first guess"
            },
            {
                "x-measured.readings[0].below",
                """{ "x-measured": { "unknown": ["upper"], "readings": [{ "below": "coat", "celsius": 90 }] } }""",
                "no layer is called"
            },
            {
                "x-measured.readings[0].atS",
                """{ "x-measured": { "unknown": ["upper"], "readings": [{ "below": "shirt", "atS": 99, "celsius": 90 }] } }""",
                "end after 30 s"
            },
            {
                "x-materials[0].of",
                """{ "x-materials": [{ "name": "own", "of": { "cotton-fabric": 0.5 }, "gM2": 200, "thicknessMm": 0.5 }] }""",
                "do not add up to 1"
            },
            {
                "x-materials[0].gM2",
                """{ "x-materials": [{ "name": "own", "of": { "cotton-fabric": 1 }, "gM2": 2000, "thicknessMm": 0.5 }] }""",
                "denser than its own fibre"
            },
            {
                "x-cool.remove[0]",
                """{ "stages": [{ "name": "press", "seconds": 30 }, { "name": "open", "seconds": 5, "remove": ["shirt"] }], "x-cool": { "after": "open", "untilC": 35, "remove": ["shirt"] } }""",
                "no longer in the stack after"
            },
            {
                "x-cool.remove[1]",
                """{ "x-cool": { "after": "press", "untilC": 35, "remove": ["shirt", "shirt"] } }""",
                "no longer in the stack after"
            },
            { "upper.x-courseC", Course("[[0, 150], [5, 1e300]]"), "no plate has such a course" },
            { "upper.x-courseC", Course("[[0, 150], [5, -5000]]"), "no plate has such a course" },
            { "upper.x-courseC", Course("[[0, 150], [1e300, 140]]"), "no plate has such a course" },
            { "layers[0].x-kWmK", Curve("x-kWmK", "[[20, 0.2], [100, 1e300]]"), "from 0.001 to 10000" },
            { "layers[0].x-kWmK", Curve("x-kWmK", "[[20, 0.2], [1e300, 0.3]]"), "from -200 to 1000" },
            { "layers[0].x-heatJkgK", Curve("x-heatJkgK", "[[20, 1e-9], [100, 900]]"), "from 1 to 100000" },
            { "outputEveryS", """{ "outputEveryS": 1e-6 }""", "less than 0.01" },
            {
                "outputEveryS",
                """{ "outputEveryS": 0.01, "stages": [{ "name": "press", "seconds": 300 }] }""",
                "about 30000 rows"
            },
            { "x-harm[0].limitC", """{ "x-harm": [{ "layer": "glue", "limitC": 100 }] }""", "heated through it" },
            {
                "reachC",
                """{ "reachC": 140, "x-harm": [{ "layer": "shirt", "limitC": 120 }] }""",
                "whose limit is 120 °C"
            },
            {
                "glueLineBelow",
                """{ "reachC": 105, "stages": [{ "name": "press", "seconds": 30, "remove": ["glue"] }], "x-window": { "stage": "press" } }""",
                "the glue line is never there"
            },
            { "upper.insulated", """{ "upper": { "insulated": false } }""", "false is not true. Write true" },
            {
                "layers[0].kWmK",
                """{ "layers": [{ "name": "glue", "kWmK": 1e9, "densityKgM3": 1000, "heatJkgK": 1000, "thicknessMm": 1 }] }""",
                "0.0001 to 100000"
            },
            {
                "stages[1].untilGlueLineC",
                """{ "stages": [{ "name": "press", "seconds": 30 }, { "name": "rack", "untilGlueLineC": 15, "upper": { "airC": 22, "hWm2K": 6 } }] }""",
                "never gets to 15 °C"
            },
            {
                "stages[1].untilGlueLineC",
                """{ "stages": [{ "name": "press", "seconds": 30 }, { "name": "heat", "untilGlueLineC": 160 }] }""",
                "22 to 150 °C"
            },
            {
                "stages[1].untilGlueLineC",
                """{ "stages": [{ "name": "press", "seconds": 30 }, { "name": "rack", "untilGlueLineC": 50, "remove": ["glue"], "upper": { "airC": 22, "hWm2K": 6 } }] }""",
                "\"glue\" is no longer in the stack"
            },
            {
                "x-window.stage",
                """{ "stages": [{ "name": "press", "seconds": 30, "remove": ["glue"] }] }""",
                "no longer in the stack then"
            },
            {
                "x-harm[1].layer",
                """{ "x-harm": [{ "layer": "shirt", "limitC": 200 }, { "layer": "shirt", "limitC": 180 }] }""",
                "told twice"
            },
            {
                "contacts[1]",
                """{ "contacts": [{ "above": "glue", "below": "shirt", "hWm2K": 9 }, { "above": "glue", "below": "shirt", "hWm2K": 5 }] }""",
                "stands there twice"
            },
            {
                "contacts[0]",
                """{ "contacts": [{ "above": "shirt", "below": "glue", "hWm2K": 5 }] }""",
                "\"shirt\" never lies above \"glue\""
            },
            {
                "stages[1].name",
                """{ "stages": [{ "name": "press", "seconds": 30 }, { "name": "press", "seconds": 5 }] }""",
                "two stages are called"
            },
            {
                "x-plate",
                Course("[[0, 150], [5, 140]]", """, "x-plate": [150, 150, 150, 150, 150, 150, 150, 150, 140]"""),
                "no steady set-point"
            },
            {
                "x-trials[1].plateC",
                Course(
                    "[[0, 150], [5, 140]]",
                    """, "x-trials": [{ "seconds": 5, "held": false }, { "seconds": 20, "held": true, "plateC": 170 }]"""
                ),
                "no steady set-point"
            },
        };

    private static string Course(string points, string more = "") =>
        $$"""{ "upper": { "heldC": 150, "hWm2K": 1000, "x-courseC": {{points}} }{{more}} }""";

    private static string Curve(string key, string points) =>
        $$"""{ "layers": [{ "name": "glue", "material": "ptfe-cloth", "thicknessMm": 0.06, "{{key}}": {{points}} }, { "name": "shirt", "material": "cotton-fabric", "thicknessMm": 0.6 }] }""";

    // A stack of everything in its place, and what waits for a temperature that comes.
    [Fact]
    public void What_does_not_contradict_is_let_through() =>
        Assert.True(
            Read(s =>
            {
                s["reachC"] = 105;
                s["outputEveryS"] = 0.01;
                s["contacts"] = JsonNode.Parse("""[{ "above": "glue", "below": "shirt", "hWm2K": 900 }]""");
                s["x-harm"] = JsonNode.Parse(
                    """[{ "layer": "shirt", "limitC": 200 }, { "layer": "glue", "limitC": 260 }]"""
                );
                s["stages"] = JsonNode.Parse(
                    """[{ "name": "press", "seconds": 30 }, { "name": "open", "seconds": 99, "untilGlueLineC": 40, "upper": { "airC": 22, "hWm2K": 6 } }]"""
                );
                s["x-cool"] = JsonNode.Parse("""{ "after": "open", "untilC": 35, "remove": ["shirt"] }""");
            }).Ok
        );

    [Theory]
    [MemberData(nameof(Wrong))]
    public void What_is_wrong_is_told_by_place_in_one_line(string place, string patch, string words)
    {
        var read = Read(s =>
        {
            foreach (var (key, value) in JsonNode.Parse(patch)!.AsObject())
            {
                s[key] = value!.DeepClone();
            }
        });
        Assert.False(read.Ok);
        var line = read.Fault!.ToString();
        Assert.Contains($"stack.json: {place}", line, StringComparison.Ordinal);
        Assert.Contains(words, line, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', line);
    }

    internal static Workshop.Findings.Outcome<HeatAsk> Read(Action<JsonObject> change)
    {
        var stack = JsonNode
            .Parse(
                """
                {
                  "startC": 22,
                  "upper": { "heldC": 150, "hWm2K": 1000 },
                  "lower": { "insulated": true },
                  "layers": [
                    { "name": "glue", "material": "ptfe-cloth", "thicknessMm": 0.06 },
                    { "name": "shirt", "material": "cotton-fabric", "thicknessMm": 0.6 }
                  ],
                  "glueLineBelow": "glue",
                  "stages": [{ "name": "press", "seconds": 30 }],
                  "x-window": { "stage": "press" }
                }
                """
            )!
            .AsObject();
        change(stack);
        var folder = Place.NewFolder();
        var path = Path.Combine(folder, "stack.json");
        File.WriteAllText(path, stack.ToJsonString());
        var read = StackFile.Read(path, "stack.json");
        Directory.Delete(folder, recursive: true);
        return read;
    }
}
