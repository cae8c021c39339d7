using Coldpeel.Craft.Press.Heat;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Workshop.Tests.Press;

public sealed class HeatMaterialsTests
{
    // Published figures of the project's table of thermal properties (materials_thermal.csv names each source); those from memory are not held here.
    [Theory]
    [InlineData("cotton-fabric", 0.071, 0.073)] // textile table
    [InlineData("polyester-fabric", 0.084, 0.084)] // textile table
    [InlineData("wool-felt", 0.036, 0.055)] // textile table, Baxter 1946
    [InlineData("leather", 0.063, 0.090)] // J. Industrial Textiles 51(5S), 2022
    [InlineData("softwood", 0.13, 0.13)] // EN ISO 10077-2
    [InlineData("hardwood", 0.18, 0.18)] // EN ISO 10077-2
    [InlineData("polyester-film", 0.13, 0.15)] // published properties of PET
    [InlineData("paper", 0.14, 0.14)] // cardboard
    [InlineData("silicone-rubber", 0.35, 0.35)] // EN ISO 10077-2
    [InlineData("ptfe", 0.25, 0.26)] // Springer Handbook of Condensed Matter, table 3.3-13
    [InlineData("aluminium", 160, 177)] // EN ISO 10077-2; Incropera example 5.3
    public void Conductivities_lie_in_what_was_published(string name, double low, double high) =>
        Assert.InRange(HeatMaterials.Find(name)!.WmK.Value, low, high);

    [Fact]
    public void Every_figure_has_a_source_and_lies_in_its_own_range()
    {
        foreach (var material in HeatMaterials.Names.Select(n => HeatMaterials.Find(n)!))
        {
            foreach (var figure in new[] { material.WmK, material.DensityKgM3, material.HeatJkgK })
            {
                Assert.True(figure.Low <= figure.Value && figure.Value <= figure.High, material.Name);
                Assert.NotEmpty(figure.Source);
            }

            Assert.Equal(material.Harm is null, material.HarmSource.Length == 0);
        }
    }

    [Theory]
    [InlineData("cotton")]
    [InlineData("polyester")]
    [InlineData("polyester-cotton")]
    [InlineData("fleece")]
    [InlineData("wool-felt")]
    [InlineData("leather")]
    [InlineData("birch-plywood")]
    [InlineData("pine")]
    [InlineData("paper")]
    [InlineData("polyester-film")]
    [InlineData("ptfe")]
    [InlineData("silicone-sheet")]
    [InlineData("silicone-foam")]
    [InlineData("foam-pad")]
    [InlineData("aluminium")]
    public void The_library_holds_what_a_workshop_presses(string begins) =>
        Assert.Contains(HeatMaterials.Names, n => n.StartsWith(begins, StringComparison.Ordinal));

    // Mixing rule against the published fabric: cotton fibre 0.46 across (Morton and Hearle, from memory), 400 of 1540 kg/m³ → 0.071 to 0.073 (textile
    // table), within a twentieth.
    [Fact]
    public void The_rule_of_mixing_brings_a_cotton_fabric_to_its_published_conductivity() =>
        Assert.InRange(HeatMixing.Conductivity(400.0 / 1540, 0.46), 0.95 * 0.071, 1.05 * 0.073);

    // Whatever the share, a mixture lies between its parts one behind the other and side by side (Wiener's bounds, 1912, from memory).
    [Theory]
    [InlineData(0.05, 0.46)]
    [InlineData(0.3, 0.15)]
    [InlineData(0.9, 0.21)]
    public void A_mixture_lies_between_its_bounds(double share, double solid)
    {
        var k = HeatMixing.Conductivity(share, solid);
        Assert.InRange(
            k,
            1 / ((share / solid) + ((1 - share) / HeatMixing.AirWmK)),
            (share * solid) + ((1 - share) * HeatMixing.AirWmK)
        );
    }

    [Fact]
    public void A_sheet_of_the_librarys_own_weight_has_the_librarys_own_figures()
    {
        var cotton = HeatMaterials.Find("cotton-fabric")!;
        var same = cotton.Weighing(240, 0.6)!;
        Assert.Equal(cotton.WmK.Value, same.WmK.Value, 1e-12);
        Assert.Equal(400, same.DensityKgM3.Value, 1e-9);
        Assert.True(cotton.Weighing(300, 0.6)!.WmK.Value > cotton.WmK.Value);
    }

    [Fact]
    public void A_sheet_denser_than_its_fibre_and_a_weight_of_something_solid_are_refused()
    {
        Assert.Null(HeatMaterials.Find("cotton-fabric")!.Weighing(1600, 1));
        Assert.Null(HeatMaterials.Find("aluminium")!.Weighing(1000, 1));
    }

    [Fact]
    public void A_blend_lies_between_its_fibres_and_of_one_fibre_is_that_fibre()
    {
        var (cotton, polyester) = (HeatMaterials.Find("cotton-fabric")!, HeatMaterials.Find("polyester-fabric")!);
        var blend = HeatMaterial.Blend("own", [(cotton, 0.35), (polyester, 0.65)], 240, 0.6)!;
        Assert.InRange(blend.WmK.Value, cotton.WmK.Value, polyester.WmK.Value);
        Assert.InRange(blend.Solid!.DensityKgM3, 1380, 1540);
        Assert.Equal("its dye wanders into the print", blend.Harm!.What);
        var pure = HeatMaterial.Blend("own", [(cotton, 1)], 240, 0.6)!;
        Assert.Equal(cotton.WmK.Value, pure.WmK.Value, 1e-12);
    }

    // Van Wyk 1946: what is left of the free thickness goes with the cube root of the pressure; mass stays.
    [Fact]
    public void A_fleece_under_the_press_thins_towards_its_fibre_and_conducts_better()
    {
        var squeeze = HeatMaterials.Find("fleece")!.Squeeze(3)!;
        Assert.Equal(3, squeeze.ThicknessMm(3, 0), 1e-12);
        Assert.Equal(squeeze.SolidMm, squeeze.ThicknessMm(3, 1e9), 0.01);
        var (thin, thinner) = (
            squeeze.ThicknessMm(3, 2000) - squeeze.SolidMm,
            squeeze.ThicknessMm(3, 16000) - squeeze.SolidMm
        );
        Assert.Equal(2, thin / thinner, 0.002);
        Assert.True(squeeze.ConductsBetter(3, 30) > 1.2);
    }
}
