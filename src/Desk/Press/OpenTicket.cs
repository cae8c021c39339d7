using System.Collections.Immutable;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Desk.Press;

/// <summary>What the page of a ticket shows.</summary>
/// <param name="Number">From 1.</param>
/// <param name="Job">The job.</param>
/// <param name="Customer">Who asked.</param>
/// <param name="Due">The day it is due.</param>
/// <param name="Title">"12 × gilet".</param>
/// <param name="MaterialName">What it is made of.</param>
/// <param name="FabricColour">Colour of the item, as the job gives it.</param>
/// <param name="CustomersOwn">Whether the blanks belong to the customer.</param>
/// <param name="Steps">The steps with the figures that hold.</param>
/// <param name="Places">What goes where.</param>
/// <param name="Rows">One an item.</param>
/// <param name="Cautions">What to mind, worst first.</param>
public sealed record KeptTicket(
    int Number,
    string Job,
    string Customer,
    DateOnly Due,
    string Title,
    string MaterialName,
    string FabricColour,
    bool CustomersOwn,
    ImmutableArray<ProcessStep> Steps,
    ImmutableArray<KeptPlace> Places,
    ImmutableArray<TicketRow> Rows,
    ImmutableArray<Sentence> Cautions
)
{
    /// <summary>The item group it is for; null when an earlier version kept it.</summary>
    public string? Item { get; init; }

    internal static KeptTicket Of(Ticket ticket) =>
        new(
            ticket.Number,
            ticket.Job,
            ticket.Customer,
            ticket.Due,
            ticket.Title,
            ticket.MaterialName,
            ticket.FabricColour,
            ticket.CustomersOwn,
            ticket.Steps,
            [.. ticket.Places.Select(p => new KeptPlace(p.Design, p.WidthMm, p.HeightMm, p.Rule))],
            ticket.Rows,
            ticket.Cautions
        )
        {
            Item = ticket.Item,
        };
}

/// <summary>A design at its place.</summary>
/// <param name="Design">The design.</param>
/// <param name="WidthMm">Across.</param>
/// <param name="HeightMm">Down.</param>
/// <param name="Rule">The place, with its distances.</param>
public sealed record KeptPlace(string Design, double WidthMm, double HeightMm, PlacementRule Rule);

/// <summary>Opens the ticket that a code at the press leads to.</summary>
public sealed class OpenTicket(OpenedWorkshop workshop)
{
    /// <summary>The ticket; null when there is none of that number.</summary>
    public KeptTicket? Run(string job, int number) =>
        workshop.Store.Ticket(job, number) is { } json ? KeptJson.Read<KeptTicket>(json) : null;
}
