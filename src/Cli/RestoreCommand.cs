using System.ComponentModel;
using Coldpeel.Desk.Rooms;
using Spectre.Console.Cli;

namespace Coldpeel.Cli;

/// <summary><c>restore</c>: a backup in the place of all that is in a workshop.</summary>
internal sealed class RestoreCommand : Command<RestoreCommand.Settings>
{
    internal sealed class Settings : StoreSettings
    {
        [CommandArgument(0, "<FILE>")]
        [Description("A backup that was written here.")]
        public required string Path { get; init; }
    }

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellationToken) =>
        settings.Run(
            w => new RestoreWorkshop(w).RunFromOutside(settings.Path, "the command"),
            w => $"{settings.Path} is back in {w.Folder}; what was there before is kept in its folder backups."
        );
}
