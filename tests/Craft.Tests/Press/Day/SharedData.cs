namespace Coldpeel.Craft.Tests.Press.Day;

/// <summary>Instances that lie beside the repository, where they are there.</summary>
internal static class SharedData
{
    /// <summary>The file, looked for upwards from the test program, or null.</summary>
    public static string? Find(string folder, string file)
    {
        for (var at = new DirectoryInfo(AppContext.BaseDirectory); at is not null; at = at.Parent)
        {
            var path = Path.Combine(at.FullName, "shared", "data", folder, file);
            if (File.Exists(path))
            {
                return path;
            }
        }

        return null;
    }
}
