using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Desk.Artwork;
using Coldpeel.Desk.Press;
using Coldpeel.Desk.Shelf;
using Coldpeel.Files.Press;
using Coldpeel.Files.Sheets;
using Coldpeel.Storage;
using Coldpeel.Storage.Orders;
using Coldpeel.Storage.Shelf;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;
using Coldpeel.Workshop.Quotes;

namespace Coldpeel.Desk.Orders;

/// <summary>Keeps a made job in the workshop, in place of an earlier one of the same name.</summary>
public sealed class KeepJob(OpenedWorkshop workshop)
{
    // A dot is a third of a millimetre: hairlines show, and a sheet still fits a screen.
    private const double DotsPerMm = 3;

    // What only tells a price.
    private static readonly string[] ForPrice = ["quote.pdf", "quote.json"];

    /// <summary>Keeps figures, findings, tickets, files, proofs, what it was made of, and of every sheet and design a picture.</summary>
    /// <param name="made">The job.</param>
    /// <param name="source">What it was made of.</param>
    /// <param name="how">Who asked for it, what was changed since it was kept last, and what may speak against keeping it.</param>
    /// <returns>What speaks against it; null when it is kept.</returns>
    /// <remarks>An order whose proof was approved and would now show something else asks for approval anew.</remarks>
    internal Fault? Run(MadeJob made, OrderSource source, MakeHow how)
    {
        ArgumentNullException.ThrowIfNull(made);
        var files = made.Files;
        foreach (var (sheet, marks) in made.Work is { } work ? work.Sheets.Zip(work.Marks) : [])
        {
            files = files
                .SetItem(PictureName(sheet.Page), SheetPicture.Encode(sheet, marks, DotsPerMm, mirrored: false))
                .SetItem(DrawingName(sheet.Page), SheetSvg.Write(sheet, marks));
        }

        ImmutableArray<Ticket> tickets = made.Work?.Tickets ?? [];
        foreach (var ticket in tickets)
        {
            foreach (var (at, place) in ticket.Places.Index())
            {
                files = files.SetItem(SketchName(ticket.Number, at + 1), PlaceSvg.Write(place, ticket.FabricColour));
            }
        }

        var proofs = Proofs(made, source);
        files = files
            .RemoveRange(source.AgainOf is null ? [] : ForPrice)
            .SetItems(proofs)
            .SetItems(KeptArtwork.Files(made))
            .SetItems(source.ToKeep().Select(f => KeyValuePair.Create(f.Name, f.Content)));
        if (ReckonUse.Of(made, source.AgainOf is not null) is { } use)
        {
            files = files.SetItem(ReckonUse.File, System.Text.Encoding.UTF8.GetBytes(KeptJson.Write(use)));
        }

        // Nobody takes a step of the order between the questions and the keeping.
        lock (workshop.OrderSteps)
        {
            if (how.Against?.Invoke(made.Job.Name) is { } against)
            {
                return against;
            }

            var anew = AsksAnew(workshop, made.Job.Name, [.. proofs.Values.Select(WorkshopStore.HashOf)]);
            Fault? atLast = null;
            var note = new KeepNote(how.Who, how.What, anew)
            {
                Look = LookOfOrder.Of(files, made.Findings),
                StillHolds = how.AtLast is { } ask ? () => (atLast = ask()) is null : null,
                Again = how.Again,
                Takes = how.Again is { } again ? AsApproved(again, proofs) : null,
            };
            return Keep(made, source.AgainOf, files, tickets, note) ? null : atLast;
        }
    }

    /// <summary>The proofs of a made job by name: what makes spoilt items again has none with a price.</summary>
    private static ImmutableDictionary<string, byte[]> Proofs(MadeJob made, OrderSource source) =>
        ProofOf.Files(made).Where(p => source.AgainOf is null || p.Key != ProofOf.Priced).ToImmutableDictionary();

    /// <summary>Whether keeping a draft would ask for the customer's approval anew.</summary>
    internal bool AsksAnew(DraftJob draft) =>
        AsksAnew(
            workshop,
            draft.Made.Job.Name,
            [.. Proofs(draft.Made, draft.Source).Values.Select(WorkshopStore.HashOf)]
        )
            is not null;

    // What is made again shows what the customer has approved already, as long as that approval holds.
    private StoredStep? AsApproved(StoredAgain again, ImmutableDictionary<string, byte[]> proofs) =>
        proofs.TryGetValue(ProofOf.Plain, out var proof)
        && new StepOrder(workshop).SoFar(again.Of, stopped: false).Stage != OrderStage.Made
            ? new(
                nameof(OrderStep.Approve),
                nameof(OrderStage.Approved),
                $"its proof was approved with “{again.Of}”",
                WorkshopStore.HashOf(proof)
            )
            : null;

    private bool Keep(
        MadeJob made,
        string? againOf,
        IReadOnlyDictionary<string, byte[]> files,
        IReadOnlyCollection<Ticket> tickets,
        KeepNote note
    ) =>
        workshop.Store.Keep(
            new StoredJob(
                made.Job.Name,
                made.Job.Customer,
                made.Job.Due,
                workshop.Clock.GetUtcNow(),
                made.Work is null,
                made.Findings.Count(f => f is { Severity: not Severity.Note, Accepted: false }),
                Figures(made, againOf is not null)
            )
            {
                AgainOf = againOf,
            },
            KeptJson.Write(made.Findings),
            files,
            tickets.Select(t => new StoredTicket(t.Number, KeptJson.Write(KeptTicket.Of(t)))),
            note
        );

    /// <summary>The step back to before approval that an order with those proofs has to take; null where what was approved still holds.</summary>
    internal static StoredAnew? AsksAnew(OpenedWorkshop workshop, string name, IReadOnlyCollection<string> proofs)
    {
        var marks = workshop.Store.Marks.Of(name);
        var stage = OrderWay.After(marks.Select(m => Enum.Parse<OrderStep>(m.Step)));
        if (stage is OrderStage.Made or OrderStage.HandedOver or OrderStage.SetAside)
        {
            return null;
        }

        var approved = marks.Last(m => m.Step == nameof(OrderStep.Approve)).Proof;
        return approved is not null && proofs.Contains(approved)
            ? null
            : new(
                nameof(OrderStep.Change),
                approved is null
                    ? "which proof was approved is not known: approval is asked for anew"
                    : "the proof shows something else than what was approved: approval is asked for anew"
            );
    }

    internal static string PictureName(int page) =>
        string.Create(CultureInfo.InvariantCulture, $"sheet-{page:000}.png");

    internal static string SketchName(int ticket, int place) =>
        string.Create(CultureInfo.InvariantCulture, $"place-{ticket:000}-{place:00}.svg");

    internal static string DrawingName(int page) =>
        string.Create(CultureInfo.InvariantCulture, $"sheet-{page:000}.svg");

    // The customer pays nothing for what the workshop spoilt: what is told of it is its own cost.
    private static StoredFigures? Figures(MadeJob made, bool again) =>
        made.Work is { } work && (again ? OwnCost.Of(work.Quote) : work.Quote.Total) is var total
            ? new(
                work.Sheets.Length,
                work.Sheets.Sum(s => s.Pieces.Length),
                work.Unplaced + work.Plan.LeftOut.Length,
                work.Plan.MakespanS,
                work.Plan.BoundS,
                total.Amount,
                total.Currency
            )
            : null;
}
