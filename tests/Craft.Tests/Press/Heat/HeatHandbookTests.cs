using Coldpeel.Craft.Press.Heat;
using static Coldpeel.Craft.Tests.Press.Heat.Stacks;

namespace Coldpeel.Craft.Tests.Press.Heat;

/// <summary>
/// Worked examples of handbooks, H1 to H21 of the project's table of heat checks (thermal_checks.csv, which names each source). Where a book's own
/// figure is rounded through tables, its printed digits are allowed that rounding and the exact value is held closely.
/// </summary>
public sealed class HeatHandbookTests
{
    // NAFEMS P18, test T3: slab of 0.1 m, k 35, ρ 7200, c 440.5, all at 0 °C, one face kept there, the other at 100 sin(π t / 40): 36.60 °C at
    // 0.08 m after 32 s. H1.
    [Fact]
    public void The_slab_whose_face_swings_is_36_60_C_as_the_benchmark_says()
    {
        var swing = new HeatSide.Course([
            .. Enumerable.Range(0, 641).Select(i => (i / 20.0, 100 * Math.Sin(Math.PI * i / 800))),
        ]);
        var problem = Problem([Layer("slab", 35, 7200, 440.5, 100, 0)], Stage(32, Held(0), swing));
        Assert.Equal(36.60, At(problem, Fine, 80), 0.005);
    }

    // Plane wall by its exact series (computed with 200 terms; one term of the textbook's table 5.1 errs at Fo 0.2). H2, H3, H4.
    [Theory]
    [InlineData(1, 0.2, 0.950642, 0.643391)]
    [InlineData(1, 0.5, 0.772526, 0.504522)]
    [InlineData(1, 1, 0.533859, 0.348177)]
    [InlineData(10, 0.1, 0.968424, double.NaN)]
    [InlineData(10, 0.2, 0.829255, double.NaN)]
    [InlineData(10, 0.5, 0.454641, double.NaN)]
    public void A_wall_in_air_follows_the_full_series(double bi, double fo, double centre, double surface)
    {
        // k 1, ρ c 1e6, L 10 mm: α 1e-6 m²/s, h = Bi k / L, t = Fo L² / α; from 100 °C into air of 0 °C.
        var problem = Problem([Layer("wall", 1, 1000, 1000, 10, 100)], Stage(fo * 100, Insulated, Air(0, bi / 0.01)));
        // The table has six digits.
        var digits = Fine with
        {
            CellsPerLayer = 1000,
            StepErrorK = 1e-5,
        };
        Assert.Equal(centre, At(problem, digits, 0) / 100, 2.5e-6);
        if (!double.IsNaN(surface))
        {
            Assert.Equal(surface, At(problem, digits, 10) / 100, 2.5e-6);
        }
    }

    // The same wall by one term with the printed coefficients (ζ1, C1 of the textbook's table, four decimals), from Fo 0.4 on, where the
    // term left out is below one part in ten thousand.
    [Theory]
    [InlineData(0.1, 0.3111, 1.0161, 5)]
    [InlineData(0.5, 0.6533, 1.0701, 1)]
    [InlineData(1, 0.8603, 1.1191, 1)]
    [InlineData(5, 1.3138, 1.2402, 0.6)]
    [InlineData(10, 1.4289, 1.2620, 0.5)]
    [InlineData(100, 1.5552, 1.2731, 0.5)]
    public void A_wall_in_air_follows_the_one_term_table(double bi, double zeta, double c1, double fo)
    {
        var problem = Problem([Layer("wall", 1, 1000, 1000, 10, 100)], Stage(fo * 100, Insulated, Air(0, bi / 0.01)));
        Assert.Equal(c1 * Math.Exp(-zeta * zeta * fo), At(problem, Fine, 0) / 100, 0.0005);
    }

    // Incropera 7e, example 5.4: pipe wall of 40 mm, back insulated, h 500, k 63.9, -20 °C into oil of 60 °C, 480 s. Printed 42.9 °C, -7360 W/m²,
    // -2.72e7 J per metre of a pipe of 1 m (table rounding: 0.1 °C, 0.7 %); exact 43.02 °C, -7318 W/m², -2.725e7 J. H5.
    [Fact]
    public void The_wall_of_a_pipe_that_hot_oil_flows_through()
    {
        var problem = Problem([Layer("steel", 63.9, 7832, 434, 40, -20)], Stage(480, Air(60, 500), Insulated));
        Assert.Equal(43.02, At(problem, Fine, 40), 0.05);
        Assert.Equal(42.9, At(problem, Fine, 40), 0.15);
        Assert.Equal(7318, 500 * (60 - At(problem, Fine, 0)), 7.4);
        Assert.Equal(7360, 500 * (60 - At(problem, Fine, 0)), 0.007 * 7360);
        Assert.Equal(2.725e7, Math.PI * HeatSolver.Solve(problem, Fine).Balance.InUpperJm2, 0.001 * 2.725e7);
    }

    // Incropera 7e, example 5.6: soil at 20 °C under -15 °C for 60 days freezes to 0.68 m (0.677 computed; a stored notebook's 0.92 is an error). H6.
    [Fact]
    public void Frost_reaches_the_depth_of_the_buried_main()
    {
        var problem = Problem(
            [Layer("frozen soon", 0.52, 2050, 1840, 2000, 20), Layer("deep", 0.52, 2050, 1840, 12000, 20)],
            Stage(60 * 86400.0, Held(-15), Insulated)
        );
        var search = Fine with { LongestStageS = 1e9 };
        Assert.Equal(0, At(problem, search, 677), 0.02);
        Assert.True(At(problem, search, 670) < 0 && At(problem, search, 685) > 0);
    }

    // A general heat library's guide: clay cooled from its face, 53.6 °C and -98 W/m² (53.571, -97.98 computed). H7.
    [Fact]
    public void Clay_cooled_from_its_face_and_the_heat_it_gives()
    {
        var problem = Problem([Layer("clay", 0.062, 2115, 920, 250, 55)], Stage(3600, Held(25), Insulated));
        Assert.Equal(53.571, At(problem, Fine with { CellsPerLayer = 800 }, 30), 0.02);
        // q = k (Ts - Ti) / √(π α t) at the face, read here from the two points next to it.
        var face = HeatSolver
            .Solve(problem with { ProfileS = [3600] }, Fine with { CellsPerLayer = 1600 })
            .Profiles[0]
            .Points;
        Assert.Equal(
            97.98,
            0.062 * (face[1].Celsius - face[0].Celsius) / (face[1].DepthMm - face[0].DepthMm) * 1000,
            0.1
        );
    }

    // The same guide: brick under a flux of 20 kW/m², 793 °C at 10 mm after an hour (793.254 computed). H8.
    [Fact]
    public void Brick_under_a_steady_flux()
    {
        var problem = Problem(
            [Layer("near", 1, 1 / 5.08e-7 / 1000, 1000, 60, 15), Layer("far", 1, 1 / 5.08e-7 / 1000, 1000, 400, 15)],
            Stage(3600, new HeatSide.Flux(20000), Insulated)
        );
        Assert.Equal(793.254, At(problem, Fine, 10), 0.05);
    }

    // The same guide: brick in hot air, 360 °C at its face (359.685 computed). H9.
    [Fact]
    public void Brick_in_hot_air()
    {
        var density = 0.17 / 1.28e-7 / 1000;
        var problem = Problem(
            [Layer("near", 0.17, density, 1000, 20, 25), Layer("far", 0.17, density, 1000, 60, 25)],
            Stage(300, Air(550, 35), Insulated)
        );
        Assert.Equal(359.685, At(problem, Fine, 0), 0.05);
    }

    // Incropera example 5.10: copper under 3e5 W/m², 120 s: exact 120.03 and, 0.15 m deep, 45.41 °C (45.4 printed). H10.
    [Fact]
    public void Copper_under_a_steady_flux()
    {
        var problem = Problem(
            [Layer("copper", 401, 401 / 117e-6 / 1000, 1000, 1500, 20)],
            Stage(120, new HeatSide.Flux(3e5), Insulated)
        );
        var search = Fine with { CellsPerLayer = 1000 };
        Assert.Equal(120.03, At(problem, search, 0), 0.05);
        Assert.Equal(45.41, At(problem, search, 150), 0.05);
    }

    // The same by the book's finite differences, dx 75 mm: explicit 125.2 / 48.1 and 118.9 / 44.4, implicit 114.7 / 44.2, Crank and Nicolson
    // 117.64 / 44.22 (H11, H12); stability of the explicit surface node (H13: example 5.9, dt ≤ dx² / (2 α (1 + Bi)) = 0.373 s).
    // So the independent scheme stands, and refined it must meet the program's own answer.
    [Fact]
    public void Another_scheme_prints_the_books_digits_and_then_meets_the_solver()
    {
        var rise = 3e5 * 0.075 / 401;
        double[] start = [.. Enumerable.Repeat(20.0, 30)];
        var half = NodeScheme.March(0.5, 0, 5, start, rise);
        Assert.Equal((125.21, 48.05), (Math.Round(half[0], 2), Math.Round(half[2], 2)));
        var quarter = NodeScheme.March(0.25, 0, 10, start, rise);
        Assert.Equal((118.86, 44.39), (Math.Round(quarter[0], 2), Math.Round(quarter[2], 2)));
        var wholly = NodeScheme.March(0.5, 1, 5, start, rise);
        Assert.Equal((114.74, 44.21), (Math.Round(wholly[0], 2), Math.Round(wholly[2], 2)));
        var middling = NodeScheme.March(0.5, 0.5, 5, start, rise);
        Assert.Equal((117.64, 44.22), (Math.Round(middling[0], 2), Math.Round(middling[2], 2)));
        Assert.Equal(0.373, 0.002 * 0.002 / (2 * 5e-6 * (1 + (1100 * 0.002 / 30))), 0.001);

        // dx 7.5 mm; α dt / dx² = 2, so dt 0.9615 s and 125 steps make 120.2 s: taken to exactly 120 s by the Fourier number.
        var fine = NodeScheme.March(
            117e-6 * 120 / 125 / (0.0075 * 0.0075),
            0.5,
            125,
            [.. Enumerable.Repeat(20.0, 201)],
            rise / 10
        );
        var problem = Problem(
            [Layer("copper", 401, 401 / 117e-6 / 1000, 1000, 1500, 20)],
            Stage(120, new HeatSide.Flux(3e5), Insulated)
        );
        Assert.Equal(fine[20], At(problem, Fine with { CellsPerLayer = 1000 }, 150), 0.03);
    }

    // sin(π x) decays as exp(-π² t): Crank and Nicolson's error at N = M = 10, 20, 40, 80 and the backward difference's at N 400 (H19, H20),
    // computed for the table; the independent scheme must have them, for it judges the solver above.
    [Theory]
    [InlineData(10, 10, 0.5, 2.7337e-3)]
    [InlineData(20, 20, 0.5, 6.8214e-4)]
    [InlineData(40, 40, 0.5, 1.7045e-4)]
    [InlineData(80, 80, 0.5, 4.2608e-5)]
    [InlineData(400, 20, 1, 8.8946e-3)]
    [InlineData(400, 40, 1, 4.4936e-3)]
    [InlineData(400, 80, 1, 2.2593e-3)]
    [InlineData(400, 160, 1, 1.1335e-3)]
    public void Another_scheme_errs_as_much_as_its_theory_says(int cells, int steps, double theta, double error)
    {
        double[] start = [.. Enumerable.Range(0, cells + 1).Select(i => Math.Sin(Math.PI * i / cells))];
        start[cells] = 0;
        var fo = 0.1 / steps * cells * cells;
        var found = NodeScheme.March(fo, theta, steps, start, null)[cells / 2];
        Assert.Equal(error, Math.Abs(found - Math.Exp(-Math.PI * Math.PI * 0.1)), 2e-7);
    }

    // Incropera example 3.2: chip of 1e4 W/m², epoxy 0.9e-4 m²K/W, aluminium 8 mm of k 239, air of 25 °C at h 100 on both faces: 75.31 °C. H14.
    [Fact]
    public void A_chip_between_air_and_an_aluminium_base()
    {
        var problem = Problem(
            [Layer("chip", 1000, 2000, 700, 0.5, 25), Layer("aluminium", 239, 2700, 900, 8, 25)],
            Stage(4000, Air(25, 100), Air(25, 100))
        ) with
        {
            Contacts = [new("chip", "aluminium", 1 / 0.9e-4)],
            ProfileS = [4000],
        };
        var answer = HeatSolver.Solve(
            problem,
            new HeatSearch { CellsPerLayer = 10 },
            (_, into) =>
            {
                for (var i = 0; i < 10; i++)
                {
                    into[i] += 1000; // a tenth of 1e4 W/m² in each cell of the chip
                }
            },
            default
        );
        Assert.Equal(75.31, answer.Profiles[0].Points[0].Celsius, 0.01);
    }

    // Lumped plate of the guide, made to conduct so well that it is one lump: 10 mm, ρ 2800, c 880, h 200 on both faces, 20 → 800 °C, 120 s: 689 °C. H15.
    [Fact]
    public void A_thin_plate_in_hot_gas_warms_as_one_lump()
    {
        var problem = Problem([Layer("plate", 1e5, 2800, 880, 10, 20)], Stage(120, Air(800, 200), Air(800, 200)));
        Assert.Equal(800 - (780 * Math.Exp(-400.0 * 120 / (2800 * 880 * 0.01))), At(problem, Fine, 5), 0.05);
        Assert.Equal(689, At(problem, Fine, 5), 0.5);
    }

    // Cengel's brass plate: 40 mm, h 120, 20 → 500 °C, 7 min: exact 279.58 °C at the face (282 printed, through the table). H16.
    // And his problem 4-36: L 15 mm, h 80, 25 → 700 °C, 10 min: 445 °C printed, from ζ 0.1039 out of the table; the root of ζ tan ζ = Bi is 0.1043, and the
    // face then C1 cos ζ exp(-ζ² Fo): 448.25 °C. H17.
    [Theory]
    [InlineData(20, 120, 20, 500, 420, 279.58, 0.05)]
    [InlineData(20, 120, 20, 500, 420, 282, 2.5)]
    [InlineData(15, 80, 25, 700, 600, 448.25, 0.05)]
    [InlineData(15, 80, 25, 700, 600, 445, 3.5)]
    public void Brass_plates_in_an_oven(
        double mm,
        double h,
        double start,
        double oven,
        double s,
        double face,
        double within
    )
    {
        var problem = Problem(
            [Layer("brass", 110, 110 / 33.9e-6 / 1000, 1000, mm, start)],
            Stage(s, Air(oven, h), Insulated)
        );
        Assert.Equal(face, At(problem, Fine, 0), within);
    }

    // Two semi-infinite solids meet at (e1 T1 + e2 T2) / (e1 + e2) and stay there (Incropera eq. 5.63; VanSant UCRL-52863, case 6.1.9). H18.
    [Theory]
    [InlineData(237, 2702, 903, 150, 0.16, 900, 1500, 20)]
    [InlineData(0.5, 1000, 2000, 80, 0.25, 1200, 1000, 10)]
    public void Two_thick_bodies_meet_where_their_effusivities_put_them(
        double k1,
        double rho1,
        double c1,
        double t1,
        double k2,
        double rho2,
        double c2,
        double t2
    )
    {
        var problem = Problem(
            [Layer("first", k1, rho1, c1, 100, t1), Layer("second", k2, rho2, c2, 20, t2)],
            Stage(4, Insulated, Insulated)
        );
        var (e1, e2) = (Math.Sqrt(k1 * rho1 * c1), Math.Sqrt(k2 * rho2 * c2));
        var answer = HeatSolver.Solve(problem, Fine with { CellsPerLayer = 800 });
        Assert.Equal(((e1 * t1) + (e2 * t2)) / (e1 + e2), answer.GlueLineC[^1], 0.05);
    }

    // FPL Wood Handbook, equation 4-15. H21.
    [Theory]
    [InlineData(0.40, 0.1158)]
    [InlineData(0.60, 0.1644)]
    public void Wood_conducts_as_its_gravity_and_moisture_say(double gravity, double k) =>
        Assert.Equal(k, HeatMixing.Wood(gravity, 12), 0.00005);

    // Two layers, a contact, films on both sides, at rest: q = ΔT / (Σ 1/h + Σ L/k + 1/hc) (Incropera section 3.1).
    [Fact]
    public void A_composite_wall_comes_to_rest_where_its_resistances_put_it()
    {
        var problem = Problem(
            [Layer("film", 0.15, 1380, 1300, 0.1, 20), Layer("felt", 0.054, 250, 1360, 2, 20)],
            Stage(900, Held(150, 1000), Air(20, 15))
        ) with
        {
            Contacts = [new("film", "felt", 500)],
        };
        var answer = HeatSolver.Solve(problem, new HeatSearch());
        var flux = 130 / ((1.0 / 1000) + (0.0001 / 0.15) + (1.0 / 500) + (0.002 / 0.054) + (1.0 / 15));
        Assert.Equal(150 - (flux * ((1.0 / 1000) + (0.0001 / 0.15))), answer.Boundaries[0].UpperSideC[^1], 0.01);
        Assert.Equal(20 + (flux * ((0.002 / 0.054) + (1.0 / 15))), answer.Boundaries[0].LowerSideC[^1], 0.01);
    }

    // A face that radiates and feels air at rest: h (T - Ta) + ε σ (T⁴ - Ta⁴) = q; a flux of 1 kW/m² from a black face into air of 20 °C at h 10.
    // The face's temperature is found here by halving, with σ of CODATA 2018.
    [Fact]
    public void A_radiating_face_comes_to_rest_where_what_leaves_equals_what_comes()
    {
        var problem = Problem(
            [Layer("plate", 160, 2800, 875, 2, 20)],
            Stage(6000, new HeatSide.Flux(1000), new HeatSide.Open(C(20), 10, 1))
        );
        var (low, high) = (20.0, 200.0);
        for (var i = 0; i < 60; i++)
        {
            var t = (low + high) / 2;
            var leaves = (10 * (t - 20)) + (5.670374419e-8 * (Math.Pow(t + 273.15, 4) - Math.Pow(293.15, 4)));
            (low, high) = leaves < 1000 ? (t, high) : (low, t);
        }

        Assert.Equal(low, At(problem, new HeatSearch(), 2), 0.01);
    }
}
