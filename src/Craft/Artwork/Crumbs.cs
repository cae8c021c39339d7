namespace Coldpeel.Craft.Artwork;

/// <summary>Dots that the grid splits from the end of a taper, where it becomes thinner than a dot.</summary>
/// <remarks>
/// A wedge that runs to nothing ends in a row of dots with holes in it, whether it is ink or ground. Nobody sees such a crumb: at 0.15 mm
/// and less it is about the least that an eye resolves at 40 cm (one minute of arc, 0.12 mm), and it touches or nearly touches the shape that
/// it belongs to. So it is no speck and no gap of its own; the taper itself is judged as a stroke or gap.
/// </remarks>
internal static class Crumbs
{
    private const double MostMm = 0.15;
    private const double NearMm = 0.15;

    /// <summary>Which parts are crumbs of another part.</summary>
    public static bool[] Of(Components parts, double dotsPerMm) =>
        [.. parts.Parts.Select((c, part) => Is(c, part, parts, dotsPerMm))];

    /// <summary>Whether a box of dots is a crumb of one of the parts; <paramref name="own"/> is the part it makes itself, −1 for none.</summary>
    public static bool Is(Component c, int own, Components parts, double dotsPerMm)
    {
        if (Math.Max(c.Right - c.Left, c.Bottom - c.Top) > Math.Ceiling(MostMm * dotsPerMm))
        {
            return false;
        }

        var near = (int)Math.Ceiling(NearMm * dotsPerMm);
        for (var y = c.Top - near; y < c.Bottom + near; y++)
        {
            for (var x = c.Left - near; x < c.Right + near; x++)
            {
                var part = parts.At(x, y);
                // Two crumbs beside each other are not yet a shape.
                if (part >= 0 && part != own && parts.Parts[part].Area > 4 * c.Area)
                {
                    return true;
                }
            }
        }

        return false;
    }
}
