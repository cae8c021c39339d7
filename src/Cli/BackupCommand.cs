using System.ComponentModel;
using Coldpeel.Desk.Rooms;
using Spectre.Console.Cli;

namespace Coldpeel.Cli;

/// <summary><c>backup</c>: all of a workshop in one file.</summary>
internal sealed class BackupCommand : Command<BackupCommand.Settings>
{
    internal sealed class Settings : StoreSettings
    {
        [CommandArgument(0, "<FILE>")]
        [Description("The backup to write (ZIP); it must not be there yet.")]
        public required string Path { get; init; }
    }

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellationToken) =>
        settings.Run(
            w => new BackUpWorkshop(w).Run(settings.Path),
            w => $"All of {w.Folder} is in {settings.Path}.",
            mustBeThere: true
        );
}
