using Coldpeel.Craft.Press.Heat;
using static Coldpeel.Craft.Tests.Press.Heat.Stacks;

namespace Coldpeel.Craft.Tests.Press.Heat;

/// <summary>What a press adds to plain conduction: damp, pressure, plates whose temperature was written down.</summary>
public sealed class HeatStageTests
{
    private static HeatProblem Damp(double share) =>
        Problem(
            [Layer("cotton", 0.071, 400, 1300, 0.6, 20) with { Damp = new HeatDamp(share) }],
            Stage(60, Held(150, 1000), Insulated),
            Stage(60, Air(20, 20), Air(20, 20)),
            Stage(60, Held(150, 1000), Insulated)
        );

    // Latent heat: all the water of 0.24 kg/m² at 7 % takes 0.0168 kg/m² times 2.257 MJ/kg (steam tables), once and not again.
    [Fact]
    public void A_damp_fabric_takes_its_waters_latent_heat_once()
    {
        var answer = HeatSolver.Solve(Damp(0.07), new HeatSearch());
        Assert.Equal(0.24 * 0.07 * 2.257e6, answer.Balance.DriedJm2, 1);
        Assert.True(answer.Balance.ErrorPercent < 1e-7);
    }

    [Fact]
    public void While_it_dries_a_damp_fabric_stands_near_100_degrees_and_a_dry_one_passes_at_once()
    {
        double Held(double share)
        {
            var face = HeatSolver.Solve(Damp(share), new HeatSearch()).Faces["cotton"].Lower;
            var (from, to) = (face.Reach(97).FirstS!.Value, face.Reach(103).FirstS!.Value);
            return to - from;
        }

        Assert.True(Held(0.07) > 5 * Held(1e-6));
    }

    // Stefan's problem by its heat alone: a layer that only dries, between a plate held at T and its own plateau, must dry in no less than latent heat over
    // the flow its own and the contact's resistance let through.
    [Fact]
    public void Drying_takes_no_less_time_than_the_plate_can_bring_its_heat()
    {
        var face = HeatSolver.Solve(Damp(0.07), new HeatSearch()).Faces["cotton"].Lower;
        var seconds = face.Reach(103).FirstS!.Value;
        var mostFlow = (150 - 20) * 1000.0;
        Assert.True(seconds > 0.24 * 0.07 * 2.257e6 / mostFlow);
        // And no more than when all of it must go through the whole dry layer from a face at 103 °C.
        var leastFlow = (150 - 103) / ((1.0 / 1000) + (0.0006 / 0.071));
        Assert.True(seconds < (0.24 * 0.07 * 2.257e6 / leastFlow) + (0.24 * 1300 * 83 / leastFlow));
    }

    [Fact]
    public void At_its_own_pressure_a_growing_contact_is_the_stated_one_and_more_pressure_heats_sooner()
    {
        double Glue(double kPa, double power)
        {
            var problem = Problem(
                [Layer("film", 0.15, 1380, 1300, 0.2, 20), Layer("felt", 0.054, 250, 1360, 2, 20)],
                Stage(3, new HeatSide.Held(C(150), 300) { Growth = new(30, power) }, Insulated) with
                {
                    PressureKPa = kPa,
                }
            );
            return HeatSolver.Solve(problem, new HeatSearch()).GlueLineC[^1];
        }

        Assert.Equal(Glue(30, 0), Glue(30, 0.5), 1e-9);
        Assert.True(Glue(60, 0.5) > Glue(30, 0.5) && Glue(15, 0.5) < Glue(30, 0.5));
        Assert.Equal(Glue(60, 0), Glue(15, 0), 1e-9);
    }

    // A squeezed layer keeps its mass: at rest between two plates only its resistance counts, thickness over conductivity under that pressure.
    [Fact]
    public void A_squeezed_layer_conducts_by_its_thickness_under_pressure()
    {
        var squeeze = new HeatSqueeze(0.5, 10, 0.2);
        var problem = Problem(
            [Layer("top", 1, 1000, 1000, 1, 20), Layer("fleece", 0.045, 150, 1300, 3, 20) with { Squeeze = squeeze }],
            Stage(900, Held(100), Held(20)) with
            {
                PressureKPa = 30,
            }
        );
        var resistance = squeeze.ThicknessMm(3, 30) / 1000 / (0.045 * squeeze.ConductsBetter(3, 30));
        var expected = 20 + (80 * resistance / (resistance + 0.001));
        Assert.Equal(expected, HeatSolver.Solve(problem, new HeatSearch()).GlueLineC[^1], 0.01);
    }

    // A plate written down as steady is a plate held.
    [Fact]
    public void A_course_that_stands_still_is_a_held_plate()
    {
        HeatProblem With(HeatSide side) =>
            Problem(
                [Layer("film", 0.15, 1380, 1300, 0.2, 20), Layer("felt", 0.054, 250, 1360, 2, 20)],
                Stage(5, side, Insulated)
            );
        var course = HeatSolver.Solve(With(new HeatSide.Course([(0, 150), (1, 150), (9, 150)], 500)), new HeatSearch());
        var held = HeatSolver.Solve(With(Held(150, 500)), new HeatSearch());
        Assert.Equal(held.GlueLineC[^1], course.GlueLineC[^1], 1e-6);
    }

    [Fact]
    public void The_quick_way_is_within_a_tenth_of_a_degree_on_twelve_layers()
    {
        (double K, double Rho, double C, double Mm)[] layers =
        [
            (0.14, 800, 1340, 0.1),
            (0.25, 2100, 950, 0.13),
            (0.15, 1380, 1300, 0.1),
            (0.2, 1300, 1300, 0.015),
            (0.25, 1100, 1700, 0.08),
            (0.071, 400, 1300, 0.5),
            (0.071, 400, 1300, 0.5),
            (0.054, 250, 1360, 2),
            (0.25, 2100, 950, 0.13),
            (0.35, 1200, 1200, 3),
            (0.17, 820, 1200, 8),
            (160, 2800, 875, 10),
        ];
        var problem = Problem(
            [.. layers.Select((l, i) => Layer($"{i}", l.K, l.Rho, l.C, l.Mm, 20))],
            Stage(90, Held(150, 1000), Insulated)
        ) with
        {
            GlueLineBelow = "4",
            Contacts = [new("4", "5", 800), new("6", "7", 400)],
        };
        var fine = HeatSolver.Solve(problem, new HeatSearch { CellsPerLayer = 100, StepErrorK = 2e-4 }).GlueLine;
        var quick = HeatSolver.Solve(problem, HeatSearch.Quick).GlueLine;
        foreach (var t in new[] { 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 45, 90 })
        {
            Assert.Equal(fine.At(t), quick.At(t), 0.1);
        }
    }
}
