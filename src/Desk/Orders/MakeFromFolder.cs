using System.Globalization;
using System.Text;
using Coldpeel.Desk.Shelf;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Orders;

/// <summary>A file that somebody hands in.</summary>
/// <param name="Name">Its name; never used as a path.</param>
/// <param name="Content">Its bytes.</param>
public sealed record HandedFile(string Name, byte[] Content);

/// <summary>Makes and keeps a job out of files handed in together: the job file, its artwork, its rosters.</summary>
public sealed class MakeFromFolder(OpenedWorkshop workshop)
{
    /// <summary>Longest that somebody at a screen waits for the searches, in seconds; `make` searches as long as it is told to.</summary>
    public const double PatientSeconds = 60;

    private const int LongestName = 120;

    /// <summary>Makes and keeps the job; the fault is of the files handed in.</summary>
    /// <param name="files">The files.</param>
    /// <param name="accept">Findings accepted by name.</param>
    /// <param name="seconds">Ends the searches after so long; the best found by then is kept.</param>
    /// <param name="say">Progress.</param>
    /// <param name="stop">Cancels everything.</param>
    /// <param name="who">Who hands them in.</param>
    /// <param name="against">What speaks against keeping an order of that name; null for nothing.</param>
    public Outcome<MadeJob> Run(
        IReadOnlyList<HandedFile> files,
        IReadOnlyList<string> accept,
        double seconds,
        IProgress<string>? say,
        CancellationToken stop,
        string who = "",
        Func<string, Fault?>? against = null
    )
    {
        ArgumentNullException.ThrowIfNull(files);
        if (Refusal(files) is { } refusal)
        {
            return refusal;
        }

        if (JobFile(files) is not { } jobFile)
        {
            return new Fault(
                "The files",
                "hold no job.json.",
                "Choose the job file together with its artwork and rosters, all at once."
            );
        }

        // Only for this user, and with a name that nobody can guess.
        var folder = Directory.CreateTempSubdirectory("coldpeel-job-").FullName;
        workshop.Making.Wait(stop);
        try
        {
            foreach (var file in files)
            {
                File.WriteAllBytes(Path.Combine(folder, file.Name), file.Content);
            }

            var path = Path.Combine(folder, jobFile);
            var made = new MakeJob(workshop.Clock).Run(
                path,
                new MakeOptions(seconds, 1, accept) { Book = new ReadBook(workshop).Run() },
                say,
                stop
            );
            if (!made.Ok)
            {
                return Without(made.Fault, folder);
            }

            if (against is null)
            {
                new KeepJob(workshop).Run(made.Value, who);
                return made;
            }

            // Nobody takes a step of the order between the question and the keeping.
            lock (workshop.OrderSteps)
            {
                if (against(made.Value.Job.Name) is { } no)
                {
                    return no;
                }

                new KeepJob(workshop).Run(made.Value, who);
                return made;
            }
        }
        finally
        {
            workshop.Making.Release();
            Directory.Delete(folder, recursive: true);
        }
    }

    private static Fault? Refusal(IReadOnlyList<HandedFile> files)
    {
        if (files.Count == 0)
        {
            return new("The upload", "holds no file.", "Choose job.json, its artwork and its rosters, all at once.");
        }

        if (files.FirstOrDefault(f => !IsSafe(f.Name)) is { } odd)
        {
            return new(
                $"“{Shown(odd.Name)}”",
                "is no name for a file of a job.",
                "Use letters, digits, spaces, dots, hyphens and underscores, and name the file so in job.json too."
            );
        }

        var twice = files.GroupBy(f => f.Name, StringComparer.OrdinalIgnoreCase).FirstOrDefault(g => g.Count() > 1);
        return twice is null
            ? null
            : new(
                twice.Key,
                "was handed in twice.",
                "Choose every file once; artwork in sub-folders needs names of its own."
            );
    }

    // No separators, no drive, no leading dot, no device name: on no system does such a name leave its folder.
    private static bool IsSafe(string name) =>
        name.Length is > 0 and <= LongestName
        && name[0] != '.'
        && name[^1] is not ('.' or ' ')
        && name.IsNormalized(NormalizationForm.FormC)
        && name.All(c => char.IsLetterOrDigit(c) || c is ' ' or '.' or '-' or '_' or '(' or ')' or '+' or ',')
        && !IsDevice(name.Split('.')[0].TrimEnd());

    private static bool IsDevice(string stem) =>
        stem.ToUpperInvariant() is "CON" or "PRN" or "AUX" or "NUL"
        || (stem.Length == 4 && stem[..3].ToUpperInvariant() is "COM" or "LPT" && char.IsDigit(stem[3]));

    private static string? JobFile(IReadOnlyList<HandedFile> files)
    {
        if (files.Any(f => f.Name == "job.json"))
        {
            return "job.json";
        }

        var only = files.Where(f => f.Name.EndsWith(".json", StringComparison.OrdinalIgnoreCase)).Take(2).ToArray();
        return only.Length == 1 ? only[0].Name : null;
    }

    private static string Shown(string name) =>
        string.Concat(name.Take(60).Select(c => char.GetUnicodeCategory(c) is UnicodeCategory.Control ? '?' : c));

    // The owner knows the files by name; where they lay for a moment is nobody's business.
    private static Fault Without(Fault fault, string folder) =>
        new(Bare(fault.Where, folder), Bare(fault.What, folder), Bare(fault.Mend, folder));

    private static string Bare(string text, string folder) =>
        text.Replace(folder + Path.DirectorySeparatorChar, "", StringComparison.Ordinal)
            .Replace(folder, "", StringComparison.Ordinal);
}
