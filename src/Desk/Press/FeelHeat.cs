using System.Collections.Immutable;
using System.Text;
using Coldpeel.Files.Press;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Desk.Press;

/// <summary>What a stack feels.</summary>
/// <param name="Json">The answer as one JSON document.</param>
/// <param name="Say">The same in words.</param>
/// <param name="Reached">Whether everything that was waited for came: the asked temperature, every stage that waits for the glue line, and an open press window where one was asked.</param>
public sealed record FeltHeat(string Json, IReadOnlyList<string> Say, bool Reached);

/// <summary>What is wanted beside the answer.</summary>
/// <param name="PicturePath">Where the picture goes, .svg or .png; null for none.</param>
/// <param name="ProfileS">Times at which the picture shows the whole stack; empty leaves them to the program.</param>
/// <param name="Samples">Cases to draw for chances; null for what the file says.</param>
public sealed record HeatOptions(string? PicturePath, ImmutableArray<double> ProfileS, int? Samples);

/// <summary>Follows the heat through a stack.</summary>
public static class FeelHeat
{
    /// <summary>Reads the stack, follows it, answers, draws.</summary>
    public static Outcome<FeltHeat> Run(string stackPath, HeatOptions options, CancellationToken stop)
    {
        ArgumentNullException.ThrowIfNull(options);
        var read = StackFile.Read(stackPath, stackPath);
        if (!read.Ok)
        {
            return read.Fault;
        }

        var ask = read.Value;
        if (options.Samples is { } samples)
        {
            if (ask.Window is null)
            {
                return new Fault(
                    stackPath,
                    "nobody asked for a press window.",
                    "Give \"x-window\", then chances can be told."
                );
            }

            ask = ask with { Chances = (ask.Chances ?? new(samples, 1)) with { Samples = samples } };
        }

        if (options.PicturePath is not null)
        {
            ask = ask with { Problem = ask.Problem with { ProfileS = Profiles(ask, options.ProfileS) } };
        }

        var report = HeatReports.Of(ask, stop);
        if (options.PicturePath is { } path)
        {
            var picture = path.EndsWith(".png", StringComparison.OrdinalIgnoreCase)
                ? HeatPicture.Png(report.Problem, report.Heat)
                : Encoding.UTF8.GetBytes(HeatPicture.Svg(report.Problem, report.Heat));
            if (OneFile.Put(path, picture) is { } refused)
            {
                return refused;
            }
        }

        var late = report.Heat.Stages.FirstOrDefault(s => !s.Passed);
        return new FeltHeat(
            HeatAnswerFile.Write(ask, report),
            [.. HeatWords.Of(ask, report)],
            late is null
                && (ask.Problem.Reach is null || report.Heat.ReachedS is not null)
                && report.Window?.Window.Open != false
        );
    }

    private static readonly double[] EarlyS = [1, 3, 10];

    // The first stage is where most happens: a few times in it, closer at its start, and the ends of all stages whose length is known.
    private static ImmutableArray<double> Profiles(HeatAsk ask, ImmutableArray<double> asked)
    {
        if (asked.Length > 0)
        {
            return [.. asked.Distinct().Order()];
        }

        var first = Math.Min(ask.Problem.Stages[0].Seconds, 600);
        var times = new List<double>(EarlyS.Where(t => t < 0.7 * first)) { first };
        var end = 0.0;
        foreach (var stage in ask.Problem.Stages.TakeWhile(s => double.IsFinite(s.Seconds)))
        {
            end += stage.Seconds;
            times.Add(end);
        }

        return [.. times.Select(t => Math.Round(t, 2)).Distinct().Order().Take(8)];
    }
}
