namespace Coldpeel.Craft.Press.Heat;

/// <summary>Heat properties of fibres and air from those of the fibre.</summary>
public static class HeatMixing
{
    /// <summary>Still air, W/(m·K), at about 25 °C (published textile tables; 0.030 at 80 °C).</summary>
    public const double AirWmK = 0.026;

    /// <summary>Share of the sheet that conducts as if fibre and air lay side by side; the rest as if one lay behind the other.</summary>
    /// <remarks>
    /// Krischer's rule (from memory). 0.35 is ours: it brings a cotton fabric of 400 kg/m³ (fibre 0.46 W/(m·K) across) to 0.070, where a published
    /// textile table has 0.071 to 0.073.
    /// </remarks>
    public const double SideBySide = 0.35;

    /// <summary>Conductivity in W/(m·K) of a sheet of which a share is solid and the rest still air.</summary>
    /// <param name="solidShare">Share of the volume, 0 to 1.</param>
    /// <param name="solidWmK">Conductivity of the solid, W/(m·K).</param>
    /// <param name="sideBySide">Share of side by side, 0 to 1.</param>
    public static double Conductivity(double solidShare, double solidWmK, double sideBySide = SideBySide)
    {
        var share = Math.Clamp(solidShare, 0, 1);
        var beside = (share * solidWmK) + ((1 - share) * AirWmK);
        var behind = 1 / ((share / solidWmK) + ((1 - share) / AirWmK));
        return (sideBySide * beside) + ((1 - sideBySide) * behind);
    }

    /// <summary>Conductivity of wood across the grain in W/(m·K), at about 24 °C.</summary>
    /// <remarks>
    /// FPL Wood Handbook, equation 4-15: k = G (B + C x) + A; single boards are up to a fifth off, and 2 to 3 % more for every 10 °C.
    /// </remarks>
    /// <param name="gravity">Specific gravity (oven-dry mass over volume as it is), above 0.3.</param>
    /// <param name="moisturePercent">Moisture, below 25 %.</param>
    public static double Wood(double gravity, double moisturePercent) =>
        (gravity * (0.1941 + (0.004064 * moisturePercent))) + 0.01864;
}
