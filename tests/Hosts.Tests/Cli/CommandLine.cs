using System.Diagnostics;
using System.Text.Json;
using CliWrap;
using CliWrap.Buffered;

namespace Coldpeel.Hosts.Tests.Cli;

/// <summary>The built program, run as anybody runs it.</summary>
internal static class CommandLine
{
    // Far above what any of these takes: it ends a run that would never end.
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(300);

    /// <summary>The program that was built beside the tests.</summary>
    public static string Program { get; } = Path.Combine(AppContext.BaseDirectory, "coldpeel.dll");

    /// <summary>Runs a verb in a folder to its end.</summary>
    public static async Task<Ran> Run(string folder, params string[] args)
    {
        using var late = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        late.CancelAfter(Longest);
        var running = CliWrap
            .Cli.Wrap("dotnet")
            .WithArguments([Program, .. args])
            .WithEnvironmentVariables(e => e.Set("DOTNET_TieredPGO", "0"))
            .WithWorkingDirectory(folder)
            .WithValidation(CommandResultValidation.None)
            .ExecuteBufferedAsync(late.Token);
        var most = 0L;
        while (!running.Task.IsCompleted)
        {
            most = Math.Max(most, PeakBytes(running.ProcessId));
            await Task.WhenAny(running.Task, Task.Delay(25, late.Token));
        }

        var run = await running;
        return new(string.Join(' ', args), run.ExitCode, run.StandardOutput, run.StandardError, most);
    }

    private static long PeakBytes(int id)
    {
        try
        {
            using var process = Process.GetProcessById(id);
            return process.PeakWorkingSet64;
        }
        catch (Exception ended) when (ended is ArgumentException or InvalidOperationException)
        {
            return 0;
        }
    }
}

/// <summary>What a run left.</summary>
/// <param name="Command">What was asked.</param>
/// <param name="Code">Exit code.</param>
/// <param name="Out">Standard output.</param>
/// <param name="Err">Standard error.</param>
/// <param name="PeakBytes">Most memory held at once.</param>
internal sealed record Ran(string Command, int Code, string Out, string Err, long PeakBytes)
{
    /// <summary>The one JSON document on standard output; anything beside it fails the test.</summary>
    public JsonElement Json()
    {
        using var document = JsonDocument.Parse(Out);
        return document.RootElement.Clone();
    }

    /// <summary>Ended with this code.</summary>
    public Ran Ended(int code)
    {
        Assert.True(Code == code, $"coldpeel {Command}: exit {Code}, not {code}\n{Out}{Err}");
        return this;
    }

    /// <summary>Refused as wrong input: code 2, nothing on standard output, one line on standard error that has all the words and no trace of the program's inside.</summary>
    public void Refused(params string[] words)
    {
        Ended(2);
        Assert.Equal("", Out);
        var line = Assert.Single(Err.Split('\n', StringSplitOptions.RemoveEmptyEntries));
        Assert.StartsWith("coldpeel: ", line, StringComparison.Ordinal);
        Assert.DoesNotMatch(@"Exception|\bat Coldpeel\.|Nullable|UInt64|System\.|__default|\.making-", line);
        Assert.All(words, word => Assert.Contains(word, line, StringComparison.Ordinal));
    }
}
