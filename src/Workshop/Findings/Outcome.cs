using System.Collections.Frozen;
using System.Diagnostics.CodeAnalysis;

namespace Coldpeel.Workshop.Findings;

/// <summary>What kind of fault it is, for a form that words it beside the field.</summary>
public enum FaultKind
{
    /// <summary>Any that has no kind of its own.</summary>
    Other,

    /// <summary>Something needed is not there.</summary>
    Missing,

    /// <summary>A figure, a text or a list is beyond its bounds.</summary>
    Bounds,

    /// <summary>It is not written as it should be.</summary>
    Writing,

    /// <summary>A name stands twice where each has one of its own.</summary>
    Twice,

    /// <summary>It can be done if it is meant: whoever asks for it is asked once more.</summary>
    Unsure,
}

/// <summary>Something a person gave us is wrong: where, what, and how to mend it.</summary>
/// <param name="Where">The file, and the place in it.</param>
/// <param name="What">What is wrong there.</param>
/// <param name="Mend">What to do about it.</param>
public sealed record Fault(Sentence Where, Sentence What, Sentence Mend)
{
    // So much of what somebody wrote is repeated to them: enough to find it again.
    private const int LongestQuoted = 60;

    /// <summary>The verbs with which our faults go on: what begins with one is no sentence of its own.</summary>
    public static FrozenSet<string> Verbs { get; } =
        FrozenSet.ToFrozenSet(
            [
                "are",
                "asks",
                "came",
                "can",
                "cannot",
                "could",
                "does",
                "finds",
                "found",
                "gives",
                "goes",
                "has",
                "have",
                "hold",
                "holds",
                "is",
                "leaves",
                "lies",
                "must",
                "name",
                "names",
                "needs",
                "refused",
                "says",
                "stands",
                "stays",
                "takes",
                "unpacks",
                "was",
                "were",
                "would",
            ],
            StringComparer.Ordinal
        );

    /// <summary>The file, and the place in it.</summary>
    public Sentence Where { get; init; } = Where.QuotingAtMost(LongestQuoted);

    /// <summary>What is wrong there.</summary>
    public Sentence What { get; init; } = What.QuotingAtMost(LongestQuoted);

    /// <summary>What to do about it.</summary>
    public Sentence Mend { get; init; } = Mend.QuotingAtMost(LongestQuoted);

    /// <summary>The place in a JSON file as a JSON Pointer (RFC 6901); null where it is not of one.</summary>
    public string? At { get; init; }

    /// <summary>What kind of fault it is.</summary>
    public FaultKind Kind { get; init; }

    /// <summary>Whether what is wrong goes on where the place is named, as one sentence: "The day is over." has no colon.</summary>
    /// <remarks>So does what begins with a verb, in both languages.</remarks>
    public bool GoesOn => Verbs.Contains(What.English.Split(' ', 2)[0]);

    /// <summary>The same as one sentence.</summary>
    public Sentence Line => GoesOn ? (Sentence)$"{Where} {What} {Mend}" : $"{Where}: {What} {Mend}";

    /// <summary>One line for the owner of a workshop.</summary>
    public override string ToString() => In(Wording.English);

    /// <summary>The same line as the reader words it.</summary>
    public string In(Wording words)
    {
        ArgumentNullException.ThrowIfNull(words);
        return words[Line].ReplaceLineEndings(" ").TrimEnd();
    }
}

/// <summary>A value, or the fault of the input that stood in its way.</summary>
public sealed class Outcome<T>
    where T : class
{
    private Outcome(T? value, Fault? fault) => (Value, Fault) = (value, fault);

    /// <summary>The value; null when there is a fault.</summary>
    public T? Value { get; }

    /// <summary>The fault; null when there is a value.</summary>
    public Fault? Fault { get; }

    /// <summary>Whether there is a value.</summary>
    [MemberNotNullWhen(true, nameof(Value))]
    [MemberNotNullWhen(false, nameof(Fault))]
    public bool Ok => Value is not null;

    /// <summary>An outcome that holds a value.</summary>
    public static implicit operator Outcome<T>(T value) =>
        new(value ?? throw new ArgumentNullException(nameof(value)), null);

    /// <summary>An outcome that holds a fault.</summary>
    public static implicit operator Outcome<T>(Fault fault) =>
        new(null, fault ?? throw new ArgumentNullException(nameof(fault)));
}
