using Coldpeel.Craft.Geometry;

namespace Coldpeel.Workshop.Artwork;

/// <summary>A machine-readable code in a design, read as it will appear: white on the fabric.</summary>
/// <param name="Kind">Its kind, for people: "QR code".</param>
/// <param name="Text">What it says.</param>
/// <param name="Inverted">Whether it reads only with light and dark swapped: its dark parts are white on the fabric.</param>
/// <param name="ModuleMm">Width of its narrowest element.</param>
/// <param name="QuietModules">Empty room beside it in modules, where it is least; capped at the figure that is needed.</param>
/// <param name="NeededModules">Empty room that its standard asks for, in modules.</param>
/// <param name="At">Its box in mm of the design's frame.</param>
public sealed record FoundCode(
    string Kind,
    string Text,
    bool Inverted,
    double ModuleMm,
    double QuietModules,
    double NeededModules,
    BoxMm At
);

/// <summary>Text of a design, as large as it is set.</summary>
/// <param name="Text">The text.</param>
/// <param name="CapMm">Height of its flat capitals in mm.</param>
public sealed record SetText(string Text, double CapMm);
