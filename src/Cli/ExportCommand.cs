using System.ComponentModel;
using Coldpeel.Desk.Rooms;
using Spectre.Console.Cli;

namespace Coldpeel.Cli;

/// <summary><c>export</c>: everything as JSON, CSV and files.</summary>
internal sealed class ExportCommand : Command<ExportCommand.Settings>
{
    internal sealed class Settings : StoreSettings
    {
        [CommandArgument(0, "<DIR>")]
        [Description("The folder to write; it must not be there yet.")]
        public required string Path { get; init; }
    }

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellationToken) =>
        settings.Run(
            w => new ExportWorkshop(w).Run(settings.Path),
            w => $"All of {w.Folder} is in {settings.Path}.",
            mustBeThere: true
        );
}
