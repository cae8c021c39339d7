using System.Globalization;
using System.Text.Json;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Orders;

/// <summary>Asks about a day that is over, before an order is made for it. A person may mean it: an order that is written down after it was done.</summary>
public sealed class AskDue(OpenedWorkshop workshop)
{
    /// <summary>What to ask about the day; null when it is to come, or no day at all: then making the order says so.</summary>
    public Fault? Of(string due) =>
        DateOnly.TryParseExact(due, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
        && day < workshop.Today
            ? new Fault("The day it is due", $"is over: {day}.", "Write another day, or say that this one is meant.")
            : null;

    /// <summary>The same of the job file among those that are handed in.</summary>
    public Fault? Of(IReadOnlyList<HandedFile> files)
    {
        ArgumentNullException.ThrowIfNull(files);
        try
        {
            var source = new OrderSource([.. HandedNames.WithoutTop(files)], [], []);
            return
                source.JobFile is not null
                && source.Job?["due"] is { } due
                && due.GetValueKind() == JsonValueKind.String
                ? Of((string)due!)
                : null;
        }
        catch (Exception unreadable) when (unreadable is JsonException or ArgumentException)
        {
            return null;
        }
    }
}
