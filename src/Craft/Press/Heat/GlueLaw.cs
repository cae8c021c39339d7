namespace Coldpeel.Craft.Press.Heat;

/// <summary>How a glue bonds: it heals across the line where it touches, and it is pressed into the fibres. One set for every fabric.</summary>
/// <remarks>
/// Healing: degree = (∫ dt / t(T))^(1/4), with t the healing time at a temperature: Bastien and Gillespie, "A non-isothermal healing model for strength
/// and toughness of fusion bonded joints of amorphous thermoplastics", Polym. Eng. Sci. 31(24), 1991 (from memory; reviewed by Yang and Pitchumani,
/// Macromolecules 35(8), 2002, who show where it errs: temperatures that fall while it heals). Penetration: Darcy's law with a viscosity after
/// Arrhenius, depth² = 2 K / φ ∫ p / μ(T) dt (from memory). Below its softening point the glue does neither.
/// </remarks>
/// <param name="SoftensC">Where it begins to flow, °C.</param>
/// <param name="Heals">Time in which it heals wholly at a temperature.</param>
/// <param name="PaS">Viscosity at <paramref name="PaSAtC"/>, Pa·s.</param>
/// <param name="PaSAtC">The temperature of that viscosity, °C.</param>
/// <param name="FlowKJmol">Activation energy of flow, kJ/mol.</param>
/// <param name="PermeabilityM2">Permeability of the fibres, m².</param>
/// <param name="Porosity">Share of the fibres' room that the glue can fill, above 0 up to 1.</param>
/// <param name="DepthMm">Depth at which it holds, mm.</param>
public sealed record GlueLaw(
    double SoftensC,
    HeatRate Heals,
    double PaS,
    double PaSAtC,
    double FlowKJmol,
    double PermeabilityM2,
    double Porosity,
    double DepthMm
)
{
    /// <summary>Share of whole healing done in a second at a temperature in °C: the integrand, before the fourth root.</summary>
    public double HealsPerSecond(double celsius) => celsius < SoftensC ? 0 : Heals.PerSecond(celsius);

    /// <summary>Share of the wanted depth, squared, that is gained in a second at a temperature in °C under a pressure in kPa.</summary>
    public double EntersPerSecond(double celsius, double kPa)
    {
        if (celsius < SoftensC || kPa <= 0)
        {
            return 0;
        }

        var viscosity = PaS * new HeatRate(PaSAtC, 1, FlowKJmol).SecondsAt(celsius);
        var metres = DepthMm / 1000;
        return 2 * PermeabilityM2 * kPa * 1000 / (Porosity * viscosity * metres * metres);
    }

    /// <summary>Degree of healing, 0 to 1, from the healing integral.</summary>
    public static double Healed(double integral) => Math.Min(1, Math.Sqrt(Math.Sqrt(Math.Max(0, integral))));

    /// <summary>Share of the wanted depth, from its integral; may pass 1.</summary>
    public static double Entered(double integral) => Math.Sqrt(Math.Max(0, integral));
}

/// <summary>What a layer does not stand: a temperature it must never pass, a dose, or both.</summary>
/// <param name="LimitC">Never hotter than this, °C; null for no such limit.</param>
/// <param name="Dose">Harm that adds up: done at a dose of one; null for none.</param>
/// <param name="What">What happens: "dye wanders", "scorches".</param>
public sealed record HarmLaw(double? LimitC, HeatRate? Dose, string What);
