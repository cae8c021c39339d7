using System.Collections.Immutable;
using Coldpeel.Craft.Press.Heat;

namespace Coldpeel.Workshop.Press;

/// <summary>A figure with the range it was found in and where it comes from.</summary>
/// <param name="Value">The figure to use when nothing better is known.</param>
/// <param name="Low">Least seen.</param>
/// <param name="High">Most seen.</param>
/// <param name="Source">Where it comes from, or "from memory, no source seen".</param>
public sealed record HeatFigure(double Value, double Low, double High, string Source)
{
    /// <summary>The range as factors on the value.</summary>
    public HeatSpread Spread => new(Low / Value, High / Value);
}

/// <summary>What a sheet of fibres or foam is made of, so that its properties follow from weight and thickness.</summary>
/// <param name="DensityKgM3">Density of the solid, kg/m³.</param>
/// <param name="WmK">Conductivity of the solid across, W/(m·K).</param>
/// <param name="SoftKPa">Pressure at which its free thickness has lost a fifth, kPa.</param>
/// <param name="WaterShare">Water it holds in a room of 65 % humidity, kg for every kg.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record HeatSolid(double DensityKgM3, double WmK, double SoftKPa, double WaterShare, string Source);

/// <summary>Heat properties of a material.</summary>
/// <param name="Name">Its name in a stack file.</param>
/// <param name="WmK">Conductivity, W/(m·K).</param>
/// <param name="DensityKgM3">Density, kg/m³.</param>
/// <param name="HeatJkgK">Specific heat, J/(kg·K).</param>
public sealed record HeatMaterial(string Name, HeatFigure WmK, HeatFigure DensityKgM3, HeatFigure HeatJkgK)
{
    /// <summary>What it is made of; null for what is solid through.</summary>
    public HeatSolid? Solid { get; init; }

    /// <summary>What it does not stand; null when nothing below the reach of a press harms it.</summary>
    public HarmLaw? Harm { get; init; }

    /// <summary>Where the harm's figures come from.</summary>
    public string HarmSource { get; init; } = "";

    /// <summary>How well its figures are known; a thickness that was measured is taken to be right within a twentieth.</summary>
    public HeatLayerSpread Spread => new(WmK.Spread, DensityKgM3.Spread, HeatJkgK.Spread, new(0.95, 1.05));

    /// <summary>The material at a weight and a thickness of your own.</summary>
    /// <remarks>
    /// Density is weight over thickness. Conductivity follows from the share of solid (<see cref="HeatMixing.Conductivity"/>), times what this material's
    /// own figure says against that rule. Specific heat stays: it goes by mass.
    /// </remarks>
    /// <param name="gramM2">Weight, g/m².</param>
    /// <param name="thicknessMm">Thickness without pressure, mm.</param>
    /// <returns>The material, or null when it is not made of solid and air, or would be denser than its solid.</returns>
    public HeatMaterial? Weighing(double gramM2, double thicknessMm)
    {
        var density = gramM2 / thicknessMm;
        if (Solid is not { } solid || density >= solid.DensityKgM3)
        {
            return null;
        }

        var own = WmK.Value / HeatMixing.Conductivity(DensityKgM3.Value / solid.DensityKgM3, solid.WmK);
        var k = own * HeatMixing.Conductivity(density / solid.DensityKgM3, solid.WmK);
        const string Rule = "from weight and thickness by the rule of mixing";
        return this with
        {
            WmK = new(k, k * WmK.Low / WmK.Value, k * WmK.High / WmK.Value, Rule),
            DensityKgM3 = new(density, density * 0.95, density * 1.05, "weight over thickness"),
        };
    }

    /// <summary>How pressure thins a layer of it of that thickness in mm; null for what is solid through.</summary>
    public HeatSqueeze? Squeeze(double thicknessMm) =>
        Solid is { } solid ? new(thicknessMm * DensityKgM3.Value / solid.DensityKgM3, solid.SoftKPa, solid.WmK) : null;

    /// <summary>A blend by mass of sheets of fibre, at a weight and thickness of your own.</summary>
    /// <remarks>Density of the solid and conductivity of the sheet go by volume, specific heat, water and softness by mass.</remarks>
    /// <param name="name">The blend's name.</param>
    /// <param name="of">Materials with a solid, and their shares by mass; they add up to one.</param>
    /// <param name="gramM2">Weight, g/m².</param>
    /// <param name="thicknessMm">Thickness without pressure, mm.</param>
    /// <returns>The blend, or null when a part has no solid or the sheet would be denser than its solid.</returns>
    public static HeatMaterial? Blend(
        string name,
        ImmutableArray<(HeatMaterial Material, double Share)> of,
        double gramM2,
        double thicknessMm
    )
    {
        if (of.IsDefaultOrEmpty || of.Any(p => p.Material.Solid is null))
        {
            return null;
        }

        var volume = of.Sum(p => p.Share / p.Material.Solid!.DensityKgM3);
        double ByVolume(Func<HeatMaterial, double> value) =>
            of.Sum(p => p.Share / p.Material.Solid!.DensityKgM3 / volume * value(p.Material));
        double ByMass(Func<HeatMaterial, double> value) => of.Sum(p => p.Share * value(p.Material));
        var solid = new HeatSolid(
            1 / volume,
            ByVolume(m => m.Solid!.WmK),
            ByMass(m => m.Solid!.SoftKPa),
            ByMass(m => m.Solid!.WaterShare),
            "blend"
        );
        var density = gramM2 / thicknessMm;
        if (density >= solid.DensityKgM3)
        {
            return null;
        }

        // Each part as if the whole sheet were of it, at the blend's share of solid.
        var k = ByVolume(m =>
            m.WmK.Value
            / HeatMixing.Conductivity(m.DensityKgM3.Value / m.Solid!.DensityKgM3, m.Solid.WmK)
            * HeatMixing.Conductivity(density / solid.DensityKgM3, m.Solid.WmK)
        );
        var heat = ByMass(m => m.HeatJkgK.Value);
        const string Rule = "from weight, thickness and blend by the rule of mixing";
        return new(
            name,
            new(
                k,
                k * of.Min(p => p.Material.WmK.Low / p.Material.WmK.Value),
                k * of.Max(p => p.Material.WmK.High / p.Material.WmK.Value),
                Rule
            ),
            new(density, density * 0.95, density * 1.05, "weight over thickness"),
            new(heat, ByMass(m => m.HeatJkgK.Low), ByMass(m => m.HeatJkgK.High), Rule)
        )
        {
            Solid = solid,
            // What one part does not stand the blend does not stand: the part that is harmed soonest at 150 °C speaks.
            Harm = of.Where(p => p.Share >= 0.1)
                .Select(p => p.Material.Harm)
                .OfType<HarmLaw>()
                .OrderBy(h => h.Dose?.SecondsAt(150) ?? 1e9)
                .FirstOrDefault(),
        };
    }
}
