using CliWrap;
using CliWrap.EventStream;

namespace Coldpeel.Hosts.Tests.Cli;

public sealed class DemoTests
{
    [Fact]
    public async Task The_demo_is_open_while_its_orders_are_still_being_made_and_can_be_closed_at_once()
    {
        using var late = new CancellationTokenSource(TimeSpan.FromMinutes(3));
        using var close = new CancellationTokenSource();
        string? page = null;
        var told = new List<string>();
        try
        {
            await foreach (
                var line in CliWrap
                    .Cli.Wrap("dotnet")
                    .WithArguments([CommandLine.Program, "demo", "--url", "http://127.0.0.1:0"])
                    .WithValidation(CommandResultValidation.None)
                    .ListenAsync(System.Text.Encoding.UTF8, System.Text.Encoding.UTF8, late.Token, close.Token)
            )
            {
                if (line is StandardOutputCommandEvent { Text: var address } && page is null)
                {
                    using var browser = new HttpClient();
                    page = await browser.GetStringAsync(new Uri(address), late.Token);
                    await close.CancelAsync();
                }
                else if (line is StandardErrorCommandEvent { Text: var text })
                {
                    told.Add(text);
                }
            }
        }
        catch (OperationCanceledException) when (close.IsCancellationRequested && !late.IsCancellationRequested)
        {
            // CliWrap tells a run that was asked to end in this way.
        }

        Assert.Contains("Invented orders are being made", page, StringComparison.Ordinal);
        Assert.DoesNotContain(told, t => t.Contains("Exception", StringComparison.Ordinal));
    }
}
