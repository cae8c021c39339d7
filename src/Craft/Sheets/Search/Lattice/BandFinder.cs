using Coldpeel.Craft.Sheets.Search.Overlap;

namespace Coldpeel.Craft.Sheets.Search.Lattice;

/// <summary>Finds the bands that one shape can be laid in: single lines, and pairs of lines that reach into each other.</summary>
/// <remarks>
/// Nothing is left to chance: a way is moved against itself until it is clear, which gives the pitch, and a second line is laid,
/// at every phase, to the least distance at which it is clear of the first: also into bays that it could not be pushed into.
/// </remarks>
/// <param name="book">Ways of the pieces.</param>
/// <param name="contours">Their contours.</param>
/// <param name="gap">Least distance between pieces, in micrometres.</param>
internal sealed class BandFinder(FormBook book, ContourBook contours, long gap)
{
    private const int MostWays = 4;
    private const int Phases = 16;
    private const int Finer = 4;

    // Steps in micrometres: of the pitch, of a line that is moved in, and how exactly both are found then.
    private const long PitchStep = 500;
    private const long WidthStep = 1000;
    private const long Exact = 5;

    // A pair that is not closer than two lines by so much, or less close than another by so much, is left out: it would only have to be tried.
    private const double Gain = 1.04;

    // Contours are a trifle larger than half the gap all round.
    private const long Slack = 10;

    /// <summary>All bands of a shape, along the sheet and across it.</summary>
    public List<Band> Of(int shape) => [.. Of(shape, false), .. Of(shape, true)];

    private List<Band> Of(int shape, bool across)
    {
        var bands = new List<Band>();
        var lines = book.Ways[shape].Take(MostWays).Select(way => new Line(way, contours[way.Form], across)).ToArray();
        foreach (var line in lines)
        {
            line.Pitch = PitchOf(line);
            Add(bands, new(shape, across, [new(line.Way, 0, 0)], line.Width, line.Pitch));
        }

        double Film(long width, long pitch, int count) => (double)(width + gap) * pitch / count;
        var alone = bands.Min(b => Film(b.Width, b.Pitch, 1));
        var pairs = lines
            .SelectMany(a => lines.Select(b => (A: a, B: b, Place: Pair(a, b))))
            .Where(p => p.Place is not null)
            .Select(p => (p.A, p.B, Place: p.Place!.Value))
            .Select(p => (p.A, p.B, p.Place, Width: Math.Max(p.A.Width, p.Place.Beside + p.B.Width)))
            .Where(p => Film(p.Width, p.Place.Pitch, 2) * Gain < alone)
            .ToList();
        var least = pairs.Count == 0 ? 0 : pairs.Min(p => Film(p.Width, p.Place.Pitch, 2));
        foreach (var (a, b, (along, beside, pitch), width) in pairs)
        {
            if (Film(width, pitch, 2) > least * Gain)
            {
                continue;
            }

            Add(bands, new(shape, across, [new(a.Way, 0, 0), new(b.Way, along, beside)], width, pitch));
            // The same repeats, begun at the other line: on some lengths one has a copy more.
            Add(bands, new(shape, across, [new(a.Way, pitch - along, 0), new(b.Way, 0, beside)], width, pitch));
        }

        return bands;
    }

    /// <summary>Adds a band unless one is known that is no wider and repeats as often.</summary>
    private static void Add(List<Band> bands, Band next)
    {
        bool Same(Band band) =>
            band.Lines.Length == next.Lines.Length
            && band.Lines[0].Way == next.Lines[0].Way
            && band.Lines[^1].Way == next.Lines[^1].Way;

        // Two phases of one pair stay; of different ways the first of equals is enough.
        if (
            !bands.Exists(b =>
                b.Lines.Length == next.Lines.Length && !Same(b) && b.Width <= next.Width && b.Pitch <= next.Pitch
            )
        )
        {
            bands.Add(next);
        }
    }

    private static bool Clear(Line a, Line b, long along, long beside) =>
        PairOverlap.Of(
            a.Contour,
            b.Contour,
            (float)((a.Across ? beside : along) / 1000.0),
            (float)((a.Across ? along : beside) / 1000.0)
        ) == 0;

    private bool ClearOfItself(Line line, long pitch)
    {
        for (var at = pitch; at < line.Length + gap + Slack; at += pitch)
        {
            if (!Clear(line, line, at, 0))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>The least distance at which a way can be repeated.</summary>
    private long PitchOf(Line line)
    {
        var pitch = PitchStep;
        while (!ClearOfItself(line, pitch))
        {
            pitch += PitchStep;
        }

        for (var step = PitchStep / 2; step >= Exact; step /= 2)
        {
            pitch -= ClearOfItself(line, pitch - step) ? step : 0;
        }

        return pitch;
    }

    /// <summary>Where a second line lies nearest, or null where lines side by side are as good.</summary>
    private (long Along, long Beside, long Pitch)? Pair(Line a, Line b)
    {
        var pitch = Math.Max(a.Pitch, b.Pitch);
        // Lines of different pitch leave room in one of the two.
        if (Math.Min(a.Pitch, b.Pitch) < 0.9 * pitch || !ClearOfItself(a, pitch) || !ClearOfItself(b, pitch))
        {
            return null;
        }

        var outside = a.Width + gap + Slack;
        var (along, beside) = (0L, outside);
        void Try(long at, long step)
        {
            at = ((at % pitch) + pitch) % pitch;
            var near = Nearest(a, b, pitch, at, outside, step);
            (along, beside) = near < beside ? (at, near) : (along, beside);
        }

        for (var k = 0; k < Phases; k++)
        {
            Try(pitch * k / Phases, WidthStep);
        }

        if (beside > outside - WidthStep)
        {
            return null;
        }

        var middle = along;
        for (var k = -Finer; k <= Finer; k++)
        {
            Try(middle + (pitch * k / (Phases * Finer)), Exact);
        }

        return (along, beside, pitch);
    }

    /// <summary>How near the second line can lie.</summary>
    private long Nearest(Line a, Line b, long pitch, long along, long outside, long exact)
    {
        var reach = Math.Max(a.Length, b.Length) + gap + Slack;
        bool Free(long beside)
        {
            for (var at = along - ((along + reach) / pitch * pitch); at < reach; at += pitch)
            {
                if (!Clear(a, b, at, beside))
                {
                    return false;
                }
            }

            return true;
        }

        var near = 0L;
        while (near < outside && !Free(near))
        {
            near += WidthStep;
        }

        for (var step = WidthStep / 2; step >= exact && near > 0; step /= 2)
        {
            near -= near >= step && Free(near - step) ? step : 0;
        }

        return near;
    }

    private sealed class Line(Way way, Contour contour, bool across)
    {
        public Way Way => way;

        public Contour Contour => contour;

        public bool Across => across;

        public long Length { get; } = across ? way.Form.ExtentV : way.Form.ExtentU;

        public long Width { get; } = across ? way.Form.ExtentU : way.Form.ExtentV;

        public long Pitch { get; set; }
    }
}
