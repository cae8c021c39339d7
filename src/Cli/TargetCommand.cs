using System.ComponentModel;
using Coldpeel.Desk.Artwork;
using Spectre.Console.Cli;

namespace Coldpeel.Cli;

/// <summary><c>artwork target</c>: a sheet by which a workshop finds its own limits, and the limits from its ticks.</summary>
internal sealed class TargetCommand : Command<TargetCommand.Settings>
{
    internal sealed class Settings : TrialSettings
    {
        [CommandOption("--ticked <FILE>")]
        [Description("Read the filled form and answer with limits for the workshop file.")]
        public string? Ticked { get; init; }
    }

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellationToken) =>
        Trial.Answer(
            settings.Out,
            settings.Ticked,
            "--ticked",
            settings.Json,
            to => MakeTarget.Print(to, settings.Form, settings.Workshop, settings.Profile),
            from => MakeTarget.Read(from, settings.Workshop, settings.Profile)
        );
}
