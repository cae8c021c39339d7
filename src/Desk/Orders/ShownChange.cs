using System.Collections.Immutable;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Orders;

/// <summary>What an order would be after a change; nothing is changed yet.</summary>
/// <param name="Order">The order.</param>
/// <param name="Version">What it was made of when this was shown: it is only kept on the same.</param>
/// <param name="Fields">What was typed in other words than it stands.</param>
/// <param name="Before">The order as it is.</param>
/// <param name="Found">What is found on it as it is.</param>
/// <param name="After">The order as it would be.</param>
/// <param name="ApprovalFalls">Whether the customer has approved a proof that it would no longer be.</param>
/// <param name="DaysLeft">Days from today to the day it would be due; below zero when that day is past.</param>
public sealed record ShownChange(
    string Order,
    string Version,
    ImmutableArray<ChangedField> Fields,
    KeptLine Before,
    ImmutableArray<Finding> Found,
    MadeJob After,
    bool ApprovalFalls,
    int DaysLeft
)
{
    /// <summary>What the shelf gave to it when this was shown: it is only kept while the shelf gives the same.</summary>
    public string Shelf { get; init; } = "";

    /// <summary>How it would stand.</summary>
    public KeptState State =>
        After.Work is null ? KeptState.Stopped
        : !After.Complete ? KeptState.InPart
        : After.Findings.Any(f => f is { Severity: not Severity.Note, Accepted: false }) ? KeptState.LookFirst
        : KeptState.Made;

    /// <summary>Findings that are not there now.</summary>
    public ImmutableArray<Finding> FoundAnew => [.. After.Findings.Where(f => !Found.Any(g => Same(f, g)))];

    /// <summary>Findings that would be gone.</summary>
    public ImmutableArray<Finding> FoundNoMore => [.. Found.Where(f => !After.Findings.Any(g => Same(f, g)))];

    // A finding whose figures alone are others is told as gone and as new.
    private static bool Same(Finding a, Finding b) => a.Kind == b.Kind && a.Say.English == b.Say.English;
}

/// <summary>What a change would be, or all that is wrong with what was typed.</summary>
/// <param name="Shown">What it would be; null while something is wrong.</param>
/// <param name="Faults">What is wrong.</param>
public sealed record OfferedChange(ShownChange? Shown, ImmutableArray<Fault> Faults);

/// <summary>The last few orders that were made to be looked at: what is kept then is what was shown.</summary>
internal sealed class DraftJobs
{
    // Each holds its papers.
    private const int Most = 3;

    private readonly Lock _door = new();
    private readonly LinkedList<(string Key, DraftJob Draft)> _last = [];

    public DraftJob? Find(string key)
    {
        lock (_door)
        {
            return _last.FirstOrDefault(d => d.Key == key).Draft;
        }
    }

    public void Keep(string key, DraftJob draft)
    {
        lock (_door)
        {
            _last.AddFirst((key, draft));
            if (_last.Count > Most)
            {
                _last.RemoveLast();
            }
        }
    }
}
