using System.Collections.Immutable;
using Coldpeel.Craft.Sheets;
using Coldpeel.Workshop.Press;
using Coldpeel.Workshop.Sheets;
using Coldpeel.Workshop.Wash;

namespace Coldpeel.Workshop.Orders;

/// <summary>All that a workshop file says: presses, sheets, processes, recipes, prices. The owner's own copy rules.</summary>
/// <param name="Name">The workshop's name.</param>
/// <param name="PrinterDpi">Dots an inch of the printer.</param>
/// <param name="Sheets">Film kinds on the shelf.</param>
/// <param name="GapMm">Least distance between two pieces.</param>
/// <param name="Trim">How pieces are cut apart.</param>
/// <param name="Turns">Turns allowed on the sheet.</param>
/// <param name="HeatCPerMin">How fast a plate heats.</param>
/// <param name="CoolCPerMin">How fast it cools.</param>
/// <param name="Hands">Pairs of hands.</param>
/// <param name="RackPlaces">Items that can lie and cool at one time.</param>
/// <param name="DayStart">When the working day starts, local time.</param>
/// <param name="Presses">Heat presses.</param>
/// <param name="Processes">Ways from film to item.</param>
/// <param name="Materials">What items are made of.</param>
/// <param name="Recipes">Settings of a process for a material.</param>
/// <param name="Placements">Places on items.</param>
/// <param name="Prices">What things cost.</param>
/// <param name="PrintCare">How a print of ours may be treated at most.</param>
/// <param name="CareTips">Advice that goes on every slip.</param>
/// <param name="CareSymbolsLicence">Statement that a licence for the care symbols is held, or null: then words only.</param>
/// <param name="WashTrials">What the workshop has found out about wash life.</param>
/// <param name="AppUrl">Where the app answers, for the codes on tickets.</param>
/// <param name="FabricShowsWhiteDeltaE">Least CIEDE2000 difference between white and the fabric at which a print shows.</param>
public sealed record WorkshopBook(
    string Name,
    int PrinterDpi,
    ImmutableArray<SheetStock> Sheets,
    double GapMm,
    Trim Trim,
    Turns Turns,
    double HeatCPerMin,
    double CoolCPerMin,
    int Hands,
    int RackPlaces,
    TimeOnly DayStart,
    ImmutableArray<HeatPress> Presses,
    ImmutableArray<Process> Processes,
    ImmutableArray<Material> Materials,
    ImmutableArray<Recipe> Recipes,
    ImmutableArray<PlacementRule> Placements,
    PriceList Prices,
    CareLimits PrintCare,
    ImmutableArray<string> CareTips,
    string? CareSymbolsLicence,
    ImmutableArray<WashTrial> WashTrials,
    string AppUrl,
    double FabricShowsWhiteDeltaE
)
{
    /// <summary>What is left of started sheets.</summary>
    public ImmutableArray<StartedSheet> Remnants { get; init; } = [];

    /// <summary>How many spares are made; null for none.</summary>
    public SpareRule? Spares { get; init; }

    /// <summary>Whether pieces may lie in the holes of others.</summary>
    public bool InRings { get; init; } = true;

    /// <summary>Where the single figures come from, by their key in the workshop file.</summary>
    public ImmutableDictionary<string, string> Sources { get; init; } = ImmutableDictionary<string, string>.Empty;
}
