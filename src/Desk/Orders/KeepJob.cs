using System.Globalization;
using Coldpeel.Desk.Press;
using Coldpeel.Files.Press;
using Coldpeel.Files.Sheets;
using Coldpeel.Storage.Orders;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Orders;

/// <summary>Keeps a made job in the workshop, in place of an earlier one of the same name.</summary>
public sealed class KeepJob(OpenedWorkshop workshop)
{
    // A dot is a third of a millimetre: hairlines show, and a sheet still fits a screen.
    private const double DotsPerMm = 3;

    /// <summary>Keeps figures, findings, tickets, files, and of every sheet a picture and a drawing.</summary>
    public void Run(MadeJob made, string who = "")
    {
        ArgumentNullException.ThrowIfNull(made);
        var files = made.Files;
        foreach (var sheet in made.Work?.Sheets ?? [])
        {
            files = files
                .SetItem(PictureName(sheet.Page), SheetPicture.Encode(sheet, DotsPerMm, mirrored: false))
                .SetItem(DrawingName(sheet.Page), SheetSvg.Write(sheet));
        }

        var tickets = made.Work?.Tickets ?? [];
        foreach (var ticket in tickets)
        {
            foreach (var (at, place) in ticket.Places.Index())
            {
                files = files.SetItem(SketchName(ticket.Number, at + 1), PlaceSvg.Write(place, ticket.FabricColour));
            }
        }

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
            who
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
