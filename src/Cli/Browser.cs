using System.ComponentModel;
using System.Diagnostics;

namespace Coldpeel.Cli;

/// <summary>The system's own way to open an address.</summary>
internal static class Browser
{
    /// <summary>Opens it where there is a browser; says nothing where there is none.</summary>
    public static void TryOpen(string url)
    {
        var opener =
            OperatingSystem.IsWindows() ? new ProcessStartInfo(url) { UseShellExecute = true }
            : OperatingSystem.IsMacOS() ? Quiet("open", url)
            : Quiet("xdg-open", url);
        try
        {
            using var started = Process.Start(opener);
        }
        catch (Exception none) when (none is Win32Exception or IOException or InvalidOperationException)
        {
            // The address stands in the terminal: a person can open it anywhere.
        }
    }

    // What an opener prints is not for our reader.
    private static ProcessStartInfo Quiet(string program, string url) =>
        new("/bin/sh", ["-c", "exec \"$0\" \"$1\" >/dev/null 2>&1 </dev/null", program, url])
        {
            UseShellExecute = false,
        };
}
