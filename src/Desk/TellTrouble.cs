using Coldpeel.Storage;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk;

/// <summary>Says what keeps the workshop from writing, when an exception comes of it.</summary>
public static class TellTrouble
{
    /// <summary>The trouble, and whether it is a full disk; null when the exception is none of the disk or the database.</summary>
    public static (Fault Fault, bool Full)? Run(Exception? exception) =>
        StoreTrouble.Of(exception) is { } fault ? (fault, StoreTrouble.IsFull(exception)) : null;
}
