using System.Collections.Frozen;

namespace Coldpeel.Workshop.Press;

/// <summary>Heat properties of a material, one nominal figure each.</summary>
/// <param name="Name">Its name in a stack file.</param>
/// <param name="WmK">Conductivity, W/(m·K).</param>
/// <param name="DensityKgM3">Density, kg/m³.</param>
/// <param name="HeatJkgK">Specific heat, J/(kg·K).</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record HeatMaterial(string Name, double WmK, double DensityKgM3, double HeatJkgK, string Source);

/// <summary>Nominal heat properties of what lies in a press. The range of each is wide: figures of your own material come first.</summary>
public static class HeatMaterials
{
    private const string Memory = "from memory, no source seen";

    private static readonly FrozenDictionary<string, HeatMaterial> All = new HeatMaterial[]
    {
        new("cotton-fabric", 0.071, 400, 1300, "k: published textile table, 0.071–0.073; density and heat " + Memory),
        new("polyester-fabric", 0.084, 400, 1300, "k: published textile table, 0.084; density and heat " + Memory),
        new(
            "wool-felt",
            0.054,
            250,
            1360,
            "k: published textile table, 0.052–0.055, and Baxter 1946, Proc. Phys. Soc. 58, 105; density and heat "
                + Memory
        ),
        new(
            "leather",
            0.09,
            900,
            1500,
            "k: J. Industrial Textiles 51(5S) 2022, 0.063–0.090; density and heat " + Memory
        ),
        new("softwood", 0.13, 500, 1600, "k and density: EN ISO 10077-2 table; heat " + Memory),
        new("hardwood", 0.18, 700, 1600, "k and density: EN ISO 10077-2 table; heat " + Memory),
        new("plywood", 0.17, 700, 1600, "EN ISO 10456 table 3, " + Memory),
        new(
            "polyester-film",
            0.15,
            1380,
            1300,
            "published properties of PET: k 0.13–0.15 for film, density 1300–1400, heat 1200–1350"
        ),
        new("paper", 0.14, 800, 1340, "k of cardboard: published table; density and heat " + Memory),
        new("silicone-rubber", 0.35, 1200, 1200, "k and density: EN ISO 10077-2 table; heat " + Memory),
        new("silicone-foam", 0.17, 820, 1200, "k 0.17 at 820 kg/m³: EN ISO 10077-2 table; heat " + Memory),
        new(
            "ptfe",
            0.26,
            2200,
            1060,
            "k and heat: Springer Handbook of Condensed Matter, table 3.3-13; density " + Memory
        ),
        new("ptfe-cloth", 0.25, 2100, 950, Memory),
        new("release-paper", 0.14, 900, 1400, "as paper, " + Memory),
        new("aluminium", 160, 2800, 875, "alloy: EN ISO 10077-2 table (k, density), Incropera example 5.3 (heat)"),
        new("hot-melt-film", 0.25, 1100, 1700, "polyamide k 0.25 at 1150 kg/m³: published table; heat " + Memory),
        new("toner", 0.2, 1300, 1300, "estimate, no published figure seen"),
    }.ToFrozenDictionary(m => m.Name);

    /// <summary>All names, in order.</summary>
    public static IReadOnlyList<string> Names { get; } = [.. All.Keys.Order(StringComparer.Ordinal)];

    /// <summary>A material by name, or null.</summary>
    public static HeatMaterial? Find(string name) => All.GetValueOrDefault(name);
}
