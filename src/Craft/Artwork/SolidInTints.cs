namespace Coldpeel.Craft.Artwork;

/// <summary>Tells what is solid among tints: shapes that a screen must leave whole, edge and all, and the room round them that it must leave open.</summary>
/// <remarks>
/// The soft edge of a solid shape passes through every tint on its way to the ground; a screen that took it for one would set nibs along it. So
/// what is at least half strong within a soft edge of full strength belongs to the solid, and so do strokes so thin that they are all edge.
/// Beside a solid a light tint stays away by the narrowest gap: dots that nearly touch it would be glued to it.
/// </remarks>
internal static class SolidInTints
{
    private const byte Full = 246;
    private const byte Half = 128;

    /// <summary>A tint this strong runs into lines that may meet a solid.</summary>
    private const double Joins = 0.5;

    /// <summary>Marks the solids (1, else 0).</summary>
    /// <param name="grey">The plane with tints.</param>
    /// <param name="edge">Dots that a soft edge may take.</param>
    /// <param name="dotMm">Diameter of the smallest dot: fewer dots of full strength than it has are a tint's grain.</param>
    public static byte[] Of(WhitePlane grey, int edge, double dotMm)
    {
        var (w, h, c) = (grey.Width, grey.Height, grey.Coverage);
        var (full, half) = (new byte[c.Length], new byte[c.Length]);
        for (var i = 0; i < c.Length; i++)
        {
            full[i] = c[i] >= Full ? (byte)1 : (byte)0;
            half[i] = c[i] >= Half ? (byte)1 : (byte)0;
        }

        var least = Math.PI / 4 * Math.Pow(dotMm * grey.DotsPerMm, 2);
        var cores = Components.Label(full, w, h);
        foreach (var (y, left, right, part) in cores.Runs())
        {
            if (cores.Parts[part].Area < least)
            {
                full.AsSpan((y * w) + left, right - left).Clear();
            }
        }

        var solid = Window.Any(full, w, h, edge);
        var shapes = Components.Label(half, w, h);
        var thin = Thin(shapes, half, w, h, edge, least);
        foreach (var (y, left, right, part) in shapes.Runs())
        {
            if (thin[part])
            {
                solid.AsSpan((y * w) + left, right - left).Fill(1);
            }
        }

        for (var i = 0; i < solid.Length; i++)
        {
            solid[i] &= half[i];
        }

        return solid;
    }

    /// <summary>Takes the room beside solids out of the mask where the tint there is light, and empties it.</summary>
    /// <param name="solid">Marks of <see cref="Of"/>.</param>
    /// <param name="mask">Where the screen draws; changed.</param>
    /// <param name="cut">The plane of one bit a dot; changed.</param>
    /// <param name="gapMm">How far a light tint stays away.</param>
    /// <param name="tone">The mean tint around a dot's place, null where there is none.</param>
    /// <param name="reachMm">How far beyond that distances are asked for later.</param>
    /// <returns>Squares of the distances to the nearest solid, in dots, as far as was asked.</returns>
    public static ushort[] KeepApart(
        byte[] solid,
        byte[] mask,
        WhitePlane cut,
        double gapMm,
        Func<double, double, double?> tone,
        double reachMm
    )
    {
        var gap = Room(gapMm, cut.DotsPerMm);
        var reach = Math.Min(gap + (reachMm * cut.DotsPerMm), NearDistances.Farthest - 1);
        var squares = new ushort[solid.Length];
        NearDistances.Squared(solid, cut.Width, cut.Height, (int)Math.Ceiling(reach), 1, squares);
        var most = (ushort)(gap * gap);
        Parallel.For(
            0,
            cut.Height,
            y =>
            {
                for (var i = y * cut.Width; i < (y + 1) * cut.Width; i++)
                {
                    if (mask[i] != 0 && squares[i] <= most && IsLight(tone(i - (y * cut.Width), y)))
                    {
                        (mask[i], cut.Coverage[i]) = (0, 0);
                    }
                }
            }
        );
        return squares;
    }

    /// <summary>Dots that a light tint keeps from a solid.</summary>
    public static double Room(double gapMm, double dotsPerMm) => (gapMm * dotsPerMm) + ScreenCell.EdgeRoom;

    /// <summary>Whether a tint prints as dots and not as lines.</summary>
    public static bool IsLight(double? tone) => (tone ?? 0) < Joins;

    /// <summary>Which shapes are nowhere wider than two soft edges, and more than a grain.</summary>
    private static bool[] Thin(Components shapes, byte[] half, int w, int h, int edge, double least)
    {
        var squares = new ushort[half.Length];
        var reach = Math.Min(edge + 1, NearDistances.Farthest - 1);
        NearDistances.Squared(half, w, h, reach, 0, squares);
        var thin = shapes.Parts.Select(p => p.Area >= least).ToArray();
        var most = (ushort)(reach * reach);
        foreach (var (y, left, right, part) in shapes.Runs())
        {
            if (
                thin[part]
                && squares.AsSpan((y * w) + left, right - left).IndexOfAnyInRange(most, ushort.MaxValue) >= 0
            )
            {
                thin[part] = false;
            }
        }

        return thin;
    }
}
