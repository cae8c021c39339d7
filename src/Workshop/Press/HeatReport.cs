using System.Collections.Immutable;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Press.Heat;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Workshop.Press;

/// <summary>A window with the words for it.</summary>
/// <param name="Stage">The stage's name.</param>
/// <param name="Window">The window.</param>
/// <param name="Say">In one sentence, with what to do when there is no such time.</param>
/// <param name="SetpointC">A set-point at which the window is open, where it is not open at this one; null otherwise.</param>
public sealed record WindowAnswer(string Stage, HeatWindow Window, Sentence Say, double? SetpointC);

/// <summary>How long it takes to cool, s; null when it takes longer than four hours.</summary>
public sealed record CoolAnswer(double? RackS, double? TableS, double? MetalS);

/// <summary>A point of the plate with its window.</summary>
public sealed record PlatePoint(double Celsius, HeatWindow Window);

/// <summary>Everything that is known about a stack.</summary>
/// <param name="Problem">The stack, with contacts that were measured where they were.</param>
/// <param name="Heat">What it felt.</param>
/// <param name="Error">How far it may be off for the steps in time and space.</param>
/// <param name="Evidence">What the figures rest on.</param>
public sealed record HeatReport(HeatProblem Problem, HeatAnswer Heat, StatedError Error, Evidence Evidence)
{
    /// <summary>The press window; null when nobody asked.</summary>
    public WindowAnswer? Window { get; init; }

    /// <summary>How long it stays hot enough to peel; null when nobody asked.</summary>
    public HotPeelAnswer? HotPeel { get; init; }

    /// <summary>How long it takes to cool; null when nobody asked.</summary>
    public CoolAnswer? Cool { get; init; }

    /// <summary>Contacts fitted to readings; null when there are none.</summary>
    public HeatFitted? Fitted { get; init; }

    /// <summary>Why those contacts do not count as measured; null when they do, or nothing was measured.</summary>
    public string? Doubt { get; init; }

    /// <summary>The glue's speed by press trials; null when there are none, or all of one kind.</summary>
    public GlueFitted? GlueFitted { get; init; }

    /// <summary>Why those trials do not count; null when they do, or there are none.</summary>
    public string? GlueDoubt { get; init; }

    /// <summary>The plate at nine points; empty when nobody measured it.</summary>
    public ImmutableArray<PlatePoint> Plate { get; init; } = [];

    /// <summary>What the glue's figures rest on, in words.</summary>
    public string GlueFrom(HeatAsk ask) =>
        (GlueFitted is not null && GlueDoubt is null) || ask?.GlueEvidence == Evidence.Trial
            ? "from trials"
            : GlueLaws.NotCalibrated;

    /// <summary>Chances of press times; null when nobody asked.</summary>
    public HeatChances? Chances { get; init; }

    /// <summary>The hottest point of every layer that was followed, °C, in the order of the stack; a layer taken out before anything happens is not among them.</summary>
    public IEnumerable<(string Layer, double Celsius)> Hottest =>
        Problem.EveryLayer.Where(l => Heat.HottestC.ContainsKey(l.Name)).Select(l => (l.Name, Heat.HottestC[l.Name]));
}

/// <summary>Works a question about heat out.</summary>
public static class HeatReports
{
    private const double LongestCoolS = 4 * 3600;

    /// <summary>How well contacts, plate, pressure, bonding and harm are known: estimates, no source; by their own intervals where contacts were measured and the glue was tried.</summary>
    /// <param name="ask">What is asked, for its materials and its glue.</param>
    /// <param name="measured">Contacts that were measured; null for none.</param>
    /// <param name="tried">The glue's speed by press trials; null for none.</param>
    public static HeatSpreads Spreads(HeatAsk ask, HeatFitted? measured = null, GlueFitted? tried = null) =>
        new(
            ask.Materials.ToImmutableDictionary(m => m.Key, m => m.Value.Spread),
            new(0.5, 2),
            5,
            tried is not null ? HeatTrust.Spread(tried.Speed, tried.Low, tried.High)
                : ask.GlueEvidence == Evidence.Trial ? new(0.8, 1.25)
                : new(0.5, 2),
            new(0.5, 2),
            new(0.7, 1.3)
        )
        {
            Measured = measured is null
                ? []
                : measured.Found.ToImmutableDictionary(
                    f => f.Contact,
                    f => HeatTrust.Spread(f.Wm2K, f.LowWm2K, f.HighWm2K)
                ),
        };

    /// <summary>Follows the heat and answers everything asked.</summary>
    /// <param name="ask">What is asked; its stages and layers are found.</param>
    /// <param name="stop">Cancels.</param>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static HeatReport Of(HeatAsk ask, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(ask);
        var fitted = ask.Measured is { } m
            ? HeatFit.Solve(ask.Problem with { ProfileS = [] }, m.Unknown, m.Readings, HeatSearch.Quick, stop)
            : null;
        var doubt = fitted is null ? null : HeatTrust.Doubt(fitted, ask.Measured!.Readings);
        var measured = doubt is null ? fitted : null;
        var problem = measured is null ? ask.Problem : measured.Problem with { ProfileS = ask.Problem.ProfileS };
        ask = ask with { Problem = problem };
        var tried = ask.Trials.Length > 0 ? GlueFit.Speed(Doses(ask, stop)) : null;
        var glueDoubt = tried is null ? null : HeatTrust.Doubt(tried);
        var glue = glueDoubt is null ? tried : null;
        ask = glue is null
            ? ask
            : ask with
            {
                Glue = GlueFit.Faster(ask.Glue, glue.Speed),
                GlueEvidence = Evidence.Trial,
            };
        var fine = new HeatSearch();
        var answer = HeatSolver.Solve(problem, fine, stop);
        var window = ask.Window is { } wish ? WindowAsk(ask, wish) : null;
        return new(
            problem,
            answer,
            StatedError.Of(problem, answer, fine, stop),
            measured is null ? Evidence.Model : Evidence.CalibratedModel
        )
        {
            Fitted = fitted,
            Doubt = doubt,
            GlueFitted = tried,
            GlueDoubt = glueDoubt,
            Window = window is null ? null : PressAdvice.On(window, fine, stop),
            HotPeel = ask.HotPeel is { } peel ? HotPeelAnswer.Of(problem, answer, peel) : null,
            Cool = ask.Cool is { } cool ? Cooling(problem, cool, stop) : null,
            Plate = window is null ? [] : Plate(window, ask.PlateC, stop),
            Chances =
                window is not null && ask.Chances is { } draw
                    ? HeatChances.Draw(window, Spreads(ask, measured, glue), draw.Samples, draw.Seed, stop)
                    : null,
        };
    }

    /// <summary>The stage's set-point, °C: the upper plate's; null when no plate of a steady temperature lies on it.</summary>
    internal static double? SetpointC(HeatWindowAsk ask) =>
        (ask.Problem.Stages[ask.Stage].Upper as HeatSide.Held)?.Temperature.InCelsius;

    /// <summary>The same question at another set-point of the upper plate, and of a lower plate held as hot.</summary>
    internal static HeatWindowAsk At(HeatWindowAsk ask, double celsius)
    {
        var stage = ask.Problem.Stages[ask.Stage];
        var upper = (HeatSide.Held)stage.Upper;
        var lower =
            stage.Lower is HeatSide.Held held && held.Temperature == upper.Temperature
                ? held with
                {
                    Temperature = Temperature.FromCelsius(celsius),
                }
                : stage.Lower;
        return ask with
        {
            Problem = ask.Problem with
            {
                Stages = ask.Problem.Stages.SetItem(
                    ask.Stage,
                    stage with
                    {
                        Upper = upper with { Temperature = Temperature.FromCelsius(celsius) },
                        Lower = lower,
                    }
                ),
            },
        };
    }

    // The dose that each trial had by the glue's figures before the fit: the smaller of healing and entering.
    private static ImmutableArray<GlueTrial> Doses(HeatAsk ask, CancellationToken stop)
    {
        var window = WindowAsk(ask, ask.Window!);
        return
        [
            .. ask.Trials.Select(t =>
            {
                var at = t.PlateC is { } c && SetpointC(window) is not null ? At(window, c) : window;
                var pressed = at.Problem.Stages[at.Stage] with { Seconds = t.Seconds };
                var problem = at.Problem with
                {
                    Stages = [.. at.Problem.Stages.Take(at.Stage), pressed],
                    ProfileS = [],
                };
                var (heals, enters) = HeatWindows.Bond(
                    HeatSolver.Solve(problem, HeatSearch.Quick, stop),
                    problem.Stages,
                    ask.Glue
                );
                return new GlueTrial(Math.Min(heals, enters), t.Held);
            }),
        ];
    }

    private static HeatWindowAsk WindowAsk(HeatAsk ask, WindowWish wish) =>
        new(ask.Problem, wish.Stage, ask.Glue, ask.Harm, wish.LongestS) { Bonded = wish.Bonded };

    // Rack: air on both faces, which also radiate. Table: wood of 18 mm under it. Metal: aluminium of 5 mm under it, air below.
    private static CoolAnswer Cooling(HeatProblem problem, CoolWish wish, CancellationToken stop)
    {
        var air = new HeatSide.Open(Temperature.FromCelsius(wish.AirC), 5, 0.9);
        double? On(HeatLayer? under, HeatSide lower)
        {
            var after = problem.Stages.Take(wish.AfterStage + 1).ToImmutableArray();
            var last = problem.LyingIn(wish.AfterStage).Except(wish.Remove).Last();
            var cooling = new HeatStage(
                "cooling",
                LongestCoolS,
                Temperature.FromCelsius(wish.UntilC),
                air,
                lower,
                under is null ? [] : [new(under, last)],
                wish.Remove
            );
            var contacts = under is null
                ? problem.Contacts
                : problem.Contacts.Add(new(last, under.Name, under.Name == "wooden table" ? 100 : 200));
            var answer = HeatSolver.Solve(
                problem with
                {
                    Stages = [.. after, cooling],
                    Contacts = contacts,
                    OutputEveryS = 60,
                    ProfileS = [],
                },
                HeatSearch.Quick,
                stop
            );
            return answer.Stages[^1].Passed ? answer.Stages[^1].EndS - answer.Stages[^1].StartS : null;
        }

        HeatLayer Under(string name, string material, double mm)
        {
            var m = HeatMaterials.Find(material)!;
            return new(
                name,
                m.WmK.Value,
                m.DensityKgM3.Value,
                m.HeatJkgK.Value,
                Length.FromMillimetres(mm),
                Temperature.FromCelsius(wish.AirC)
            );
        }

        return new(
            On(null, air),
            On(Under("wooden table", "birch-plywood", 18), new HeatSide.Insulated()),
            On(Under("metal plate", "aluminium", 5), air)
        );
    }

    private static ImmutableArray<PlatePoint> Plate(
        HeatWindowAsk ask,
        ImmutableArray<double> celsius,
        CancellationToken stop
    ) =>
        SetpointC(ask) is null
            ? []
            : [.. celsius.Select(c => new PlatePoint(c, HeatWindows.Find(At(ask, c), HeatSearch.Quick, stop)))];
}
