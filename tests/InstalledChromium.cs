namespace Coldpeel.Tests;

/// <summary>The browser that tests and benchmarks open screens in.</summary>
internal static class InstalledChromium
{
    // The one without windows first: the same engine, and a third less work for the machine than the whole browser with its windows hidden.
    private static readonly string[] Names =
    [
        "chromium-headless-shell",
        "chromium",
        "chromium-browser",
        "google-chrome",
    ];

    /// <summary>Where it is; null where none is on the PATH (test.sh installs one).</summary>
    public static string? Path =>
        Names
            .SelectMany(name =>
                (Environment.GetEnvironmentVariable("PATH") ?? "")
                    .Split(System.IO.Path.PathSeparator)
                    .Select(folder => System.IO.Path.Combine(folder, name))
            )
            .FirstOrDefault(File.Exists);
}
