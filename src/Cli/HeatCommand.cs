using System.Collections.Immutable;
using System.ComponentModel;
using System.Globalization;
using Coldpeel.Desk.Press;
using Coldpeel.Workshop.Findings;
using Spectre.Console.Cli;

namespace Coldpeel.Cli;

/// <summary><c>heat</c>: what every layer of a stack feels under the press.</summary>
internal sealed class HeatCommand : Command<HeatCommand.Settings>
{
    internal sealed class Settings : CommandSettings
    {
        [CommandArgument(0, "<STACK.json>")]
        [Description("Layers from the upper plate down, plates and stages.")]
        public string Stack { get; init; } = "";

        [CommandOption("--picture <FILE>")]
        [Description("Draw temperature over time and through the stack, as .svg or .png.")]
        public string? Picture { get; init; }

        [CommandOption("--at <SECONDS>")]
        [Description("Times at which the picture shows the whole stack: 2,5,15.")]
        public string? At { get; init; }

        [CommandOption("--chances <N>")]
        [Description(
            "Draw that many cases from the spreads of all figures, and tell how likely a time bonds and harms."
        )]
        public int? Chances { get; init; }

        [CommandOption("--json")]
        [Description("Answer with one JSON document on standard output.")]
        public bool Json { get; init; }
    }

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellationToken)
    {
        if (Wrong(settings, out var times) is { } wrong)
        {
            return Terminal.Refuse(wrong);
        }

        var answer = FeelHeat.Run(settings.Stack, new(settings.Picture, times, settings.Chances), cancellationToken);
        if (!answer.Ok)
        {
            return Terminal.Refuse(answer.Fault);
        }

        Terminal.Answer(settings.Json ? answer.Value.Json : string.Join(Environment.NewLine, answer.Value.Say));
        return answer.Value.Reached ? Exit.Done : Exit.CannotBeMade;
    }

    private static Fault? Wrong(Settings settings, out ImmutableArray<double> times)
    {
        times = [];
        if (
            settings.Picture is { } picture
            && !picture.EndsWith(".svg", StringComparison.OrdinalIgnoreCase)
            && !picture.EndsWith(".png", StringComparison.OrdinalIgnoreCase)
        )
        {
            return new(
                "--picture",
                $"\"{picture}\" is neither .svg nor .png.",
                "Name a file that ends in one of them."
            );
        }

        if (settings.Chances is < 10 or > 20000)
        {
            return new("--chances", "so many cases cannot be drawn.", "Give a whole number from 10 to 20000.");
        }

        var read = ImmutableArray.CreateBuilder<double>();
        foreach (var word in settings.At?.Split(',') ?? [])
        {
            if (
                !double.TryParse(word, NumberStyles.Float, CultureInfo.InvariantCulture, out var seconds)
                || !double.IsFinite(seconds)
                || seconds < 0
            )
            {
                return new("--at", $"\"{word}\" is no time.", "Give seconds from 0, with commas between: 2,5,15.");
            }

            read.Add(seconds);
        }

        times = read.Count > 12 ? [] : read.ToImmutable();
        return read.Count > 12
            ? new("--at", "more than twelve times crowd the picture.", "Give at most twelve.")
            : null;
    }
}
