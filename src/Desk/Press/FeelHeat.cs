using System.Globalization;
using Coldpeel.Craft.Press.Heat;
using Coldpeel.Files.Press;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Press;

/// <summary>What a stack feels.</summary>
/// <param name="Json">The answer as one JSON document.</param>
/// <param name="Say">The same in words.</param>
/// <param name="Reached">Whether everything that was waited for came: the asked temperature, and every stage that waits for the glue line.</param>
public sealed record FeltHeat(string Json, IReadOnlyList<string> Say, bool Reached);

/// <summary>Follows the heat through a stack.</summary>
public static class FeelHeat
{
    /// <summary>Reads the stack, follows it, answers.</summary>
    public static Outcome<FeltHeat> Run(string stackPath, CancellationToken stop)
    {
        var read = StackFile.Read(stackPath, stackPath);
        if (!read.Ok)
        {
            return read.Fault;
        }

        var answer = HeatSolver.Solve(read.Value, new HeatSearch(), stop);
        var late = answer.Stages.FirstOrDefault(s => !s.Passed);
        return new FeltHeat(
            HeatAnswerFile.Write(answer),
            [.. Words(read.Value, answer, late)],
            late is null && (read.Value.Reach is null || answer.ReachedS is not null)
        );
    }

    private static IEnumerable<string> Words(HeatProblem problem, HeatAnswer answer, HeatStageRun? late)
    {
        if (problem.Reach is { } reach)
        {
            yield return answer.ReachedS is { } reached
                ? Say(
                    $"The glue line reaches {reach} after {reached:0.0} s and is there or above for {answer.HeldAboveS:0.0} s."
                )
                : Say(
                    $"The glue line never reaches {reach}; its hottest is {answer.GlueLineC.Where(double.IsFinite).Max():0.0} °C."
                );
        }

        foreach (var stage in answer.Stages)
        {
            yield return Say($"  {stage.Name}: {stage.StartS:0.0} to {stage.EndS:0.0} s");
        }

        if (answer.CoolS is { } cool)
        {
            yield return Say($"Cooling takes {cool:0} s.");
        }

        yield return "Hottest: "
            + string.Join(", ", problem.Layers.Select(l => Say($"{l.Name} {answer.HottestC[l.Name]:0.0} °C")));
        if (late is not null)
        {
            yield return Say(
                $"{late.Name} ended after {late.EndS - late.StartS:0} s, and the glue line had not passed the temperature it waited for."
            );
        }

        yield return Say($"Heat that does not add up: {answer.Balance.ErrorPercent:0.000000} %.");
    }

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
