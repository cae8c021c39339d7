namespace Coldpeel.Craft.Press.Day;

/// <summary>The judge of day plans: it reads the day and the steps alone and shares nothing with the planner.</summary>
public static class DayCheck
{
    /// <summary>Every rule the steps break, one sentence each; empty when the plan is sound.</summary>
    /// <remarks>Work that is wholly absent is a fault unless some press lacks the plate for it, or what it depends on is absent so.</remarks>
    public static IReadOnlyList<string> Faults(DayProblem problem, IReadOnlyList<DayStep> steps)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(steps);
        var book = new DayCheckBook(problem, steps);
        new DayCheckWork(book).Judge();
        new DayCheckMeans(book).Judge();
        return book.Faults;
    }
}
