namespace Coldpeel.Craft.Artwork;

/// <summary>The last look over a whole screened plane: what the screen left too small to carry glue goes, what it closed to a pinhole is filled.</summary>
/// <remarks>
/// The artwork's own spots and holes stay as the solid plane has them, however small: they are the artwork's, and the check tells them. Only where
/// such a spot was a crumb of a shape (<see cref="Crumbs"/>) that the screen took apart, it has lost what it belonged to and goes as well.
/// </remarks>
internal static class ScreenRemains
{
    // What goes may leave another spot alone; more than three in a row were never seen.
    private const int MostRounds = 6;

    /// <summary>Clears the remains.</summary>
    /// <param name="plane">One bit a dot; changed in place.</param>
    /// <param name="solid">The same artwork cut at one half, without any screen.</param>
    /// <param name="dotMm">Diameter of the smallest dot.</param>
    /// <param name="gapMm">Narrowest gap: a closed hole is no smaller across.</param>
    public static void Clear(WhitePlane plane, WhitePlane solid, double dotMm, double gapMm)
    {
        var spots = Components.Label(solid.Coverage, solid.Width, solid.Height);
        var holes = Components.Label(solid.Coverage, solid.Width, solid.Height, ground: true);
        for (var round = 0; round < MostRounds; round++)
        {
            var filled = Turn(plane, holes, Area(gapMm, plane.DotsPerMm), ground: true);
            var dropped = Turn(plane, spots, Area(dotMm, plane.DotsPerMm), ground: false);
            if (filled + dropped == 0)
            {
                return;
            }
        }
    }

    private static int Area(double diameterMm, double dotsPerMm) =>
        (int)Math.Ceiling((Math.PI / 4 * Math.Pow(diameterMm * dotsPerMm, 2)) - 1e-6);

    /// <summary>Turns the parts that are too small and not the artwork's own; tells how many.</summary>
    private static int Turn(WhitePlane plane, Components own, int least, bool ground)
    {
        var (w, h) = (plane.Width, plane.Height);
        var parts = Components.Label(plane.Coverage, w, h, ground);
        var small = new HashSet<int>();
        for (var k = 0; k < parts.Parts.Count; k++)
        {
            var c = parts.Parts[k];
            // Ground that reaches the frame's edge is open.
            var open = ground && (c.Left == 0 || c.Top == 0 || c.Right == w || c.Bottom == h);
            if (c.Area < least && !open)
            {
                small.Add(k);
            }
        }

        if (small.Count == 0)
        {
            return 0;
        }

        // A part is the artwork's own when the solid plane has the very same dots.
        var from = new Dictionary<int, (int Part, bool Same)>();
        foreach (var (row, left, right, part) in parts.Runs())
        {
            if (!small.Contains(part))
            {
                continue;
            }

            var there = own.RunAt(left, row);
            var same = there is { } run && run.Left == left && run.Right == right;
            from[part] = from.TryGetValue(part, out var before)
                ? (before.Part, before.Same && same && there!.Value.Part == before.Part)
                : (there?.Part ?? -1, same);
        }

        small.RemoveWhere(part =>
        {
            var (twin, same) = from[part];
            return same
                && own.Parts[twin] == parts.Parts[part]
                && (
                    Crumbs.Is(parts.Parts[part], part, parts, plane.DotsPerMm)
                    || !Crumbs.Is(own.Parts[twin], twin, own, plane.DotsPerMm)
                );
        });
        foreach (var (row, left, right, part) in parts.Runs())
        {
            if (small.Contains(part))
            {
                plane.Coverage.AsSpan((row * w) + left, right - left).Fill(ground ? (byte)255 : (byte)0);
            }
        }

        return small.Count;
    }
}
