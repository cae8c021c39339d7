using System.ComponentModel;
using Coldpeel.Desk;
using Coldpeel.Desk.Orders;
using Spectre.Console.Cli;

namespace Coldpeel.Cli;

/// <summary><c>demo</c>: the app over a throw-away workshop full of invented data.</summary>
internal sealed class DemoCommand : AsyncCommand<DemoCommand.Settings>
{
    internal sealed class Settings : CommandSettings
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

        // Stopped at any moment, the demo leaves nothing behind.
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellationToken);
        Console.CancelKeyPress += (_, key) =>
        {
            key.Cancel = true;
            stop.Cancel();
        };
        var folder = Directory.CreateTempSubdirectory("coldpeel-demo-").FullName;
        try
        {
            var opened = OpenWorkshop.Run(folder, TimeProvider.System);
            if (!opened.Ok)
            {
                return Terminal.Refuse(opened.Fault);
            }

            using var workshop = opened.Value;
            return new FillDemo(workshop).Run(Terminal.Progress, stop.Token) is { } fault
                ? Terminal.Refuse(fault)
                : await Serving.Run(workshop, url, Browser.TryOpen, stop.Token);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
