using System.ComponentModel;
using Coldpeel.Workshop.Findings;
using Spectre.Console.Cli;

namespace Coldpeel.Cli;

/// <summary>Options that target and wedge share.</summary>
internal abstract class TrialSettings : CommandSettings
{
    [CommandOption("--out <OUT.pdf>")]
    [Description("Write the print file.")]
    public string? Out { get; init; }

    [CommandOption("--form <OUT.json>")]
    [Description("Write the form to fill in beside it.")]
    public string? Form { get; init; }

    [CommandOption("--workshop <FILE>")]
    [Description("The workshop file; without it the example workshop.")]
    public string? Workshop { get; init; }

    [CommandOption("--profile <NAME>")]
    [Description("The process that is tried, by its name in the workshop file.")]
    public string? Profile { get; init; }

    [CommandOption("--json")]
    [Description("Answer with one JSON document on standard output.")]
    public bool Json { get; init; }
}

/// <summary>What target and wedge have in common: one half prints, the other reads what came of it.</summary>
internal static class Trial
{
    public static int Answer(
        string? to,
        string? from,
        string fromOption,
        bool json,
        Func<string, Outcome<string>> print,
        Func<string, Outcome<string>> read
    )
    {
        if (to is null == from is null)
        {
            return Terminal.Refuse(
                new(
                    $"--out and {fromOption}",
                    to is null ? "neither was given." : "were both given.",
                    $"Give --out to print, or {fromOption} to read the filled form."
                )
            );
        }

        var answer = to is null ? read(from!) : print(to);
        if (!answer.Ok)
        {
            return Terminal.Refuse(answer.Fault);
        }

        // A fragment is JSON already.
        Terminal.Answer(
            to is null || !json
                ? answer.Value
                : System.Text.Json.JsonSerializer.Serialize(new { file = to, say = answer.Value })
        );
        return Exit.Done;
    }
}
