using System.Collections.Immutable;

namespace Coldpeel.Craft.Press.Heat;

/// <summary>What is asked of a press stage: how long at least, how long at most.</summary>
/// <param name="Problem">The stack and its stages.</param>
/// <param name="Stage">Number of the stage whose time is asked.</param>
/// <param name="Glue">How the glue bonds.</param>
/// <param name="Harm">What a layer does not stand, by its name.</param>
/// <param name="LongestS">Longest time looked at, s.</param>
public sealed record HeatWindowAsk(
    HeatProblem Problem,
    int Stage,
    GlueLaw Glue,
    ImmutableDictionary<string, HarmLaw> Harm,
    double LongestS
)
{
    /// <summary>Whether the print holds already and is only pressed again: then the glue has to get soft, and no more.</summary>
    public bool Bonded { get; init; }
}

/// <summary>The press window of a stage.</summary>
/// <param name="ShortestS">Shortest time that bonds; null when none does up to the longest looked at.</param>
/// <param name="LongestS">Longest time before anything is harmed; null when nothing is up to the longest looked at.</param>
/// <param name="HealedS">When the glue has healed; null when it has not.</param>
/// <param name="EnteredS">When the glue is deep enough; null when it is not.</param>
/// <param name="Harmed">The layer that is harmed first; null for none.</param>
/// <param name="Harm">What happens to it; null for none.</param>
/// <param name="HottestGlueC">Hottest glue line up to the longest time looked at, °C.</param>
public sealed record HeatWindow(
    double? ShortestS,
    double? LongestS,
    double? HealedS,
    double? EnteredS,
    string? Harmed,
    string? Harm,
    double HottestGlueC
)
{
    /// <summary>Whether some time bonds and does not harm.</summary>
    public bool Open => ShortestS is { } shortest && !(LongestS <= shortest);
}

/// <summary>Finds press windows.</summary>
/// <remarks>
/// The stack is followed once, with the stage held as long as is looked at; the times at which the doses are done are then found on that course by
/// halving. The window counts what happens while the press is closed: the glue is pressed in only then, and no face of the item is hotter later than while
/// the plate lies on it, but for what a hot film gives to a cold face behind a poor contact.
/// </remarks>
public static class HeatWindows
{
    /// <summary>The window of the stage.</summary>
    /// <param name="ask">What is asked.</param>
    /// <param name="search">How finely.</param>
    /// <param name="stop">Cancels.</param>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static HeatWindow Find(HeatWindowAsk ask, HeatSearch search, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(ask);
        var held = ask.Problem.Stages[ask.Stage] with { Seconds = ask.LongestS, UntilGlueLine = null };
        var problem = ask.Problem with
        {
            Stages = [.. ask.Problem.Stages.Take(ask.Stage), held],
            OutputEveryS = Math.Max(ask.Problem.OutputEveryS, ask.LongestS),
            ProfileS = [],
        };
        return On(HeatSolver.Solve(problem, search, stop), ask);
    }

    /// <summary>Doses of bond over a whole course: the healing integral and the integral of depth squared, while pressed.</summary>
    /// <param name="answer">The course.</param>
    /// <param name="stages">Its stages, for their pressure.</param>
    /// <param name="glue">How the glue bonds.</param>
    public static (double Heals, double Enters) Bond(HeatAnswer answer, ImmutableArray<HeatStage> stages, GlueLaw glue)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(glue);
        var kPa = Pressure(answer, stages);
        var end = answer.TimesS[^1];
        return (
            HeatDose.Of(answer.GlueLine, (s, c) => kPa(s) > 0 ? glue.HealsPerSecond(c) : 0, 0, end),
            HeatDose.Of(answer.GlueLine, (s, c) => glue.EntersPerSecond(c, kPa(s)), 0, end)
        );
    }

    private static HeatWindow On(HeatAnswer answer, HeatWindowAsk ask)
    {
        var (start, end) = (answer.Stages[ask.Stage].StartS, answer.Stages[ask.Stage].EndS);
        var kPa = Pressure(answer, ask.Problem.Stages);
        double? Since(double? when) => when is { } s ? Math.Max(0, s - start) : null;
        if (ask.Bonded)
        {
            var soft = Since(SoftFrom(answer.GlueLine, ask.Glue.SoftensC, start));
            return Judged(answer, ask, end, Since, soft, soft);
        }

        var healed = Since(
            HeatDose.When(answer.GlueLine, (s, c) => kPa(s) > 0 ? ask.Glue.HealsPerSecond(c) : 0, 1, 0, end)
        );
        var entered = Since(HeatDose.When(answer.GlueLine, (s, c) => ask.Glue.EntersPerSecond(c, kPa(s)), 1, 0, end));
        return Judged(answer, ask, end, Since, healed, entered);
    }

    private static double? SoftFrom(HeatTrace glue, double softensC, double start)
    {
        for (var i = 0; i < glue.Points; i++)
        {
            if (glue.TimeS(i) < start)
            {
                continue;
            }

            if (glue.Celsius(i) >= softensC)
            {
                return glue.Crossing(i, softensC) is { } share && i > 0
                    ? glue.TimeS(i - 1) + (share * (glue.TimeS(i) - glue.TimeS(i - 1)))
                    : glue.TimeS(i);
            }
        }

        return null;
    }

    private static HeatWindow Judged(
        HeatAnswer answer,
        HeatWindowAsk ask,
        double end,
        Func<double?, double?> since,
        double? healed,
        double? entered
    )
    {
        var (first, layer, what) = ((double?)null, (string?)null, (string?)null);
        foreach (var (name, law) in ask.Harm.OrderBy(h => h.Key, StringComparer.Ordinal))
        {
            if (answer.Faces.TryGetValue(name, out var faces) && since(Harmed(faces, law, end)) is { } when)
            {
                (first, layer, what) =
                    when < (first ?? double.PositiveInfinity) ? (when, name, law.What) : (first, layer, what);
            }
        }

        var glueline = Enumerable.Range(0, answer.GlueLine.Points).Max(answer.GlueLine.Celsius);
        return new(
            healed is { } h && entered is { } e ? Math.Max(h, e) : null,
            first,
            healed,
            entered,
            layer,
            what,
            glueline
        );
    }

    private static double? Harmed(HeatLayerFaces faces, HarmLaw law, double end)
    {
        double? first = null;
        foreach (var face in new[] { faces.Upper, faces.Lower })
        {
            var passed = law.LimitC is { } limit ? face.Reach(limit).FirstS : null;
            var dosed = law.Dose is { } dose ? HeatDose.When(face, (_, c) => dose.PerSecond(c), 1, 0, end) : null;
            foreach (var when in new[] { passed, dosed })
            {
                first = when is { } s && s < (first ?? double.PositiveInfinity) ? s : first;
            }
        }

        return first;
    }

    private static Func<double, double> Pressure(HeatAnswer answer, ImmutableArray<HeatStage> stages)
    {
        var runs = answer.Stages;
        return seconds =>
        {
            for (var i = 0; i < runs.Length; i++)
            {
                if (seconds < runs[i].EndS || i == runs.Length - 1)
                {
                    return stages[i].PressureKPa;
                }
            }

            return 0;
        };
    }
}
