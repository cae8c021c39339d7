using System.Collections.Immutable;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Press.Heat;

namespace Coldpeel.Workshop.Press;

/// <summary>The stack of a pressing by figures from tables, for judging its recipe.</summary>
/// <remarks>
/// Cover, film, toner and glue as usual (thickness: common practice, no source); contacts of 1,000 W/(m²·K), an assumption between 300 and 3,000 for cloth
/// and sheets under a plate, where the press does not have its own measured; a pad of silicone foam that is warm from the pressing before, at 60 °C (common practice, no source).
/// </remarks>
public static class PressLayers
{
    /// <summary>The item's layer in the stack.</summary>
    public const string Item = "item";

    /// <summary>Contact conductance where nobody has measured, W/(m²·K).</summary>
    public const double UsualContactWm2K = 1000;

    private const double RoomC = 22;
    private const double WarmPadC = 60;

    /// <summary>The stack of a step on a material: bare under a cover for a pre-press, without the film for a finish press.</summary>
    /// <param name="step">A step with a set-point.</param>
    /// <param name="material">A material of the workshop.</param>
    /// <param name="longestS">Longest time looked at, s.</param>
    /// <param name="layers">How often the material lies there: 2 for the two sides of a garment.</param>
    /// <param name="padC">The pad's temperature at the start, °C.</param>
    /// <param name="contacts">What was measured at the press; null for nothing.</param>
    /// <returns>The question for its window, or null when the library does not know the material or the step has no heat.</returns>
    public static HeatWindowAsk? For(
        ProcessStep step,
        Material material,
        double longestS,
        int layers = 1,
        double padC = WarmPadC,
        PressContacts? contacts = null
    )
    {
        ArgumentNullException.ThrowIfNull(step);
        ArgumentNullException.ThrowIfNull(material);
        if (
            step.Celsius is not { } celsius
            || material.Heat is not { } name
            || HeatMaterials.Find(name) is not { } heat
        )
        {
            return null;
        }

        var (bare, finish) = (step.Kind == StepKind.PrePress, step.Kind == StepKind.FinishPress);
        ImmutableArray<HeatLayer> print =
        [
            Layer("toner", HeatMaterials.Find("toner")!, 0.015, RoomC),
            Layer("glue", HeatMaterials.Find("hot-melt-film")!, 0.06, RoomC),
        ];
        ImmutableArray<HeatLayer> stack =
        [
            Layer("cover", HeatMaterials.Find("ptfe-cloth")!, 0.13, RoomC),
            .. bare || finish ? [] : new[] { Layer("film", HeatMaterials.Find("polyester-film")!, 0.1, RoomC) },
            .. bare ? [] : print,
            Layer(Item, heat, material.ThicknessMm * layers, RoomC),
            Layer("pad", HeatMaterials.Find("silicone-foam")!, 8, padC),
        ];
        var problem = new HeatProblem(
            stack,
            [
                .. stack
                    .Zip(stack.Skip(1))
                    .Where(p => Apart(p.First.Name))
                    .Select(p => new HeatContact(p.First.Name, p.Second.Name, Touch(p.Second.Name, contacts))),
            ],
            bare ? "cover" : "glue",
            null,
            [
                new HeatStage(
                    "press",
                    step.Seconds,
                    null,
                    new HeatSide.Held(Temperature.FromCelsius(celsius), contacts?.UpperWm2K ?? UsualContactWm2K),
                    new HeatSide.Insulated(),
                    [],
                    []
                )
                {
                    PressureKPa = step.KPa ?? GlueLaws.UsualKPa,
                },
            ],
            longestS
        );
        return new(problem, 0, GlueLaws.Usual, Harms(stack, heat), longestS) { Bonded = bare || finish };
    }

    // What the item, the film and the sheet on top do not stand.
    private static ImmutableDictionary<string, HarmLaw> Harms(ImmutableArray<HeatLayer> stack, HeatMaterial item) =>
        stack
            .Select(l => (l.Name, MaterialOf(l.Name, item)?.Harm))
            .Where(l => l.Harm is not null)
            .ToImmutableDictionary(l => l.Name, l => l.Harm!);

    private static HeatMaterial? MaterialOf(string layer, HeatMaterial item) =>
        layer switch
        {
            Item => item,
            "film" => HeatMaterials.Find("polyester-film"),
            "cover" => HeatMaterials.Find("ptfe-cloth"),
            _ => null,
        };

    private static double Touch(string below, PressContacts? contacts) =>
        below switch
        {
            Item => contacts?.ItemWm2K,
            "pad" => contacts?.PadWm2K,
            _ => null,
        } ?? UsualContactWm2K;

    // Film, toner and glue were printed and bonded on one another.
    private static bool Apart(string above) => above is not ("film" or "toner");

    private static HeatLayer Layer(string name, HeatMaterial material, double mm, double celsius) =>
        new(
            name,
            material.WmK.Value,
            material.DensityKgM3.Value,
            material.HeatJkgK.Value,
            Length.FromMillimetres(mm),
            Temperature.FromCelsius(celsius)
        )
        {
            Squeeze = material.Squeeze(mm),
        };
}
