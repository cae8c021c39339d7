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

    /// <summary>What is wrong with a folder before anything is made for it; what only writing can tell comes from <see cref="Put"/>.</summary>
    /// <param name="folder">Where the files of a job are to go.</param>
    public static Fault? Wrong(string folder)
    {
        ArgumentException.ThrowIfNullOrEmpty(folder);
        var target = Path.GetFullPath(folder);
        if (File.Exists(target))
        {
            return new Fault(folder, "is a file, not a folder.", "Name another folder after --out.");
        }

        for (var above = Path.GetDirectoryName(target); above is not null; above = Path.GetDirectoryName(above))
        {
            if (File.Exists(above))
            {
                return new Fault(
                    folder,
                    $"lies in {Path.GetFileName(above)}, which is a file.",
                    "Name another folder after --out."
                );
            }
        }

        return null;
    }

    /// <summary>Puts the files of a job in place, all or none. Those of an earlier run that were not made now are taken away, so that nobody prints them; all others stay.</summary>
    /// <param name="folder">Where they go; made when it is not there.</param>
    /// <param name="files">Name and content.</param>
    public static Fault? Put(string folder, IReadOnlyDictionary<string, byte[]> files)
    {
        ArgumentNullException.ThrowIfNull(files);
        if (Wrong(folder) is { } wrong)
        {
            return wrong;
        }

        var target = Path.GetFullPath(folder);
        // Within the folder where it is there: that one may be written, and a move within it copies nothing.
        var there = Directory.Exists(target);
        var making = $".making-{Environment.ProcessId}";
        var beside = there ? Path.Combine(target, making) : target.TrimEnd(Path.DirectorySeparatorChar) + making;
        var (made, old) = (Path.Combine(beside, "made"), Path.Combine(beside, "old"));
        var done = false;
        try
        {
            Directory.CreateDirectory(made);
            Directory.CreateDirectory(old);
            foreach (var (name, content) in files)
            {
                File.WriteAllBytes(Path.Combine(made, name), content);
            }

            Directory.CreateDirectory(target);
            MoveAll(Ours.Union(files.Keys).Where(name => File.Exists(Path.Combine(target, name))), target, old);
            try
            {
                MoveAll(files.Keys, made, target);
            }
            catch
            {
                MoveAll(Directory.EnumerateFiles(old).Select(file => Path.GetFileName(file)), old, target);
                throw;
            }

            done = true;
            return null;
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException)
        {
            var why = refused.Message.ReplaceLineEndings(" ").Replace(beside, target, StringComparison.Ordinal);
            return new Fault(
                folder,
                $"cannot be written ({why.TrimEnd('.')}).",
                "Close files that are open there, or name another folder after --out."
            );
        }
        finally
        {
            if (Directory.Exists(beside))
            {
                Directory.Delete(beside, recursive: true);
            }

            if (!done && !there && Directory.Exists(target))
            {
                Directory.Delete(target);
            }
        }
    }

    // All or none: what was moved goes back when one cannot be.
    private static void MoveAll(IEnumerable<string> names, string from, string to)
    {
        var moved = new Stack<string>();
        try
        {
            foreach (var name in names.ToArray())
            {
                File.Move(Path.Combine(from, name), Path.Combine(to, name));
                moved.Push(name);
            }
        }
        catch
        {
            foreach (var name in moved)
            {
                File.Move(Path.Combine(to, name), Path.Combine(from, name));
            }

            throw;
        }
    }
}
