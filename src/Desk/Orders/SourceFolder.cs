using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Orders;

/// <summary>A source as a folder that is there for a moment: the readers of files work on files.</summary>
internal static class SourceFolder
{
    /// <summary>Does something with the path of the job file; a fault never tells where the folder lay.</summary>
    public static Outcome<T> With<T>(OrderSource source, Func<string, Outcome<T>> work)
        where T : class
    {
        // Only for this user, and with a name that nobody can guess.
        var folder = Directory.CreateTempSubdirectory("coldpeel-job-").FullName;
        try
        {
            foreach (var file in source.Files)
            {
                var path = Path.Combine(folder, file.Name.Replace('/', Path.DirectorySeparatorChar));
                Directory.CreateDirectory(Path.GetDirectoryName(path)!);
                File.WriteAllBytes(path, file.Content);
            }

            var done = work(Path.Combine(folder, source.JobFile!));
            return done.Ok ? done : Without(done.Fault, folder);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    // The owner knows the files by name; where they lay for a moment is nobody's business.
    private static Fault Without(Fault fault, string folder) =>
        new(Bare(fault.Where, folder), Bare(fault.What, folder), Bare(fault.Mend, folder));

    private static Sentence Bare(Sentence text, string folder) =>
        text.Without(folder + Path.DirectorySeparatorChar).Without(folder);
}
