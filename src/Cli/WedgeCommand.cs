using System.ComponentModel;
using Coldpeel.Desk.Artwork;
using Spectre.Console.Cli;

namespace Coldpeel.Cli;

/// <summary><c>artwork wedge</c>: steps of tint to be printed and measured, and the curve of dot gain from the readings.</summary>
internal sealed class WedgeCommand : Command<WedgeCommand.Settings>
{
    internal sealed class Settings : CommandSettings
    {
        [CommandOption("--out <OUT.pdf>")]
        [Description("Write the print file.")]
        public string? Out { get; init; }

        [CommandOption("--form <OUT.json>")]
        [Description("Write the form to fill in beside it.")]
        public string? Form { get; init; }

        [CommandOption("--measured <FILE>")]
        [Description("Read the filled form and answer with the curve for the workshop file.")]
        public string? Measured { get; init; }

        [CommandOption("--tone <HOW>")]
        [Description("screen, spray or grey; without it screen.")]
        public string? Tone { get; init; }

        [CommandOption("--dpi <N>")]
        [Description("Dots an inch: 600 or 1200; without it those of the workshop's printer.")]
        public int? Dpi { get; init; }

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

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellationToken) =>
        Trial.Answer(
            settings.Out,
            settings.Measured,
            "--measured",
            settings.Json,
            to => MakeWedge.Print(to, settings.Form, settings.Tone, settings.Dpi, settings.Workshop, settings.Profile),
            MakeWedge.Read
        );
}
