namespace Coldpeel.Bench;

/// <summary>Where benches find the tree and the data beside it.</summary>
internal static class BenchPlace
{
    public static string Root { get; } = FindRoot();

    /// <summary>The folder of open instances beside the tree, or null where it is not there.</summary>
    public static string? SharedData(string folder)
    {
        var path = Path.GetFullPath(Path.Combine(Root, "..", "shared", "data", folder));
        return Directory.Exists(path) ? path : null;
    }

    private static string FindRoot()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Coldpeel.slnx")))
            {
                return folder.FullName;
            }
        }

        throw new InvalidOperationException("The benches stand outside the tree.");
    }
}
