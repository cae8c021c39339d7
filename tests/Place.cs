namespace Coldpeel.Tests;

/// <summary>Where tests find the tree, the data beside it and the programs that check us from outside.</summary>
internal static class Place
{
    /// <summary>The root of the tree.</summary>
    public static string Root { get; } = FindRoot();

    /// <summary>A file of tests/data.</summary>
    public static string Data(params string[] path) => Path.Combine([Root, "tests", "data", .. path]);

    /// <summary>A file of the data kept beside the tree; the test is skipped, visibly, where it is not there.</summary>
    public static string SharedData(params string[] path)
    {
        var file = Path.Combine([Root, "..", "shared", "data", .. path]);
        Assert.SkipUnless(File.Exists(file) || Directory.Exists(file), $"{Path.Combine(path)} is not on this machine.");
        return Path.GetFullPath(file);
    }

    /// <summary>A program on the PATH; the test is skipped, visibly, where it is not there (test.sh installs them).</summary>
    public static string Tool(string name)
    {
        var found = (Environment.GetEnvironmentVariable("PATH") ?? "")
            .Split(Path.PathSeparator)
            .Select(folder => Path.Combine(folder, name))
            .FirstOrDefault(File.Exists);
        Assert.SkipWhen(found is null, $"{name} is not on this machine.");
        return found!;
    }

    /// <summary>A new empty folder for one test.</summary>
    public static string NewFolder() => Directory.CreateTempSubdirectory("coldpeel-test-").FullName;

    private static string FindRoot()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Coldpeel.slnx")))
            {
                return folder.FullName;
            }
        }

        throw new InvalidOperationException("The tests stand outside the tree.");
    }
}
