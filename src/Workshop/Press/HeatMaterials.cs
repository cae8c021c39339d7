using System.Collections.Frozen;
using Coldpeel.Craft.Press.Heat;

namespace Coldpeel.Workshop.Press;

/// <summary>Heat properties of what lies in a press. The range of each is wide: figures of your own material come first.</summary>
/// <remarks>
/// Sources, by their short names below. Textile table: a published table of cotton 0.071 to 0.073, wool 0.052 to 0.055, polyester 0.084, air 0.026 W/(m·K).
/// Baxter: Proc. Phys. Soc. 58, 105 (1946), wool keratin 0.193 to 0.223. Leather: J. Industrial Textiles 51(5S), 2022, bovine 0.063 to 0.090; its
/// specific heat: Lamb, Sen and Ward, +3.9 % for every percent of water. Window table: EN ISO 10077-2:2003. PET: published properties, film 0.13 to 0.15
/// W/(m·K), 1200 to 1350 J/(kg·K). Springer: Handbook of Condensed Matter and Materials Data, table 3.3-13. Wood: FPL Wood Handbook, equation 4-15.
/// Everything else says "from memory".
/// </remarks>
public static class HeatMaterials
{
    private const string Memory = "from memory, no source seen";
    private const string Textile = "textile table";
    private const string Window = "EN ISO 10077-2 table";

    private static readonly HeatSolid Cotton = new(1540, 0.46, 15, 0.075, "fibre across: Morton and Hearle, " + Memory);
    private static readonly HeatSolid Polyester = new(1380, 0.15, 15, 0.004, "PET solid; softness " + Memory);
    private static readonly HeatSolid Wool = new(
        1310,
        0.21,
        8,
        0.15,
        "Baxter 1946; density, softness, water " + Memory
    );

    // Dark dyed polyester, low-energy dyes: from about 120 to 150 °C (from memory); ISO 105-P01 tests 30 s at 180 °C. One figure for all dyed polyester.
    private static readonly HarmLaw DyeWanders = new(220, new(140, 45, 120), "its dye wanders into the print");
    private const string DyeSource =
        "estimate: 45 s at 140 °C, 120 kJ/mol; low-energy disperse dyes move from about 120 to 150 °C, " + Memory;

    // Strength of cotton is practically unimpaired for 2 min at 160 to 220 °C (J. Appl. Polym. Sci. 23, 1979); it yellows before.
    private static readonly HarmLaw Scorches = new(230, new(200, 30, 120), "it yellows");
    private const string ScorchSource =
        "iron limit of 200 °C (ISO 3758) taken as 30 s; strength unimpaired 2 min at 160 to 220 °C (J. Appl. Polym. Sci. 23, 1979); 120 kJ/mol "
        + Memory;

    private static readonly FrozenDictionary<string, HeatMaterial> All = new[]
    {
        Of("cotton-fabric", F(0.071, 0.06, 0.09, Textile), F(400, 300, 700), F(1300, 1210, 1340)) with
        {
            Solid = Cotton,
            Harm = Scorches,
            HarmSource = ScorchSource,
        },
        Of("polyester-fabric", F(0.084, 0.05, 0.09, Textile), F(400, 250, 700), F(1300, 1200, 1400)) with
        {
            Solid = Polyester,
            Harm = DyeWanders,
            HarmSource = DyeSource,
        },
        Of(
            "polyester-cotton-fabric",
            F(0.077, 0.055, 0.09, "between its two fibres"),
            F(400, 280, 700),
            F(1300, 1200, 1400)
        ) with
        {
            Solid = new(1436, 0.26, 15, 0.03, "65 to 35 by mass of its two fibres"),
            Harm = DyeWanders,
            HarmSource = DyeSource,
        },
        Of("fleece", F(0.045, 0.035, 0.06), F(150, 80, 250), F(1300, 1200, 1400)) with
        {
            Solid = Polyester with { SoftKPa = 2 },
            Harm = DyeWanders,
            HarmSource = DyeSource,
        },
        Of("wadding", F(0.04, 0.033, 0.05), F(40, 15, 100), F(1300, 1200, 1400)) with
        {
            Solid = Polyester with { SoftKPa = 0.5 },
            Harm = DyeWanders,
            HarmSource = DyeSource,
        },
        Of(
            "wool-felt",
            F(0.054, 0.036, 0.07, Textile + " 0.052–0.055, Baxter 1946"),
            F(250, 100, 400),
            F(1360, 1300, 1500)
        ) with
        {
            Solid = Wool,
            Harm = new(200, new(150, 45, 110), "it turns harsh and yellow"),
            HarmSource = "estimate: 45 s at 150 °C, 110 kJ/mol; a short pressing at 150 °C is usual, " + Memory,
        },
        Of("polyester-felt", F(0.05, 0.04, 0.07), F(200, 100, 350), F(1300, 1200, 1400)) with
        {
            Solid = Polyester with { SoftKPa = 8 },
            Harm = DyeWanders,
            HarmSource = DyeSource,
        },
        Of(
            "leather",
            F(0.09, 0.063, 0.16, "J. Industrial Textiles 51(5S) 2022, 0.063–0.090; upper end " + Memory),
            F(900, 700, 1100),
            F(1500, 1400, 1800)
        ) with
        {
            Solid = new(1400, 0.2, 200, 0.14, Memory),
            Harm = new(150, new(120, 30, 250), "it shrinks and hardens"),
            HarmSource =
                "estimate: 30 s at 120 °C, 250 kJ/mol, dry; wet leather shrinks from 75 °C (vegetable) or 100 °C (chrome): Conservation Science p. 95",
        },
        Of(
            "pine",
            F(0.13, 0.10, 0.15, "Wood Handbook eq. 4-15: 0.138 at 0.50 and 12 %; " + Window),
            F(500, 350, 550, Window),
            F(1600, 1200, 1700)
        ) with
        {
            Harm = new(180, null, "it darkens and bleeds resin"),
            HarmSource = "darkens above 150 to 180 °C, " + Memory,
        },
        Of("softwood", F(0.13, 0.10, 0.15, Window), F(500, 350, 550, Window), F(1600, 1200, 1700)) with
        {
            Harm = new(180, null, "it darkens and bleeds resin"),
            HarmSource = "darkens above 150 to 180 °C, " + Memory,
        },
        Of("hardwood", F(0.18, 0.14, 0.20, Window), F(700, 600, 720, Window), F(1600, 1200, 1700)) with
        {
            Harm = new(180, null, "it darkens"),
            HarmSource = "darkens above 150 to 180 °C, " + Memory,
        },
        Of(
            "plywood",
            F(0.17, 0.13, 0.20, "EN ISO 10456 table 3, " + Memory),
            F(700, 500, 750),
            F(1600, 1500, 1700)
        ) with
        {
            Harm = new(180, null, "it darkens"),
            HarmSource = "darkens above 150 to 180 °C, " + Memory,
        },
        Of(
            "birch-plywood",
            F(0.17, 0.13, 0.20, "EN ISO 10456 table 3, " + Memory),
            F(680, 620, 750),
            F(1600, 1500, 1700)
        ) with
        {
            Harm = new(180, null, "it darkens"),
            HarmSource = "darkens above 150 to 180 °C, " + Memory,
        },
        Of("paper", F(0.14, 0.05, 0.18, "cardboard 0.14: published table"), F(800, 600, 1100), F(1340, 1300, 1400)) with
        {
            Harm = new(220, null, "it browns"),
            HarmSource = Memory,
        },
        Of("release-paper", F(0.14, 0.08, 0.20, "as paper, " + Memory), F(900, 800, 1100), F(1400, 1300, 1500)) with
        {
            Harm = new(220, null, "it browns"),
            HarmSource = Memory,
        },
        Of(
            "polyester-film",
            F(0.15, 0.13, 0.20, "PET: film 0.13–0.15"),
            F(1380, 1300, 1400, "PET"),
            F(1300, 1200, 1350, "PET")
        ) with
        {
            Harm = new(200, null, "it shrinks and curls"),
            HarmSource = "softens at 230 to 240 °C (published); 200 °C as the limit " + Memory,
        },
        Of(
            "ptfe",
            F(0.26, 0.23, 0.26, "Springer 3.3-13"),
            F(2200, 2100, 2200),
            F(1060, 1000, 1100, "Springer 3.3-13")
        ) with
        {
            Harm = new(260, null, "it gives off fumes"),
            HarmSource = "service limit 260 °C, " + Memory,
        },
        Of("ptfe-cloth", F(0.25, 0.20, 0.30), F(2100, 1900, 2200), F(950, 850, 1050)) with
        {
            Harm = new(260, null, "it gives off fumes"),
            HarmSource = "service limit 260 °C, " + Memory,
        },
        Of(
            "silicone-sheet",
            F(0.30, 0.20, 0.35, Window + ": pure 0.35"),
            F(1200, 1100, 1300, Window),
            F(1200, 1100, 1500)
        ),
        Of("silicone-rubber", F(0.35, 0.20, 0.35, Window), F(1200, 1100, 1300, Window), F(1200, 1100, 1500)),
        Of(
            "silicone-foam",
            F(0.17, 0.06, 0.17, Window + ": 0.17 at 820, 0.12 at 750"),
            F(820, 200, 820, Window),
            F(1200, 1100, 1500)
        ) with
        {
            Solid = new(1200, 0.35, 60, 0, Window + "; softness " + Memory),
        },
        Of("foam-pad", F(0.06, 0.04, 0.08), F(250, 100, 400), F(1300, 1100, 1500)) with
        {
            Solid = new(1200, 0.35, 15, 0, Memory),
        },
        Of(
            "aluminium",
            F(160, 150, 237, Window + ": alloys 160; pure 237 " + Memory),
            F(2800, 2700, 2800, Window),
            F(875, 875, 905, "Incropera example 5.3")
        ),
        Of(
            "hot-melt-film",
            F(0.25, 0.20, 0.30, "polyamide 0.25: " + Window),
            F(1100, 1050, 1300, Window + ": polyamide 1150"),
            F(1700, 1500, 2200)
        ),
        Of("toner", F(0.2, 0.15, 0.35, "estimate, no published figure seen"), F(1300, 1100, 1800), F(1300, 1000, 1500)),
    }.ToFrozenDictionary(m => m.Name);

    /// <summary>All names, in order.</summary>
    public static IReadOnlyList<string> Names { get; } = [.. All.Keys.Order(StringComparer.Ordinal)];

    /// <summary>A material by name, or null.</summary>
    public static HeatMaterial? Find(string name) => All.GetValueOrDefault(name);

    private static HeatMaterial Of(string name, HeatFigure k, HeatFigure density, HeatFigure heat) =>
        new(name, k, density, heat);

    private static HeatFigure F(double value, double low, double high, string source = Memory) =>
        new(value, low, high, source);
}
