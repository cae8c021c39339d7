using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Orders;

/// <summary>Keeps the paths of a job within the folder of the job.</summary>
internal static class InsideFolder
{
    /// <summary>Why a path may not be used, with its mend; null when it names a file within the folder.</summary>
    /// <param name="folder">The job's folder.</param>
    /// <param name="path">Path as the job gives it.</param>
    public static (Sentence What, Sentence Mend)? Fault(string folder, string path)
    {
        const string stay = "Copy the file into the job's folder and name it from there, like art/crest.svg.";
        if (path.Contains('\\', StringComparison.Ordinal))
        {
            return ($"the path \"{path}\" has a backslash.", "Write / between folders: it works on every system.");
        }

        if (path.StartsWith('/') || path.Contains(':', StringComparison.Ordinal) || path.Any(char.IsControl))
        {
            return ($"the path \"{path}\" is not relative to the job file.", stay);
        }

        if (path.Split('/').Contains(".."))
        {
            return ($"the path \"{path}\" leaves the job's folder.", stay);
        }

        var full = Path.GetFullPath(Path.Combine(folder, path));
        if (Directory.Exists(full))
        {
            return ($"\"{path}\" is a folder.", "Name a file in it.");
        }

        if (!File.Exists(full))
        {
            return (
                $"there is no file \"{path}\" beside the job.",
                "Check the spelling, and capitals too, or copy the file there."
            );
        }

        var home = Real(Path.GetFullPath(folder));
        var real = Real(full);
        return real.StartsWith(
            home.TrimEnd(Path.DirectorySeparatorChar) + Path.DirectorySeparatorChar,
            StringComparison.Ordinal
        )
            ? null
            : ($"the path \"{path}\" leaves the job's folder by a link.", stay);
    }

    // Every step of the path is followed to where it really lies, as a link may stand at any of them.
    private static string Real(string full)
    {
        var here = Path.GetPathRoot(full)!;
        var steps = new Stack<string>(
            full[here.Length..].Split(Path.DirectorySeparatorChar).Where(s => s.Length > 0).Reverse()
        );
        for (var followed = 0; steps.TryPop(out var step); )
        {
            var next = Path.Combine(here, step);
            FileSystemInfo info = Directory.Exists(next) ? new DirectoryInfo(next) : new FileInfo(next);
            if (info.LinkTarget is not { } target || followed++ > 40)
            {
                here = next;
                continue;
            }

            var aim = Path.GetFullPath(target, here);
            here = Path.GetPathRoot(aim)!;
            foreach (
                var part in aim[here.Length..].Split(Path.DirectorySeparatorChar).Where(s => s.Length > 0).Reverse()
            )
            {
                steps.Push(part);
            }
        }

        return here;
    }
}
