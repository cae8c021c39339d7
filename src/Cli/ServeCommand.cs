using System.ComponentModel;
using Coldpeel.Desk;
using Spectre.Console.Cli;

namespace Coldpeel.Cli;

/// <summary><c>serve</c>: the workshop in a browser.</summary>
internal sealed class ServeCommand : AsyncCommand<ServeCommand.Settings>
{
    internal sealed class Settings : StoreSettings
    {
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

        var opened = settings.Open();
        if (!opened.Ok)
        {
            return Terminal.Refuse(opened.Fault);
        }

        using var workshop = opened.Value;
        return await Serving.Run(workshop, url, _ => { }, cancellationToken);
    }
}
