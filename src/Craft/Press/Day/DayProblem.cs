using System.Collections.Immutable;

namespace Coldpeel.Craft.Press.Day;

/// <summary>A heat press: its plate in mm, the set-point it stands at in °C, and when it is free, in seconds of the day.</summary>
public sealed record DayPress(string Id, int PlateW, int PlateH, int SetpointC, int FreeAt);

/// <summary>A transfer sheet to be bonded: when it is printed, its size in mm, and its times in seconds; <paramref name="Trim"/> is per piece.</summary>
public sealed record DaySheet(
    string Id,
    int AvailableAt,
    int W,
    int H,
    int TempC,
    int Load,
    int Press,
    int Peel,
    int Trim
);

/// <summary>An order: due in seconds of the day, and how much a second of lateness weighs.</summary>
public sealed record DayOrder(string Id, int Due, int Weight);

/// <summary>One design to be pressed on one item: size in mm, all times in seconds.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Item">The physical item; placements of one item follow one another.</param>
/// <param name="Order">The order it belongs to.</param>
/// <param name="Sheet">The sheet its piece comes from; null when it comes from the shelf.</param>
/// <param name="After">The earlier placement on the same item, or null.</param>
/// <param name="W">Room it needs on the plate, across.</param>
/// <param name="H">Room it needs on the plate, down; item and design may turn by 90°.</param>
/// <param name="TempC">Set-point.</param>
/// <param name="Load">Hand: place and cover.</param>
/// <param name="Press">Press closed.</param>
/// <param name="Lift">Hand: take off and lay on the rack.</param>
/// <param name="Cool">At least so long on the rack before the cold peel.</param>
/// <param name="Peel">Hand: cold peel.</param>
/// <param name="FinishLoad">Hand: lay for the finish press.</param>
/// <param name="FinishPress">Press closed.</param>
/// <param name="Unload">Hand: take off.</param>
/// <param name="Inspect">Hand: look and record.</param>
public sealed record DayPlacement(
    string Id,
    string Item,
    string Order,
    string? Sheet,
    string? After,
    int W,
    int H,
    int TempC,
    int Load,
    int Press,
    int Lift,
    int Cool,
    int Peel,
    int FinishLoad,
    int FinishPress,
    int Unload,
    int Inspect
);

/// <summary>A step already begun: it stays where it is. <paramref name="Op"/> is one of bond, trim, place, peel, finish, inspect.</summary>
public sealed record DayFixed(string Op, string Ref, string? Press, int Start)
{
    /// <summary>The hand that began it, where the plan in force named one: it keeps its name.</summary>
    public int? Hand { get; init; }

    /// <summary>The hand that is to end it.</summary>
    public int? LastHand { get; init; }

    /// <summary>The rack place it cools on.</summary>
    public int? Rack { get; init; }
}

/// <summary>A day at the presses: whole seconds and millimetres.</summary>
public sealed record DayProblem(
    string Name,
    int Now,
    double HeatCPerMin,
    double CoolCPerMin,
    int Hands,
    int RackPlaces,
    ImmutableArray<DayPress> Presses,
    ImmutableArray<DaySheet> Sheets,
    ImmutableArray<DayOrder> Orders,
    ImmutableArray<DayPlacement> Placements,
    ImmutableArray<DayFixed> Fixed
)
{
    /// <summary>Pins, bans and breaks, and the plan in force.</summary>
    public DayWishes Wishes { get; init; } = DayWishes.None;
}
