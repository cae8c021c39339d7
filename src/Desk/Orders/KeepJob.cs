using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Desk.Artwork;
using Coldpeel.Desk.Press;
using Coldpeel.Desk.Shelf;
using Coldpeel.Files.Press;
using Coldpeel.Files.Sheets;
using Coldpeel.Storage;
using Coldpeel.Storage.Orders;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Desk.Orders;

/// <summary>Keeps a made job in the workshop, in place of an earlier one of the same name.</summary>
public sealed class KeepJob(OpenedWorkshop workshop)
{
    // A dot is a third of a millimetre: hairlines show, and a sheet still fits a screen.
    private const double DotsPerMm = 3;

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
        foreach (var sheet in made.Work?.Sheets ?? [])
        {
            files = files
                .SetItem(PictureName(sheet.Page), SheetPicture.Encode(sheet, DotsPerMm, mirrored: false))
                .SetItem(DrawingName(sheet.Page), SheetSvg.Write(sheet));
        }

        ImmutableArray<Ticket> tickets = made.Work?.Tickets ?? [];
        foreach (var ticket in tickets)
        {
            foreach (var (at, place) in ticket.Places.Index())
            {
                files = files.SetItem(SketchName(ticket.Number, at + 1), PlaceSvg.Write(place, ticket.FabricColour));
            }
        }

        var proofs = ProofOf.Files(made).ToArray();
        files = files
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

            var anew = Anew(made.Job.Name, [.. proofs.Select(p => WorkshopStore.HashOf(p.Value))]);
            Keep(made, files, tickets, new KeepNote(how.Who, how.What, anew));
            return null;
        }
    }

    private void Keep(
        MadeJob made,
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
                Figures(made)
            ),
            KeptJson.Write(made.Findings),
            files,
            tickets.Select(t => new StoredTicket(t.Number, KeptJson.Write(KeptTicket.Of(t)))),
            note
        );

    private StoredAnew? Anew(string name, IReadOnlyCollection<string> proofs)
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

    private static StoredFigures? Figures(MadeJob made) =>
        made.Work is { } work
            ? new(
                work.Sheets.Length,
                work.Sheets.Sum(s => s.Pieces.Length),
                work.Unplaced + work.Plan.LeftOut.Length,
                work.Plan.MakespanS,
                work.Plan.BoundS,
                work.Quote.Total.Amount,
                work.Quote.Total.Currency
            )
            : null;
}
