using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Orders;

/// <summary>Files that appear all together: written beside the folder first, moved in place at the end.</summary>
internal static class OutFolder
{
    /// <summary>Puts the files in place; older files of <paramref name="ours"/> that are not written now are taken away, all others stay.</summary>
    /// <param name="folder">Where they go; made when it is not there.</param>
    /// <param name="files">Name and content.</param>
    /// <param name="ours">Every name that this program may have written there before.</param>
    public static Fault? Put(string folder, IReadOnlyDictionary<string, byte[]> files, IEnumerable<string> ours)
    {
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
            foreach (var stale in ours.Except(files.Keys))
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
