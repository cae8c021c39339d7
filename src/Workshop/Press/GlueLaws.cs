using Coldpeel.Craft.Press.Heat;

namespace Coldpeel.Workshop.Press;

/// <summary>How the glue of white-toner transfers bonds, before a workshop has fitted it to its own press trials.</summary>
public static class GlueLaws
{
    /// <summary>What must stand beside every answer that rests on <see cref="Usual"/>.</summary>
    public const string NotCalibrated = "not yet calibrated";

    /// <summary>Pressure on the item where nobody has said, kPa: common practice, no source.</summary>
    public const double UsualKPa = 30;

    /// <summary>One set for every fabric: not yet calibrated.</summary>
    /// <remarks>
    /// Softening at 105 °C: copolyester hot melts melt at 105 to 118 °C and bond at 130 to 150 °C (published page on fusible interlinings). The rest is the
    /// order of magnitude of such glues, from memory: 2.5 s to heal at 130 °C with 80 kJ/mol; 300 Pa·s at 150 °C with 60 kJ/mol; fibres that let it in as 3·10⁻¹² m² do, a
    /// depth of 0.04 mm (two to three fibres) at which it holds. Only the ratio of the last four counts.
    /// </remarks>
    public static GlueLaw Usual { get; } =
        new(
            SoftensC: 105,
            Heals: new HeatRate(130, 2.5, 80),
            PaS: 300,
            PaSAtC: 150,
            FlowKJmol: 60,
            PermeabilityM2: 3e-12,
            Porosity: 0.7,
            DepthMm: 0.04
        );
}
