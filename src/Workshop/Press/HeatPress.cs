using System.Collections.Immutable;
using Coldpeel.Craft.Press.Heat;

namespace Coldpeel.Workshop.Press;

/// <summary>A heat press.</summary>
/// <param name="Id">Its name on the plan.</param>
/// <param name="PlateWidthMm">Plate across.</param>
/// <param name="PlateHeightMm">Plate down.</param>
/// <param name="SetpointC">Where it stands at the start of a day.</param>
public sealed record HeatPress(string Id, int PlateWidthMm, int PlateHeightMm, int SetpointC)
{
    /// <summary>Thickest stack that goes between its plates, mm; null when nobody has measured it.</summary>
    public double? ClearanceMm { get; init; }

    /// <summary>How well things touch under its plate, as measured there; null when nobody has measured.</summary>
    public PressContacts? Contacts { get; init; }
}

/// <summary>Contact conductances measured at a press, W/(m²·K); null for one that was not.</summary>
/// <param name="UpperWm2K">The upper plate on what lies on top.</param>
/// <param name="ItemWm2K">The glue, or the cover of a bare item, on the item.</param>
/// <param name="PadWm2K">The item on the pad.</param>
public sealed record PressContacts(double? UpperWm2K, double? ItemWm2K, double? PadWm2K)
{
    /// <summary>Those of a fit that a press keeps; null when it found none of them.</summary>
    /// <param name="fitted">The fit.</param>
    public static PressContacts? Of(HeatFitted fitted)
    {
        ArgumentNullException.ThrowIfNull(fitted);
        var (problem, lowest) = (fitted.Problem, fitted.Problem.Layers[^1].Name);
        double? Found(Func<HeatUnknown, bool> which) =>
            fitted.Found.FirstOrDefault(f => which(f.Contact)) is { } found ? Math.Round(found.Wm2K) : null;
        var kept = new PressContacts(
            Found(c => c is HeatUnknown.UpperPlate),
            Found(c => c is HeatUnknown.Between b && b.Above == problem.GlueLineBelow),
            Found(c => c is HeatUnknown.Between b && b.Above != problem.GlueLineBelow && b.Below == lowest)
        );
        return kept == new PressContacts(null, null, null) ? null : kept;
    }
}

/// <summary>A place on an item.</summary>
/// <param name="Name">"left chest".</param>
/// <param name="MaxWidthMm">Largest design across.</param>
/// <param name="MaxHeightMm">Largest design down.</param>
/// <param name="From">What distances are measured from, for people: "collar seam at the shoulder".</param>
/// <param name="DownMm">From there down to the top of the design.</param>
/// <param name="Across">How it lies across, for people: "centred", "centred 110 mm left of the centre line".</param>
/// <param name="AcrossMm">Centre of the design from the item's centre line, in mm; right of the viewer is positive.</param>
/// <param name="PlateWidthMm">Room the laid-out item needs on the plate, across.</param>
/// <param name="PlateHeightMm">Room the laid-out item needs on the plate, down.</param>
/// <param name="Sketch">Which outline the ticket draws: shirt-front, shirt-back, gilet-front, gilet-back, sleeve, bag, flat, tag.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record PlacementRule(
    string Name,
    double MaxWidthMm,
    double MaxHeightMm,
    string From,
    double DownMm,
    string Across,
    double AcrossMm,
    int PlateWidthMm,
    int PlateHeightMm,
    string Sketch,
    string Source
)
{
    /// <summary>What lies under or beside the plate there, for people: "the zip", "the pocket seam".</summary>
    public ImmutableArray<string> Crosses { get; init; } = [];
}
