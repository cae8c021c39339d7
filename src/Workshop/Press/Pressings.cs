using Coldpeel.Workshop.Orders;

namespace Coldpeel.Workshop.Press;

/// <summary>Makes a process ready for a material.</summary>
public static class Pressings
{
    /// <summary>The material's process with the material's recipe laid over its steps.</summary>
    /// <param name="book">The workshop.</param>
    /// <param name="material">A material of the workshop file.</param>
    /// <exception cref="ArgumentException">No such material or process: <see cref="JobCheck"/> comes first.</exception>
    public static Pressing For(WorkshopBook book, string material)
    {
        ArgumentNullException.ThrowIfNull(book);
        var found =
            book.Materials.FirstOrDefault(m => m.Id == material)
            ?? throw new ArgumentException($"The workshop has no material \"{material}\".", nameof(material));
        var process =
            book.Processes.FirstOrDefault(p => p.Id == found.Process)
            ?? throw new ArgumentException($"The workshop has no process \"{found.Process}\".", nameof(material));
        var changes = book
            .Recipes.Where(r => r.Process == process.Id && r.Material == material)
            .SelectMany(r => r.Changes)
            .ToLookup(c => c.Kind);
        return new(process, found, [.. process.Steps.Select(s => changes[s.Kind].Aggregate(s, Change))]);
    }

    private static ProcessStep Change(ProcessStep step, StepChange change) =>
        step with
        {
            Celsius = change.Celsius ?? step.Celsius,
            Seconds = change.Seconds ?? step.Seconds,
            KPa = change.KPa ?? step.KPa,
            Cover = change.Cover ?? step.Cover,
            Source = change.Source,
            Evidence = change.Evidence,
        };
}
