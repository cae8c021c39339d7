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

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellationToken)
    {
        var opened = settings.Open();
        if (!opened.Ok)
        {
            return Terminal.Refuse(opened.Fault);
        }

        using var workshop = opened.Value;
        if (new RestoreWorkshop(workshop).Run(settings.Path) is { } fault)
        {
            return Terminal.Refuse(fault);
        }

        Terminal.Say(
            $"{settings.Path} is back in {workshop.Folder}; what was there before is kept in its folder backups."
        );
        return Exit.Done;
    }
}
