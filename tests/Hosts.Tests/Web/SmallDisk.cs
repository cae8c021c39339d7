using CliWrap;
using Microsoft.Data.Sqlite;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>A small file system of the machine's memory, mounted for a test; only root of a Linux machine may.</summary>
internal sealed class SmallDisk : IAsyncDisposable
{
    private const int Megabytes = 12;

    private SmallDisk(string folder) => Folder = folder;

    public string Folder { get; }

    /// <summary>The disk; the test is skipped where it cannot be had.</summary>
    public static async Task<SmallDisk> Mount()
    {
        var folder = Place.NewFolder();
        var mounted =
            OperatingSystem.IsLinux()
            && Environment.UserName == "root"
            && (
                await CliWrap
                    .Cli.Wrap("mount")
                    .WithArguments(["-t", "tmpfs", "-o", $"size={Megabytes}m", "tmpfs", folder])
                    .WithValidation(CommandResultValidation.None)
                    .ExecuteAsync()
            ).ExitCode == 0;
        Assert.SkipUnless(mounted, "Only root of a Linux machine may mount a small disk.");
        return new(folder);
    }

    /// <summary>To the last byte: a page of the database, of its log and of a file must all fail.</summary>
    public async Task Fill()
    {
        await using var filler = File.Create(Path.Combine(Folder, "filler"), 0);
        for (var size = 65536; size > 0; )
        {
            try
            {
                filler.Write(new byte[size]);
            }
            catch (IOException)
            {
                size /= 2;
            }
        }
    }

    /// <summary>As a disk that is locked, or that the system no longer trusts, is mounted.</summary>
    public async Task OnlyRead()
    {
        // Not while a file is open to be written: who has one closes it soon, and the pool keeps none.
        for (var tries = 0; !await Remount("ro"); tries++)
        {
            Assert.True(tries < 100, "The disk stays busy.");
            SqliteConnection.ClearAllPools();
            await Task.Delay(50);
        }
    }

    /// <summary>As before.</summary>
    public async Task MayWrite() => Assert.True(await Remount("rw"));

    private async Task<bool> Remount(string how) =>
        (
            await CliWrap
                .Cli.Wrap("mount")
                .WithArguments(["-o", $"remount,{how}", Folder])
                .WithValidation(CommandResultValidation.None)
                .ExecuteAsync()
        ).ExitCode == 0;

    public void MakeRoom() => File.Delete(Path.Combine(Folder, "filler"));

    public async ValueTask DisposeAsync()
    {
        await CliWrap
            .Cli.Wrap("umount")
            .WithArguments(["--lazy", Folder])
            .WithValidation(CommandResultValidation.None)
            .ExecuteAsync();
        Directory.Delete(Folder, recursive: true);
    }
}
