namespace Coldpeel.Hosts.Tests.Cli;

/// <summary>The small job, made once for all tests that only look.</summary>
public sealed class MadeOnce : IAsyncLifetime
{
    internal SmallJob Job { get; } = new();

    internal Ran Ran { get; private set; } = new("", -1, "", "", 0);

    public async ValueTask InitializeAsync() => Ran = await Job.Make("--json", "--seconds", "2");

    public ValueTask DisposeAsync()
    {
        Job.Dispose();
        return ValueTask.CompletedTask;
    }
}
