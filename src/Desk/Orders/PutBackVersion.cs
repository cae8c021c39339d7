using System.Globalization;
using Coldpeel.Storage.Orders;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Quotes;

namespace Coldpeel.Desk.Orders;

/// <summary>The version of an order that stood before its last change.</summary>
/// <param name="Number">What it is asked for by.</param>
/// <param name="MadeAt">When it was made, local time.</param>
/// <param name="ChangedAt">When another was kept in its place, local time.</param>
/// <param name="Who">Who did.</param>
/// <param name="State">How it stood.</param>
/// <param name="Due">The day it was due.</param>
/// <param name="Total">Its price with tax; null when it was stopped.</param>
/// <param name="IsApproved">Whether the customer approved its proof, and would not be asked again.</param>
/// <param name="Version">Which version it is, and whose content it has.</param>
public sealed record EarlierOrder(
    long Number,
    DateTimeOffset MadeAt,
    DateTimeOffset ChangedAt,
    string Who,
    KeptState State,
    DateOnly Due,
    Money? Total,
    bool IsApproved,
    OrderVersion Version
);

/// <summary>Puts the version of an order back that stood before its last change, with its papers as they were. What stands now goes into the history in its turn, so that this can be taken back the same way.</summary>
public sealed class PutBackVersion(OpenedWorkshop workshop)
{
    private const string Again = "; this approval holds again";

    /// <summary>The version before; null where there is none, or where it is too late to change the order.</summary>
    public EarlierOrder? Before(string name) =>
        new ChangeOrder(workshop).TooLate(name) is null && workshop.Store.VersionBefore(name) is { } version
            ? new(
                version.Number,
                Local(version.Job.MadeAt),
                Local(version.At),
                version.Who,
                ListJobs.Line(version.Job, workshop).State,
                version.Job.Due,
                ListJobs.Line(version.Job, workshop).Figures?.Total,
                Holds(name, version) is not null
                    || (
                        new StepOrder(workshop).SoFar(name, stopped: false).Stage == OrderStage.Approved
                        && Anew(name, version) is null
                    ),
                OrderVersion.All(workshop, name) is [.., var before, _] ? before : new(1, 1)
            )
            : null;

    /// <summary>Puts it back; the fault says why all stays as it is.</summary>
    /// <param name="name">The order.</param>
    /// <param name="number">The version, from <see cref="EarlierOrder.Number"/>.</param>
    /// <param name="who">Who puts it back.</param>
    /// <param name="stop">Cancels waiting.</param>
    public Fault? Run(string name, long number, string who, CancellationToken stop)
    {
        workshop.Making.Wait(stop);
        try
        {
            lock (workshop.OrderSteps)
            {
                if (new ChangeOrder(workshop).TooLate(name) is { } late)
                {
                    return late;
                }

                if (workshop.Store.VersionBefore(name) is not { } version || version.Number != number)
                {
                    return new(
                        $"“{name}”",
                        "has another version before it by now, or none.",
                        "Look at the page again, then put back what stands there."
                    );
                }

                var holds = Holds(name, version);
                var content = OrderVersion.All(workshop, name) is [.., var before, _] ? before.ContentOf : 1;
                var note = new KeepNote(
                    who,
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"the content of version {content} again, as it was before the change of {Local(version.At):yyyy-MM-dd HH:mm}"
                    ) + (holds is null ? "" : "; the approval that fell holds again"),
                    Anew(name, version)
                )
                {
                    Takes = holds,
                };
                workshop.Store.PutBack(name, number, workshop.Now, note, LookOfOrder.Of);
                return null;
            }
        }
        finally
        {
            workshop.Making.Release();
        }
    }

    private StoredAnew? Anew(string name, StoredVersion version) => KeepJob.AsksAnew(workshop, name, Proofs(version));

    // An approval fell because the proof became another one; with the very proof that was approved it stands again.
    private StoredStep? Holds(string name, StoredVersion version) =>
        workshop.Store.Marks.Of(name) is [.., { Step: nameof(OrderStep.Change) }] marks
        && marks.LastOrDefault(m => m.Step == nameof(OrderStep.Approve)) is { Proof: { } approved } mark
        && Proofs(version).Contains(approved)
            ? new(
                nameof(OrderStep.Approve),
                nameof(OrderStage.Approved),
                mark.Note.EndsWith(Again, StringComparison.Ordinal) ? mark.Note : mark.Note + Again,
                approved
            )
            : null;

    private static string[] Proofs(StoredVersion version) =>
        [.. new[] { ProofOf.Plain, ProofOf.Priced }.Select(p => version.Hashes.GetValueOrDefault(p)).OfType<string>()];

    private DateTimeOffset Local(DateTimeOffset at) => TimeZoneInfo.ConvertTime(at, workshop.Clock.LocalTimeZone);
}
