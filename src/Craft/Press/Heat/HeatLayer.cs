using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Press.Heat;

/// <summary>One layer of a stack.</summary>
/// <param name="Name">Its name, once in a stack.</param>
/// <param name="WmK">Conductivity in W/(m·K).</param>
/// <param name="DensityKgM3">Density in kg/m³.</param>
/// <param name="HeatJkgK">Specific heat in J/(kg·K).</param>
/// <param name="Thickness">Thickness; of a layer that is squeezed, the thickness it has without pressure.</param>
/// <param name="Start">Temperature when it enters the stack.</param>
public sealed record HeatLayer(
    string Name,
    double WmK,
    double DensityKgM3,
    double HeatJkgK,
    Length Thickness,
    Temperature Start
)
{
    /// <summary>Thickness in mm where whole micrometres are too coarse, as for toner and thin films; replaces <see cref="Thickness"/>. Null for that.</summary>
    public double? ExactMm { get; init; }

    /// <summary>The thickness in mm that holds.</summary>
    public double ThicknessMm => ExactMm ?? Thickness.InMillimetres;

    /// <summary>Conductivity in W/(m·K) as it changes with temperature; replaces <see cref="WmK"/>. Null for a constant.</summary>
    public HeatCurve? WmKOf { get; init; }

    /// <summary>Specific heat in J/(kg·K) as it changes with temperature; replaces <see cref="HeatJkgK"/>. Null for a constant.</summary>
    public HeatCurve? HeatJkgKOf { get; init; }

    /// <summary>Water that dries off; null for a dry layer.</summary>
    public HeatDamp? Damp { get; init; }

    /// <summary>How pressure thins it; null for a layer that keeps its thickness.</summary>
    public HeatSqueeze? Squeeze { get; init; }
}

/// <summary>Water in a layer, which takes heat as it dries off between two temperatures and never comes back.</summary>
/// <param name="WaterShare">Water, in kilogram for every kilogram of <see cref="HeatLayer.DensityKgM3"/>, 0 to 1.</param>
/// <param name="FromC">Where drying begins, °C.</param>
/// <param name="ToC">Where it is dry, °C, above <paramref name="FromC"/>.</param>
/// <param name="LatentJkg">Heat that one kilogram of water takes: 2.257 MJ at 100 °C (steam tables, from memory).</param>
public sealed record HeatDamp(double WaterShare, double FromC = 97, double ToC = 103, double LatentJkg = 2.257e6);

/// <summary>How a layer of fibres or foam thins under pressure.</summary>
/// <remarks>
/// Thickness: solid + (free - solid) (1 + p / soft)^(-1/3), the inverse-cube law of van Wyk ("Note on the compressibility of wool", J. Textile
/// Inst. 37, 1946) with the thickness at no pressure as its other end. The law is disputed in detail (Textile Research Journal 2021,
/// doi:10.1177/00405175211017402) and in use for fabrics still. Conductivity: the layer is solid and gas, partly side by side, partly one
/// behind the other (<see cref="HeatMixing"/>), and changes as that rule says from the figure at no pressure.
/// </remarks>
/// <param name="SolidMm">Thickness if all gas were pressed out, mm; below the layer's own.</param>
/// <param name="SoftKPa">Pressure at which the free part has lost a fifth, kPa.</param>
/// <param name="SolidWmK">Conductivity of the solid, W/(m·K).</param>
public sealed record HeatSqueeze(double SolidMm, double SoftKPa, double SolidWmK)
{
    /// <summary>Thickness in mm at a pressure in kPa.</summary>
    public double ThicknessMm(double freeMm, double kPa) =>
        SolidMm + ((freeMm - SolidMm) / Math.Cbrt(1 + (Math.Max(0, kPa) / SoftKPa)));

    /// <summary>How many times better it conducts at a pressure in kPa than without.</summary>
    public double ConductsBetter(double freeMm, double kPa) =>
        HeatMixing.Conductivity(SolidMm / ThicknessMm(freeMm, kPa), SolidWmK)
        / HeatMixing.Conductivity(SolidMm / freeMm, SolidWmK);
}
