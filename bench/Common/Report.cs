using System.Globalization;
using System.Runtime.InteropServices;

namespace Coldpeel.Bench;

/// <summary>Tables go to the terminal and, when asked for, to a file.</summary>
internal static class Report
{
    public static void Put(IEnumerable<object> parts, string? path)
    {
        var text = string.Join("\n", parts.Prepend(Machine()));
        Console.WriteLine(text);
        if (path is not null)
        {
            File.WriteAllText(path, text);
        }
    }

    public static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    // Figures mean nothing without the machine and what else it was doing.
    private static string Machine()
    {
        var load = File.Exists("/proc/loadavg") ? File.ReadAllText("/proc/loadavg").Split(' ')[0] : "not known";
        return Say(
            $"{DateTime.UtcNow:yyyy-MM-dd HH:mm} UTC, {Environment.ProcessorCount} cores, {RuntimeInformation.OSArchitecture}, {RuntimeInformation.FrameworkDescription}, load at the end {load}\n"
        );
    }
}
