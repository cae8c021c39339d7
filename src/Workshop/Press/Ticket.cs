using System.Collections.Immutable;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Workshop.Press;

/// <summary>What hangs at the press for one item group: what it is, what goes where, how it is pressed, what to mind.</summary>
/// <param name="Number">Ticket number in the job, from 1.</param>
/// <param name="Job">The job.</param>
/// <param name="Customer">Who asked.</param>
/// <param name="Due">The day it is due.</param>
/// <param name="Item">The item group.</param>
/// <param name="Title">"12 × gilet, navy".</param>
/// <param name="Quantity">Items in the group.</param>
/// <param name="MaterialName">What it is made of, for people.</param>
/// <param name="FabricColour">Colour of the item, #rrggbb.</param>
/// <param name="CustomersOwn">Whether the blanks belong to the customer.</param>
/// <param name="Steps">The steps with the figures that hold.</param>
/// <param name="Places">What goes where.</param>
/// <param name="Rows">One line an item: who, and which pieces.</param>
/// <param name="Cautions">What to mind, worst first.</param>
/// <param name="Url">Opens the ticket in the app.</param>
public sealed record Ticket(
    int Number,
    string Job,
    string Customer,
    DateOnly Due,
    string Item,
    string Title,
    int Quantity,
    string MaterialName,
    string FabricColour,
    bool CustomersOwn,
    ImmutableArray<ProcessStep> Steps,
    ImmutableArray<TicketPlace> Places,
    ImmutableArray<TicketRow> Rows,
    ImmutableArray<Sentence> Cautions,
    string Url
)
{
    /// <summary>What the heat model says of its press, and what that rests on; null where it knows nothing.</summary>
    public Sentence? HeatSay { get; init; }
}

/// <summary>A design at its place, with its size for the sketch.</summary>
/// <param name="Design">The design asked for.</param>
/// <param name="Rule">The place.</param>
/// <param name="WidthMm">Design across.</param>
/// <param name="HeightMm">Design down.</param>
/// <param name="Shown">One design to draw in the sketch; null for none.</param>
public sealed record TicketPlace(
    string Design,
    PlacementRule Rule,
    double WidthMm,
    double HeightMm,
    Artwork.Design? Shown
);

/// <summary>One item of the group.</summary>
/// <param name="Number">From 1.</param>
/// <param name="Who">The person, or empty.</param>
/// <param name="Labels">Labels of its pieces, in the order of the places.</param>
public sealed record TicketRow(int Number, string Who, ImmutableArray<string> Labels);
