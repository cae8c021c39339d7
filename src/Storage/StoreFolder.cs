namespace Coldpeel.Storage;

/// <summary>The folder that a store stands in.</summary>
internal static class StoreFolder
{
    /// <summary>Makes it where there is none. Customers' names stand in it: a new folder is for its owner alone.</summary>
    public static void Make(string folder)
    {
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(folder);
        }
        else
        {
            Directory.CreateDirectory(
                folder,
                UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute
            );
        }
    }

    /// <summary>A folder that can only be read is told at the start, not at the first tap.</summary>
    public static void TryWriting(string folder)
    {
        var trial = Path.Combine(folder, $".trial-{Guid.NewGuid():n}");
        File.WriteAllBytes(trial, []);
        File.Delete(trial);
    }
}
