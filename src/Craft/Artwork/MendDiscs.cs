using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Artwork;

/// <summary>Draws discs of a limit's width along the middle of narrow places: of toner into strokes, of ground into gaps.</summary>
internal static class MendDiscs
{
    /// <summary>Dots that the discs' radius grows by from round to round: what one leaves a shade too narrow the next one mends.</summary>
    private const double Wider = 0.3;

    /// <summary>Draws into the plane and tells the boxes of the places.</summary>
    /// <param name="work">The plane; changed in place.</param>
    /// <param name="survey">What was measured on it.</param>
    /// <param name="places">Its narrow places.</param>
    /// <param name="limitMm">The width they are to have.</param>
    /// <param name="round">How often it was tried before.</param>
    /// <param name="ink">Whether they are strokes.</param>
    /// <param name="keep">Toner that each dot keeps whatever is drawn; strokes add theirs. Null for none.</param>
    public static List<BoxMm> Draw(
        WhitePlane work,
        PlaneSurvey survey,
        List<NarrowPlace> places,
        double limitMm,
        int round,
        bool ink,
        byte[]? keep = null
    )
    {
        var radius = (limitMm * survey.Scale / 2) + (Wider * round);
        var field = survey.Field;
        foreach (var place in places)
        {
            foreach (var i in place.Middle.Span)
            {
                // At the frame's edge the disc moves inwards: what lies outside the frame does not print.
                var x = (i % field.Width) + field.OffsetX;
                var y = (i / field.Width) + field.OffsetY;
                if (ink)
                {
                    (x, y) = (Inside(x, radius, work.Width), Inside(y, radius, work.Height));
                }

                Disc(work, x, y, radius, ink, keep);
            }
        }

        return [.. places.Select(p => survey.InMm(p.Left, p.Top, p.Right, p.Bottom))];
    }

    /// <summary>Marks what strokes need to be as wide as the limit, as far as they have it: it stays whatever is drawn after.</summary>
    public static void Keep(WhitePlane work, PlaneSurvey survey, List<NarrowPlace> places, double limitMm, byte[] keep)
    {
        var needed = new WhitePlane(work.Width, work.Height, keep, work.DotsPerMm);
        _ = Draw(needed, survey, places, limitMm, 0, ink: true);
        for (var i = 0; i < keep.Length; i++)
        {
            keep[i] = Math.Min(keep[i], work.Coverage[i]);
        }
    }

    private static int Inside(int at, double radius, int dots)
    {
        var least = (int)Math.Ceiling(radius - 0.5);
        return least > dots - 1 - least ? at : Math.Clamp(at, least, dots - 1 - least);
    }

    /// <summary>Its edge is shaded, so that the width is right within a dot.</summary>
    private static void Disc(WhitePlane work, int x, int y, double radius, bool ink, byte[]? keep)
    {
        var reach = (int)Math.Ceiling(radius + 0.5);
        for (var v = Math.Max(0, y - reach); v <= Math.Min(work.Height - 1, y + reach); v++)
        {
            for (var u = Math.Max(0, x - reach); u <= Math.Min(work.Width - 1, x + reach); u++)
            {
                var far = Math.Sqrt(((u - x) * (u - x)) + ((v - y) * (v - y)));
                var shade = (byte)Math.Round(255 * Math.Clamp(radius + 0.5 - far, 0, 1));
                var i = (v * work.Width) + u;
                ref var dot = ref work.Coverage[i];
                if (ink)
                {
                    dot = Math.Max(dot, shade);
                    if (keep is not null)
                    {
                        keep[i] = Math.Max(keep[i], shade);
                    }
                }
                else
                {
                    // What has to stay stays as it is; it is never made more.
                    dot = Math.Min(dot, Math.Max((byte)(255 - shade), keep?[i] ?? 0));
                }
            }
        }
    }
}
