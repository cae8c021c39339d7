using System.Collections.Immutable;

namespace Coldpeel.Workshop.Findings;

/// <summary>The owner's word that a finding is known and the job goes on: a kind, and the design or item it is about, or all.</summary>
/// <param name="Kind">Kind of the finding.</param>
/// <param name="About">Design or item; null for every finding of the kind.</param>
public sealed record Acceptance(string Kind, string? About)
{
    /// <summary>Reads <c>KIND</c> or <c>KIND@DESIGN</c>; an item's name may stand for the design's.</summary>
    public static Outcome<Acceptance> Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var at = text.IndexOf('@', StringComparison.Ordinal);
        var kind = (at < 0 ? text : text[..at]).Trim();
        var about = at < 0 ? null : text[(at + 1)..].Trim();
        return
            kind.Length > 0
            && kind.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '-')
            && about != ""
            ? new Acceptance(kind, about)
            : new Fault(
                "--accept",
                $"\"{text}\" names no finding.",
                "Write the kind of the finding, and its design or item where only that one is meant: thin-stroke@crest."
            );
    }

    /// <summary>The findings, those marked that an acceptance names; an acceptance that names none is told in a note.</summary>
    /// <remarks>A lettered design is named <c>name/3</c> for row 3 of its roster: <c>@name</c> takes every row.</remarks>
    public static ImmutableArray<Finding> Apply(
        IReadOnlyList<Finding> findings,
        IReadOnlyCollection<Acceptance> acceptances
    )
    {
        ArgumentNullException.ThrowIfNull(findings);
        ArgumentNullException.ThrowIfNull(acceptances);
        var idle = acceptances.Distinct().Where(a => !findings.Any(a.Names)).Select(a => Idle(a, findings));
        return [.. findings.Select(f => acceptances.Any(a => a.Names(f)) ? f with { Accepted = true } : f), .. idle];
    }

    private bool Names(Finding finding) =>
        finding.Kind == Kind
        && (
            About is null
            || finding.Item == About
            || finding.Design == About
            || (finding.Design?.StartsWith(About + "/", StringComparison.Ordinal) ?? false)
        );

    private static Finding Idle(Acceptance acceptance, IReadOnlyList<Finding> findings)
    {
        var said = acceptance.About is null ? acceptance.Kind : $"{acceptance.Kind}@{acceptance.About}";
        var kinds = findings.Select(f => f.Kind).Distinct().ToArray();
        var there =
            kinds.Length == 0 ? (Sentence)$"there are none" : $"there are {Closest.Listed(acceptance.Kind, kinds)}";
        return new(
            "acceptance-unused",
            Severity.Note,
            $"You accepted \"{said}\", but no finding is called so ({there}); check the spelling, or leave it out."
        );
    }
}
