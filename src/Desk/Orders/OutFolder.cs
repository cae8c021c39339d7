using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Orders;

/// <summary>Files that appear all together: written beside the folder first, moved in place at the end.</summary>
public static class OutFolder
{
    private static readonly string[] Ours =
    [
        "findings.json",
        "sheets.pdf",
        "sheets.json",
        "trim-map.pdf",
        "day.json",
        "day-plan.json",
        "day-plan.pdf",
        "tickets.pdf",
        "quote.json",
        "quote.pdf",
        "care.pdf",
    ];

    /// <summary>Puts the files of a job in place. Those of an earlier run that were not made now are taken away, so that nobody prints them; all others stay.</summary>
    /// <param name="folder">Where they go; made when it is not there.</param>
    /// <param name="files">Name and content.</param>
    public static Fault? Put(string folder, IReadOnlyDictionary<string, byte[]> files)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(files);
        var target = Path.GetFullPath(folder);
        var beside = $"{target.TrimEnd(Path.DirectorySeparatorChar)}.making-{Environment.ProcessId}";
        try
        {
            if (File.Exists(target))
            {
                return new Fault(folder, "is a file, not a folder.", "Name another folder after --out.");
            }

            Directory.CreateDirectory(beside);
            foreach (var (name, content) in files)
            {
                File.WriteAllBytes(Path.Combine(beside, name), content);
            }

            Directory.CreateDirectory(target);
            foreach (var stale in Ours.Except(files.Keys))
            {
                File.Delete(Path.Combine(target, stale));
            }

            foreach (var name in files.Keys)
            {
                File.Move(Path.Combine(beside, name), Path.Combine(target, name), overwrite: true);
            }

            return null;
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException)
        {
            return new Fault(
                folder,
                $"cannot be written ({refused.Message.ReplaceLineEndings(" ").TrimEnd('.')}).",
                "Close files that are open there, or name another folder after --out."
            );
        }
        finally
        {
            if (Directory.Exists(beside))
            {
                Directory.Delete(beside, recursive: true);
            }
        }
    }
}
