using System.Collections.Immutable;
using Coldpeel.Files.Orders;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Orders;

/// <summary>A job with its workshop, read and found whole.</summary>
/// <param name="Job">The job.</param>
/// <param name="Book">Its workshop.</param>
/// <param name="Folder">The job's folder.</param>
/// <param name="Items">Its items, one by one.</param>
/// <param name="Findings">What was noticed while reading.</param>
internal sealed record OpenedJob(
    Job Job,
    WorkshopBook Book,
    string Folder,
    ImmutableArray<OneItem> Items,
    ImmutableArray<Finding> Findings
);

/// <summary>Reads a job file, its workshop file and its rosters, and checks that they belong together.</summary>
internal static class OpenJob
{
    /// <summary>Reads it.</summary>
    /// <param name="jobPath">JOB.json.</param>
    /// <param name="usual">The workshop of a job that names none; null for the built-in example.</param>
    public static Outcome<OpenedJob> Run(string jobPath, WorkshopBook? usual = null)
    {
        var read = JobReader.Read(jobPath);
        if (!read.Ok)
        {
            return read.Fault;
        }

        var job = read.Value;
        var folder = Path.GetDirectoryName(Path.GetFullPath(jobPath))!;
        var book = usual ?? WorkshopBookReader.Example();
        if (job.WorkshopFile is { } own)
        {
            var ownBook = WorkshopBookReader.Read(Path.Combine(folder, own), own);
            if (!ownBook.Ok)
            {
                return ownBook.Fault;
            }

            book = ownBook.Value;
        }

        if (JobCheck.Check(job, book, jobPath) is { } wrong)
        {
            return wrong;
        }

        var rosters = new Dictionary<string, Roster>(StringComparer.Ordinal);
        foreach (var item in job.Items.Where(i => i.Roster is not null))
        {
            var roster = RosterReader.Read(Path.Combine(folder, item.Roster!), item.Roster!);
            if (!roster.Ok)
            {
                return roster.Fault;
            }

            if (Mismatch(job, item, roster.Value) is { } mismatch)
            {
                return mismatch;
            }

            rosters[item.Id] = roster.Value;
        }

        ImmutableArray<Finding> noticed =
        [
            .. rosters
                .Where(r => r.Value.Note is not null)
                .Select(r => new Finding("roster-letters", Severity.Warn, $"{r.Value.ShownName}: {r.Value.Note!}")
                {
                    Item = r.Key,
                }),
        ];
        return new OpenedJob(job, book, folder, OrderItems.Of(job, rosters), noticed);
    }

    private static Fault? Mismatch(Job job, ItemRequest item, Roster roster)
    {
        if (roster.Rows.Length != item.Quantity)
        {
            return new(
                item.Roster!,
                $"has {roster.Rows.Length} rows, but the job asks for {item.Quantity} × {item.What}.",
                "Add or take away rows, or change the quantity: one row is one item."
            );
        }

        var missing = job
            .Designs.OfType<DesignRequest.Lettered>()
            .Where(d => item.Placements.Any(p => p.Design == d.Id))
            .SelectMany(d => LetteringText.Missing(d.Lettering.Text, roster).Select(column => (d.Id, Column: column)))
            .FirstOrDefault();
        return missing.Column is null
            ? null
            : new(
                item.Roster!,
                $"has no column “{missing.Column}”, which design {missing.Id} asks for; its columns are {string.Join(", ", roster.Columns)}.",
                "Rename the column, or change the text of the design."
            );
    }
}
