using System.Text;
using Coldpeel.Files.Press;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Desk.Shelf.Book;

/// <summary>Draws a placement as it is being written: the outline of the item, the largest design on it, and the distances.</summary>
public static class DrawPlacement
{
    // Beyond these nothing lies on an item, and the outline would be a dot.
    private const double MostMm = 2000;

    /// <summary>The drawing (SVG) for a page; null while a figure is missing, or none that an item has room for.</summary>
    /// <param name="sketch">The kind of outline.</param>
    /// <param name="widthMm">Width of the largest design.</param>
    /// <param name="heightMm">Height of the largest design.</param>
    /// <param name="downMm">From the line it is measured from down to the design.</param>
    /// <param name="acrossMm">From the centre line to the design's middle, to the right as somebody looks at it.</param>
    /// <param name="figure">How a distance in millimetres is written for whoever reads it.</param>
    public static string? Run(
        string sketch,
        double? widthMm,
        double? heightMm,
        double? downMm,
        double? acrossMm,
        Func<double, string> figure
    )
    {
        if (
            widthMm is not (> 0 and < MostMm and var width)
            || heightMm is not (> 0 and < MostMm and var height)
            || downMm is not (> -MostMm and < MostMm and var down)
            || (acrossMm ?? 0) is not (> -MostMm and < MostMm and var across)
        )
        {
            return null;
        }

        var rule = new PlacementRule("", width, height, "", down, "", across, 0, 0, sketch, "");
        return Encoding.UTF8.GetString(PlaceSvg.Write(new TicketPlace("", rule, width, height, null), "", figure));
    }
}
