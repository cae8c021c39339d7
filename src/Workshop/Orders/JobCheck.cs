using Coldpeel.Workshop.Findings;

namespace Coldpeel.Workshop.Orders;

/// <summary>Whether all that a job names stands in the workshop file.</summary>
public static class JobCheck
{
    /// <summary>The first name that the workshop file does not know, or null when it knows them all.</summary>
    /// <param name="job">The job.</param>
    /// <param name="book">The workshop.</param>
    /// <param name="shown">How the job file is called in the message.</param>
    public static Fault? Check(Job job, WorkshopBook book, string shown = "the job file")
    {
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(book);
        for (var i = 0; i < job.Items.Length; i++)
        {
            var item = job.Items[i];
            var material = book.Materials.FirstOrDefault(m => m.Id == item.Material);
            if (material is null)
            {
                return Unknown(
                    $"{shown}: items[{i}].material",
                    "material",
                    item.Material,
                    book.Materials.Select(m => m.Id)
                );
            }

            if (book.Processes.All(p => p.Id != material.Process))
            {
                return new Fault(
                    $"{shown}: items[{i}].material",
                    $"the material \"{material.Id}\" wants the process \"{material.Process}\", which the workshop file does not hold.",
                    $"Give it one of {Closest.Listed(material.Process, book.Processes.Select(p => p.Id))}."
                );
            }

            for (var p = 0; p < item.Placements.Length; p++)
            {
                var at = item.Placements[p].At;
                if (book.Placements.All(r => r.Name != at))
                {
                    return Unknown(
                        $"{shown}: items[{i}].placements[{p}].at",
                        "placement",
                        at,
                        book.Placements.Select(r => r.Name)
                    );
                }
            }
        }

        return null;
    }

    private static Fault Unknown(string where, string kind, string asked, IEnumerable<string> known) =>
        new(
            where,
            $"the workshop file has no {kind} \"{asked}\".",
            $"It has {Closest.Listed(asked, known)}: use one of these, or add yours to the workshop file."
        );
}
