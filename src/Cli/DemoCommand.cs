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
            workshop.IsBeingFilled = true;
            var filled = Task.CompletedTask;
            var code = await Serving.Run(
                workshop,
                url,
                address =>
                {
                    Browser.TryOpen(address);
                    filled = Task.Run(() => Fill(workshop, stop.Token), CancellationToken.None);
                },
                stop.Token
            );
            // What is half made is let go before its folder is.
            await stop.CancelAsync();
            await filled;
            return code;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static void Fill(OpenedWorkshop workshop, CancellationToken stop)
    {
        try
        {
            if (new FillDemo(workshop).Run(Terminal.Progress, stop) is { } fault)
            {
                Terminal.Refuse(fault);
            }
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            // The demo was closed before all was made.
        }
        finally
        {
            workshop.IsBeingFilled = false;
        }
    }
}
