using System.Net;
using System.Net.Sockets;
using CliWrap;
using CliWrap.Buffered;

namespace Coldpeel.Hosts.Tests.Web;

public sealed class ServeTests
{
    [Fact]
    public async Task A_port_that_is_taken_ends_serve_with_code_2_and_one_line()
    {
        using var other = new TcpListener(IPAddress.Loopback, 0);
        other.Start();
        var port = ((IPEndPoint)other.LocalEndpoint).Port;
        await Refused($"http://127.0.0.1:{port}", "address already in use");
    }

    [Theory]
    [InlineData("ftp://localhost:5080")]
    [InlineData("localhost:5080")]
    [InlineData("http://localhost:5080/app")]
    public async Task What_is_no_address_ends_serve_with_code_2_and_one_line(string url) =>
        await Refused(url, "is no address to answer at");

    private static async Task Refused(string url, string words)
    {
        var folder = Place.NewFolder();
        var run = await CliWrap
            .Cli.Wrap("dotnet")
            .WithArguments([
                Path.Combine(AppContext.BaseDirectory, "coldpeel.dll"),
                "serve",
                "--data",
                Path.Combine(folder, "data"),
                "--url",
                url,
            ])
            .WithValidation(CommandResultValidation.None)
            .ExecuteBufferedAsync(TestContext.Current.CancellationToken);
        Directory.Delete(folder, recursive: true);
        Assert.Equal(2, run.ExitCode);
        Assert.Empty(run.StandardOutput);
        var line = Assert.Single(run.StandardError.Split('\n', StringSplitOptions.RemoveEmptyEntries));
        Assert.Contains(words, line, StringComparison.Ordinal);
    }
}
