using System.Collections.Immutable;

namespace Coldpeel.Workshop.Findings;

/// <summary>Findings in the order in which an owner should look at them, and the one sentence that sums them up.</summary>
public static class WorstFirst
{
    /// <summary>Stops before warnings before notes; among equals what falls farthest short of its limit comes first.</summary>
    public static ImmutableArray<Finding> Order(IEnumerable<Finding> findings)
    {
        ArgumentNullException.ThrowIfNull(findings);
        return
        [
            .. findings
                .OrderBy(f => f.Accepted)
                .ThenByDescending(f => f.Severity)
                .ThenBy(Share)
                .ThenByDescending(f => f.Count ?? 0),
        ];
    }

    /// <summary>Whether the design can be made, and what to look at first; one sentence.</summary>
    public static Sentence Sum(IReadOnlyCollection<Finding> findings)
    {
        ArgumentNullException.ThrowIfNull(findings);
        var stops = findings.Count(f => f is { Severity: Severity.Stop, Accepted: false });
        var warnings = findings.Count(f => f is { Severity: Severity.Warn, Accepted: false });
        var first = Order(findings).FirstOrDefault();
        return stops > 0 ? (Sentence)$"Cannot be made as it is: {Kind(first!)}."
            : warnings == 1 ? (Sentence)$"Can be made, with one thing to look at first: {Kind(first!)}."
            : warnings > 1
                ? (Sentence)$"Can be made, with {warnings} things to look at first, the worst: {Kind(first!)}."
            : findings.Count > 0 ? (Sentence)$"Can be made; nothing here should go wrong, but read the notes."
            : $"Can be made: nothing in it is finer, closer or lighter than the process carries.";
    }

    private static string Kind(Finding finding) => finding.Kind.Replace('-', ' ');

    // A box spoils the whole design; what else has no limit in mm comes after what has one and misses it.
    private static double Share(Finding f) =>
        f.Kind == "box" ? 0
        : f is { WorstMm: { } worst, LimitMm: > 0 and var limit }
            ? Math.Min(worst / limit, limit / Math.Max(worst, 1e-9))
        : 1;
}
