using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Orders;

/// <summary>Answers a finding of a kept order by name, or takes an answer back; the order is made again, and the answer is kept with who gave it and why.</summary>
public sealed class AnswerFinding(OpenedWorkshop workshop)
{
    private const int LongestNote = 300;

    /// <summary>The name by which a finding is accepted.</summary>
    public static string NameOf(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        return (finding.Design ?? finding.Item) is { } about ? $"{finding.Kind}@{about}" : finding.Kind;
    }

    /// <summary>Accepts it: it is known, and somebody takes it on.</summary>
    /// <param name="order">The order.</param>
    /// <param name="accept">The finding, from <see cref="NameOf"/>.</param>
    /// <param name="note">Why; must not be empty.</param>
    /// <param name="who">Who answers.</param>
    /// <param name="seconds">Ends the searches after so long.</param>
    /// <param name="stop">Cancels everything.</param>
    public Outcome<MadeJob> Run(
        string order,
        string accept,
        string note,
        string who,
        double seconds,
        CancellationToken stop
    )
    {
        ArgumentNullException.ThrowIfNull(note);
        if (string.IsNullOrWhiteSpace(note))
        {
            return new Fault(
                "The answer",
                "gives no reason.",
                "Write why it can go on: a trial, the maker's word, the customer's wish."
            );
        }

        if (new OpenKeptJob(workshop).Run(order) is { } kept && kept.Findings.All(f => NameOf(f) != accept))
        {
            return new Fault($"“{accept}”", "is no finding of this order any more.", "Open the order again.");
        }

        var why = note.Trim() is { Length: > LongestNote } longer ? longer[..LongestNote] : note.Trim();
        return new RemakeOrder(workshop).Run(
            order,
            source =>
                source.Answers.Any(a => a.Accept == accept)
                    ? new Fault($"“{accept}”", "is answered already.", "Open the order again.")
                    : source with
                    {
                        Answers = source.Answers.Add(new(accept, who, workshop.Now, why)),
                    },
            $"accepted {accept}: {why}",
            who,
            seconds,
            stop
        );
    }

    /// <summary>Takes an answer back: the finding weighs again what it weighed.</summary>
    public Outcome<MadeJob> TakeBack(string order, string accept, string who, double seconds, CancellationToken stop) =>
        new RemakeOrder(workshop).Run(
            order,
            source =>
                source.Answers.All(a => a.Accept != accept)
                    ? new Fault($"“{accept}”", "was not answered.", "Open the order again.")
                    : source with
                    {
                        Answers = source.Answers.RemoveAll(a => a.Accept == accept),
                    },
            $"answer to {accept} taken back",
            who,
            seconds,
            stop
        );
}
