using System.Diagnostics;
using Coldpeel.Bench;

namespace Coldpeel.Speed;

/// <summary>The built program, serving a folder as an owner starts it.</summary>
internal static class ServedProgram
{
    /// <summary>The built program, or another one that is named; null, and told, where it is not there.</summary>
    public static string? Find(Options options)
    {
        var program =
            options.Text("--program")
            ?? Path.Combine(BenchPlace.Root, "artifacts", "bin", "Coldpeel.Cli", "release", "coldpeel.dll");
        if (File.Exists(program))
        {
            return program;
        }

        Console.Error.WriteLine("Build the program first: ./coldpeel --help");
        return null;
    }

    /// <summary>Starts it; it answers at the address from then on.</summary>
    public static Process Start(string program, string folder, out string address)
    {
        var app = Process.Start(
            new ProcessStartInfo("dotnet", [program, "serve", "--data", folder, "--url", "http://127.0.0.1:0"])
            {
                RedirectStandardOutput = true,
                RedirectStandardError = true,
                // As the launcher starts it.
                Environment = { ["DOTNET_TieredPGO"] = "0" },
            }
        )!;
        app.ErrorDataReceived += (_, _) => { };
        app.BeginErrorReadLine();
        address = app.StandardOutput.ReadLine() ?? throw new InvalidOperationException("The program did not start.");
        return app;
    }
}
