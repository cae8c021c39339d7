using System.ComponentModel;
using Coldpeel.Desk;
using Spectre.Console.Cli;

namespace Coldpeel.Cli;

/// <summary><c>serve</c>: the workshop in a browser.</summary>
internal sealed class ServeCommand : AsyncCommand<ServeCommand.Settings>
{
    internal sealed class Settings : CommandSettings
    {
        [CommandOption("--data <DIR>")]
        [Description("Folder in which the workshop keeps everything; a folder of your own account when left out.")]
        public string? Data { get; init; }

        [CommandOption("--url <URL>")]
        [Description("Where the app answers; http://localhost:5080 when left out.")]
        public string? Url { get; init; }
    }

    public override async Task<int> ExecuteAsync(
        CommandContext context,
        Settings settings,
        CancellationToken cancellationToken
    )
    {
        var url = settings.Url ?? OpenWorkshop.UsualUrl;
        if (Serving.Wrong(url) is { } wrong)
        {
            return Terminal.Refuse(wrong);
        }

        var workshop = OpenWorkshop.Run(settings.Data ?? OpenWorkshop.UsualFolder, TimeProvider.System);
        return workshop.Ok
            ? await Serving.Run(workshop.Value, url, _ => { }, cancellationToken)
            : Terminal.Refuse(workshop.Fault);
    }
}
