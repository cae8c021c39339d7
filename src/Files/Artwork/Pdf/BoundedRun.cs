using System.Diagnostics;
using System.Text;

namespace Coldpeel.Files.Artwork.Pdf;

/// <summary>How a run of another program ended.</summary>
internal enum RunEnd
{
    /// <summary>By itself, well.</summary>
    Well,

    /// <summary>By itself, with complaints.</summary>
    Badly,

    /// <summary>It was stopped: it took too long.</summary>
    TooLong,

    /// <summary>It was stopped: it took too much memory or wrote too much.</summary>
    TooMuch,
}

/// <summary>A run of another program within bounds of time, memory and what it writes.</summary>
/// <param name="End">How it ended.</param>
/// <param name="Said">Its standard output, at most <see cref="MostSaid"/> characters.</param>
/// <param name="Complaint">Its standard error, likewise.</param>
internal sealed record BoundedRun(RunEnd End, string Said, string Complaint)
{
    /// <summary>Memory that the program may take, in bytes.</summary>
    public const long MostMemory = 1_000_000_000;

    private const int MostSaid = 20_000;
    private const int LookMs = 10;

    /// <summary>Runs the program and stops it, with its children, at the first bound that it breaks.</summary>
    /// <param name="program">The program's file.</param>
    /// <param name="arguments">Its arguments.</param>
    /// <param name="until">How much it may work.</param>
    /// <param name="writes">The file it writes; null for none.</param>
    /// <param name="most">Bytes that this file may have.</param>
    public static BoundedRun Of(
        string program,
        string[] arguments,
        Deadline until,
        string? writes = null,
        long most = ArtworkReader.MostBytes
    )
    {
        var start = new ProcessStartInfo(program, arguments)
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            RedirectStandardInput = true,
            UseShellExecute = false,
            CreateNoWindow = true,
        };
        using var process = Process.Start(start)!;
        process.StandardInput.Close();
        var (said, complaint) = (Keep(process.StandardOutput), Keep(process.StandardError));
        RunEnd? stopped = null;
        var worked = TimeSpan.Zero;
        while (!process.WaitForExit(LookMs))
        {
            (var memory, worked) = Taken(process, worked);
            stopped =
                until.IsOver(worked) ? RunEnd.TooLong
                : memory > MostMemory || Written(writes) > most ? RunEnd.TooMuch
                : null;
            if (stopped is not null)
            {
                process.Kill(entireProcessTree: true);
                process.WaitForExit();
                break;
            }
        }

        until.Spend(worked);
        return new(
            stopped ?? (process.ExitCode == 0 ? RunEnd.Well : RunEnd.Badly),
            said.GetAwaiter().GetResult(),
            complaint.GetAwaiter().GetResult()
        );
    }

    // All is read, so that the program never waits for us; only the beginning is kept.
    private static async Task<string> Keep(StreamReader reader)
    {
        var kept = new StringBuilder();
        var buffer = new char[4096];
        int count;
        while ((count = await reader.ReadAsync(buffer).ConfigureAwait(false)) > 0)
        {
            kept.Append(buffer, 0, Math.Min(count, MostSaid - kept.Length));
        }

        return kept.ToString();
    }

    private static (long Memory, TimeSpan Worked) Taken(Process process, TimeSpan before)
    {
        try
        {
            process.Refresh();
            return (process.WorkingSet64, process.TotalProcessorTime);
        }
        catch (Exception e) when (e is InvalidOperationException or System.ComponentModel.Win32Exception)
        {
            return (0, before); // it ended between the two questions
        }
    }

    private static long Written(string? file) =>
        file is not null && new FileInfo(file) is { Exists: true } info ? info.Length : 0;
}
