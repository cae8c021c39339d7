using System.Collections.Immutable;

namespace Coldpeel.Craft.Press.Heat;

/// <summary>A contact whose conductance is not known.</summary>
public abstract record HeatUnknown
{
    /// <summary>Between two layers; the problem holds it with a first guess.</summary>
    public sealed record Between(string Above, string Below) : HeatUnknown;

    /// <summary>Between the upper plate and the stack, in every stage that has it.</summary>
    public sealed record UpperPlate : HeatUnknown;

    /// <summary>Between the stack and the lower plate, in every stage that has it.</summary>
    public sealed record LowerPlate : HeatUnknown;
}

/// <summary>Something that was measured.</summary>
/// <param name="Layer">The layer whose lower face was measured.</param>
/// <param name="TimeS">When, s since the start of all; null for the hottest of all time, as a temperature strip shows it.</param>
/// <param name="Celsius">What was read, °C.</param>
/// <param name="WithinK">Standard deviation of the reading, K, above zero; readings weigh by it.</param>
public sealed record HeatReading(string Layer, double? TimeS, double Celsius, double WithinK);

/// <summary>A contact found by measuring.</summary>
/// <param name="Contact">Which.</param>
/// <param name="Wm2K">Its conductance, W/(m²·K).</param>
/// <param name="LowWm2K">Lower end of the 95 % confidence interval.</param>
/// <param name="HighWm2K">Upper end of the 95 % confidence interval; infinite when the readings do not bound it.</param>
public sealed record HeatFound(HeatUnknown Contact, double Wm2K, double LowWm2K, double HighWm2K);

/// <summary>What a measurement says about the contacts.</summary>
/// <param name="Found">The contacts, in the order asked.</param>
/// <param name="Problem">The problem with the contacts that were found.</param>
/// <param name="ResidualK">What is left between readings and model, standard deviation in K.</param>
/// <param name="Rounds">Rounds of the search.</param>
/// <param name="Settled">Whether the search came to rest.</param>
public sealed record HeatFitted(
    ImmutableArray<HeatFound> Found,
    HeatProblem Problem,
    double ResidualK,
    int Rounds,
    bool Settled
);

/// <summary>Fits unknown contacts to readings by least squares.</summary>
/// <remarks>
/// Levenberg and Marquardt on the logarithms of the conductances (so that none turns negative), slopes by differences; intervals from the
/// covariance σ² (JᵀJ)⁻¹ with Student's t (NIST/SEMATECH e-Handbook 4.4.3.2 and 4.6, from memory), σ from what is left when there are more readings
/// than unknowns and from the stated deviation of the readings otherwise.
/// </remarks>
public static class HeatFit
{
    private const int MostRounds = 40;
    private const double Step = 0.02;
    private const double SettledAt = 1e-5;
    private const double LeastLog = 0; // 1 W/(m²·K)
    private const double MostLog = 13.8; // 1e6 W/(m²·K)

    /// <summary>Finds the contacts.</summary>
    /// <param name="problem">The stack and its stages, with first guesses of the contacts.</param>
    /// <param name="unknown">What is not known; at least one.</param>
    /// <param name="readings">What was measured, no fewer than the unknowns.</param>
    /// <param name="search">How finely the heat is followed.</param>
    /// <param name="stop">Cancels.</param>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    /// <exception cref="ArgumentException">Fewer readings than unknowns.</exception>
    public static HeatFitted Solve(
        HeatProblem problem,
        ImmutableArray<HeatUnknown> unknown,
        ImmutableArray<HeatReading> readings,
        HeatSearch search,
        CancellationToken stop = default
    )
    {
        ArgumentNullException.ThrowIfNull(problem);
        if (unknown.IsDefaultOrEmpty || readings.Length < unknown.Length)
        {
            throw new ArgumentException("There must be no fewer readings than unknowns.", nameof(readings));
        }

        var p = unknown.Length;
        double[] logs = [.. unknown.Select(u => Math.Log(Guess(problem, u)))];
        double[] Model(double[] at) => Predict(With(problem, unknown, at), readings, search, stop);
        double[] Left(double[] model) => [.. readings.Select((r, i) => (r.Celsius - model[i]) / r.WithinK)];
        var model = Model(logs);
        var left = Left(model);
        var (damping, rounds, settled) = (1e-3, 0, false);
        var slopes = Slopes(model, logs);
        while (rounds++ < MostRounds && !settled)
        {
            var step = SmallSystem.Solve(Normal(slopes, p, damping), Against(slopes, left, p));
            double[] next = [.. logs.Select((l, i) => Math.Clamp(l + step[i], LeastLog, MostLog))];
            var tried = Model(next);
            var leftThen = Left(tried);
            if (Sum(leftThen) <= Sum(left))
            {
                settled = next.Zip(logs).All(n => Math.Abs(n.First - n.Second) < SettledAt);
                (logs, model, left, damping) = (next, tried, leftThen, Math.Max(1e-9, damping / 5));
                slopes = settled ? slopes : Slopes(model, logs);
            }
            else
            {
                damping *= 8;
                settled = damping > 1e8 || step.All(s => Math.Abs(s) < SettledAt);
            }
        }

        var free = readings.Length - p;
        var scale = free > 0 ? Sum(left) / free : 1;
        var t = free > 0 ? StudentT.TwoSided95(free) : StudentT.Normal95;
        var covariance = SmallSystem.Inverse(Normal(slopes, p, 0));
        return new(
            [
                .. unknown.Select(
                    (u, i) =>
                    {
                        var half = covariance is null
                            ? double.PositiveInfinity
                            : t * Math.Sqrt(scale * covariance[i, i]);
                        return new HeatFound(u, Math.Exp(logs[i]), Math.Exp(logs[i] - half), Math.Exp(logs[i] + half));
                    }
                ),
            ],
            With(problem, unknown, logs),
            Math.Sqrt(readings.Select((r, i) => Math.Pow(r.Celsius - model[i], 2)).Sum() / Math.Max(1, free)),
            rounds,
            settled
        );

        // Slopes of the model by the logarithms, in standard deviations of the readings.
        double[,] Slopes(double[] here, double[] at)
        {
            var found = new double[readings.Length, p];
            for (var j = 0; j < p; j++)
            {
                double[] moved = [.. at.Select((l, i) => i == j ? l + Step : l)];
                double[] back = [.. at.Select((l, i) => i == j ? l - Step : l)];
                var (up, down) = (Model(moved), Model(back));
                for (var i = 0; i < readings.Length; i++)
                {
                    found[i, j] = (up[i] - down[i]) / (2 * Step) / readings[i].WithinK;
                }
            }

            return found;
        }
    }

    /// <summary>What the model says at the readings, °C.</summary>
    internal static double[] Predict(
        HeatProblem problem,
        ImmutableArray<HeatReading> readings,
        HeatSearch search,
        CancellationToken stop
    )
    {
        var answer = HeatSolver.Solve(problem, search, stop);
        return
        [
            .. readings.Select(r =>
            {
                var face = answer.Faces[r.Layer].Lower;
                return r.TimeS is { } s
                    ? face.At(s)
                    : Enumerable.Range(0, face.Points).Select(face.Celsius).Where(double.IsFinite).Max();
            }),
        ];
    }

    private static double Guess(HeatProblem problem, HeatUnknown unknown) =>
        unknown switch
        {
            HeatUnknown.Between b => problem.Contacts.First(c => c.Above == b.Above && c.Below == b.Below).Wm2K,
            HeatUnknown.UpperPlate => Contact(problem.Stages.Select(s => s.Upper)),
            _ => Contact(problem.Stages.Select(s => s.Lower)),
        };

    private static double Contact(IEnumerable<HeatSide> sides) =>
        sides
            .Select(s =>
                s switch
                {
                    HeatSide.Held h => h.ContactWm2K,
                    HeatSide.Course c => c.ContactWm2K,
                    _ => null,
                }
            )
            .First(h => h is not null)!
            .Value;

    private static HeatProblem With(HeatProblem problem, ImmutableArray<HeatUnknown> unknown, double[] logs)
    {
        for (var i = 0; i < unknown.Length; i++)
        {
            var h = Math.Exp(logs[i]);
            problem = unknown[i] switch
            {
                HeatUnknown.Between b => problem with
                {
                    Contacts =
                    [
                        .. problem.Contacts.Select(c =>
                            c.Above == b.Above && c.Below == b.Below ? c with { Wm2K = h } : c
                        ),
                    ],
                },
                HeatUnknown.UpperPlate => problem with
                {
                    Stages = [.. problem.Stages.Select(s => s with { Upper = Touching(s.Upper, h) })],
                },
                _ => problem with { Stages = [.. problem.Stages.Select(s => s with { Lower = Touching(s.Lower, h) })] },
            };
        }

        return problem;
    }

    private static HeatSide Touching(HeatSide side, double h) =>
        side switch
        {
            HeatSide.Held { ContactWm2K: not null } held => held with { ContactWm2K = h },
            HeatSide.Course { ContactWm2K: not null } course => course with { ContactWm2K = h },
            _ => side,
        };

    private static double Sum(double[] left) => left.Sum(l => l * l);

    private static double[,] Normal(double[,] slopes, int p, double damping)
    {
        var normal = new double[p, p];
        for (var a = 0; a < p; a++)
        {
            for (var b = 0; b < p; b++)
            {
                for (var i = 0; i < slopes.GetLength(0); i++)
                {
                    normal[a, b] += slopes[i, a] * slopes[i, b];
                }
            }

            normal[a, a] += damping * Math.Max(normal[a, a], 1e-12);
        }

        return normal;
    }

    private static double[] Against(double[,] slopes, double[] left, int p)
    {
        var right = new double[p];
        for (var a = 0; a < p; a++)
        {
            for (var i = 0; i < left.Length; i++)
            {
                right[a] += slopes[i, a] * left[i];
            }
        }

        return right;
    }
}
