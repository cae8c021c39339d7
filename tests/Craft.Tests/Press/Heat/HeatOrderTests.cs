using Coldpeel.Craft.Press.Heat;
using static Coldpeel.Craft.Tests.Press.Heat.Stacks;

namespace Coldpeel.Craft.Tests.Press.Heat;

/// <summary>Observed order of accuracy, by a made solution (Roache, "Code verification by the method of manufactured solutions", J. Fluids Eng. 2002).</summary>
public sealed class HeatOrderTests
{
    private const double Thick = 0.01;
    private const double K0 = 0.2;
    private const double C0 = 1000;
    private const double Density = 1000;
    private const double Bend = 0.004; // k and c both change by 40 % over 100 °C, k up, c up half as fast
    private const double Tau = 20;
    private const double End = 30;

    // T = 20 + 30 (1 - exp(-t/τ)) (1 + cos(π x / L)): starts level, insulated at both faces. The source that makes it true is put into the cells.
    private static double Made(double x, double t) =>
        20 + (30 * (1 - Math.Exp(-t / Tau)) * (1 + Math.Cos(Math.PI * x / Thick)));

    private static double Source(double x, double t)
    {
        var (g, p) = (1 - Math.Exp(-t / Tau), Math.PI / Thick);
        var temperature = Made(x, t);
        var rate = 30 / Tau * Math.Exp(-t / Tau) * (1 + Math.Cos(p * x));
        var slope = -30 * g * p * Math.Sin(p * x);
        var bend = -30 * g * p * p * Math.Cos(p * x);
        return (Density * C0 * (1 + (Bend / 2 * temperature)) * rate)
            - (K0 * (((1 + (Bend * temperature)) * bend) + (Bend * slope * slope)));
    }

    [Fact]
    public void Halving_the_cells_quarters_the_error_of_a_made_solution()
    {
        int[] cells = [10, 20, 40, 80];
        var errors = cells.Select(n => Error(Follow(n, 0.05), n)).ToArray();
        Assert.All(Orders(errors), order => Assert.InRange(order, 1.9, 2.1));
    }

    [Fact]
    public void Halving_the_step_quarters_the_error_of_a_made_solution()
    {
        // On one grid, against steps so short that their error is a thousandth: the grid's own error falls out.
        const int Cells = 40;
        var truth = Follow(Cells, 0.05);
        double[] steps = [5, 2.5, 1.25, 0.625];
        var errors = steps.Select(h => Follow(Cells, h).Zip(truth).Max(p => Math.Abs(p.First - p.Second))).ToArray();
        Assert.All(Orders(errors), order => Assert.InRange(order, 1.9, 2.1));
    }

    // Kirchhoff's transform: where k and c change in one proportion, θ = ∫ k dT / k0 obeys the equation with constants; at rest between
    // two plates θ is a straight line (Carslaw and Jaeger, section 2.16, from memory).
    [Fact]
    public void With_a_conductivity_that_grows_with_heat_the_profile_bends_as_kirchhoff_says()
    {
        var layer = Layer("pad", 1, 1000, 1000, 10, 20) with
        {
            WmKOf = new([(0, 0.2), (200, 0.2 * (1 + (200 * Bend)))]),
        };
        var problem = Problem([layer], Stage(3000, Held(150), Held(20)));
        double Theta(double t) => t + (Bend * t * t / 2);
        var middle = (Theta(150) + Theta(20)) / 2;
        var celsius = (Math.Sqrt(1 + (2 * Bend * middle)) - 1) / Bend;
        Assert.Equal(celsius, At(problem, Fine, 5), 0.01);
    }

    // The same in time: k and c grow together, so θ follows the error function in a thick body whose face is held.
    [Fact]
    public void With_both_properties_growing_together_a_thick_body_follows_the_error_function()
    {
        HeatCurve Grows(double at0) => new([(0, at0), (200, at0 * (1 + (200 * Bend)))]);
        var layer = Layer("body", 1, 1000, 1000, 60, 20) with { WmKOf = Grows(0.2), HeatJkgKOf = Grows(1000) };
        var problem = Problem([layer], Stage(200, Held(150), Insulated));
        double Theta(double t) => t + (Bend * t * t / 2);
        const double Erf05 = 0.5204998778; // erf(0.5), Abramowitz and Stegun table 7.1
        var depth = 2 * 0.5 * Math.Sqrt(0.2e-6 * 200); // where x / (2 √(α t)) = 0.5
        var theta = Theta(150) + ((Theta(20) - Theta(150)) * Erf05);
        var celsius = (Math.Sqrt(1 + (2 * Bend * theta)) - 1) / Bend;
        Assert.Equal(celsius, At(problem, Fine with { CellsPerLayer = 600 }, depth * 1000), 0.05);
    }

    private static double[] Follow(int cells, double step)
    {
        var layer = Layer("made", 1, Density, 1, Thick * 1000, 20) with
        {
            WmKOf = new([(0, K0), (200, K0 * (1 + (200 * Bend)))]),
            HeatJkgKOf = new([(0, C0), (200, C0 * (1 + (100 * Bend)))]),
        };
        var problem = Problem([layer], Stage(End, Insulated, Insulated)) with { ProfileS = [End] };
        var answer = HeatSolver.Solve(
            problem,
            new HeatSearch { CellsPerLayer = cells, FixedStepS = step },
            (t, into) =>
            {
                for (var i = 0; i < cells; i++)
                {
                    into[i] += Source((i + 0.5) * Thick / cells, t) * Thick / cells;
                }
            },
            default
        );
        return [.. answer.Profiles[0].Points.Skip(1).Take(cells).Select(p => p.Celsius)];
    }

    private static double Error(double[] found, int cells) =>
        found.Select((t, i) => Math.Abs(t - Made((i + 0.5) * Thick / cells, End))).Max();

    private static IEnumerable<double> Orders(double[] errors) =>
        errors.Zip(errors.Skip(1)).Select(e => Math.Log2(e.First / e.Second));
}
