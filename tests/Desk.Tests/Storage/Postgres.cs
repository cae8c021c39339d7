using System.Net;
using System.Net.Sockets;
using CliWrap;

namespace Coldpeel.Desk.Tests.Storage;

/// <summary>A throw-away PostgreSQL server on loopback; tests that need it are skipped, visibly, where no server program is there.</summary>
public sealed class Postgres : IAsyncLifetime
{
    private readonly string _folder = Path.Combine(Path.GetTempPath(), $"coldpeel-pg-{Guid.NewGuid():n}");
    private string? _server;
    private int _port;
    private int _databases;

    public async ValueTask InitializeAsync()
    {
        var programs =
            OperatingSystem.IsLinux() && Directory.Exists("/usr/lib/postgresql")
                ? Directory
                    .GetDirectories("/usr/lib/postgresql")
                    .Select(v => Path.Combine(v, "bin"))
                    .Where(b => File.Exists(Path.Combine(b, "initdb")))
                : [];
        if (programs.OrderBy(p => p, StringComparer.Ordinal).LastOrDefault() is not { } bin)
        {
            return;
        }

        using (var any = new TcpListener(IPAddress.Loopback, 0))
        {
            any.Start();
            _port = ((IPEndPoint)any.LocalEndpoint).Port;
        }

        Directory.CreateDirectory(_folder);
        if (Environment.UserName == "root")
        {
            await Run("chown", "postgres", _folder);
        }

        await Run(
            $"{bin}/initdb",
            "-D",
            $"{_folder}/data",
            "-U",
            "proof",
            "-A",
            "trust",
            "-E",
            "UTF8",
            "--locale=C.UTF-8",
            "--no-sync"
        );
        await Run(
            $"{bin}/pg_ctl",
            "-D",
            $"{_folder}/data",
            "-w",
            "-l",
            $"{_folder}/log",
            "-o",
            $"-c listen_addresses=127.0.0.1 -p {_port} -k {_folder} -c fsync=off",
            "start"
        );
        _server = bin;
    }

    public async ValueTask DisposeAsync()
    {
        if (_server is not null)
        {
            await Run($"{_server}/pg_ctl", "-D", $"{_folder}/data", "-m", "immediate", "stop");
        }

        if (Directory.Exists(_folder))
        {
            Directory.Delete(_folder, recursive: true);
        }
    }

    /// <summary>Connection string of a database that nobody has used.</summary>
    public string NewDatabase()
    {
        Assert.SkipWhen(_server is null, "No PostgreSQL server program is on this machine.");
        return $"Host=127.0.0.1;Port={_port};Username=proof;Database=proof_{Interlocked.Increment(ref _databases)}";
    }

    // The server refuses to run as root.
    private static async Task Run(string program, params string[] words)
    {
        var (start, all) =
            Environment.UserName == "root" && program != "chown"
                ? ("runuser", (string[])["-u", "postgres", "--", program, .. words])
                : (program, words);
        await CliWrap.Cli.Wrap(start).WithArguments(all).WithStandardOutputPipe(PipeTarget.Null).ExecuteAsync();
    }
}
