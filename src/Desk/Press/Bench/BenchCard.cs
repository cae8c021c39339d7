using System.Collections.Immutable;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Press.Bench;

/// <summary>What the bench shows of a placement or a sheet.</summary>
/// <param name="Ref">The placement or sheet, as the tasks name it.</param>
/// <param name="Job">The order.</param>
/// <param name="Title">"polo 3", "sheet 1".</param>
/// <param name="Who">The person it is for; may be empty.</param>
/// <param name="Label">The label printed beside the piece; may be empty.</param>
/// <param name="Material">What the item is made of.</param>
/// <param name="Colour">Colour of the item as CSS writes it; may be empty.</param>
/// <param name="CustomersOwn">Whether the blank belongs to the customer.</param>
/// <param name="Ticket">Number of its ticket; 0 for a sheet.</param>
/// <param name="Picture">Name of a file of the order that shows where the design goes, or the sheet; null for none.</param>
/// <param name="Place">The placement; null for a sheet.</param>
/// <param name="Settings">Figures and words of each op.</param>
/// <param name="Cautions">What to mind with this item, worst first.</param>
public sealed record BenchCard(
    string Ref,
    string Job,
    string Title,
    string Who,
    string Label,
    string Material,
    string Colour,
    bool CustomersOwn,
    int Ticket,
    string? Picture,
    BenchPlace? Place,
    ImmutableDictionary<string, BenchSetting> Settings,
    ImmutableArray<Sentence> Cautions
);

/// <summary>Where a design goes.</summary>
/// <param name="Name">The placement.</param>
/// <param name="DownMm">Down from <paramref name="From"/>.</param>
/// <param name="From">The line distances are measured from.</param>
/// <param name="Across">How it lies across, in words.</param>
/// <param name="WidthMm">Design across.</param>
/// <param name="HeightMm">Design down.</param>
public sealed record BenchPlace(
    string Name,
    double DownMm,
    string From,
    string Across,
    double WidthMm,
    double HeightMm
);

/// <summary>Figures and words of one op.</summary>
/// <param name="Celsius">Set-point; null without heat.</param>
/// <param name="Seconds">How long the plate is closed or the item lies; 0 for a hand's own pace.</param>
/// <param name="KPa">Pressure; null where the maker's sheet rules.</param>
/// <param name="Cover">What lies on top.</param>
/// <param name="Say">How, in words.</param>
public sealed record BenchSetting(int? Celsius, int Seconds, int? KPa, string? Cover, string Say);
