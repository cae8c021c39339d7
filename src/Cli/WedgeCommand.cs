using System.ComponentModel;
using Coldpeel.Desk.Artwork;
using Spectre.Console.Cli;

namespace Coldpeel.Cli;

/// <summary><c>artwork wedge</c>: steps of tint to be printed and measured, and the curve of dot gain from the readings.</summary>
internal sealed class WedgeCommand : Command<WedgeCommand.Settings>
{
    internal sealed class Settings : TrialSettings
    {
        [CommandOption("--measured <FILE>")]
        [Description("Read the filled form and answer with the curve for the workshop file.")]
        public string? Measured { get; init; }

        [CommandOption("--tone <HOW>")]
        [Description("screen, spray or grey; without it screen.")]
        public string? Tone { get; init; }

        [CommandOption("--dpi <N>")]
        [Description("Dots an inch: 600 or 1200; without it those of the workshop's printer.")]
        public int? Dpi { get; init; }
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
