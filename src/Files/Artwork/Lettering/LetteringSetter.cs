using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;
using Coldpeel.Files.Artwork.Fonts;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Artwork.Lettering;

/// <summary>Sets text in type: from words to clean outlines in millimetres.</summary>
public static class LetteringSetter
{
    /// <summary>Sets a text. The same text, font and request always give the same outlines.</summary>
    /// <param name="face">The font.</param>
    /// <param name="request">Size, tracking, lines, arc, outline and the width to keep to; its own text is not read.</param>
    /// <param name="text">The text as it shall stand, its places filled.</param>
    /// <exception cref="ArgumentOutOfRangeException">A size is not above zero, or not a number.</exception>
    public static SetLettering Set(FontFace face, LetteringRequest request, string text)
    {
        ArgumentNullException.ThrowIfNull(face);
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(text);
        var capMm = Need.Positive(request.HeightMm);
        var tracking = Need.Finite(request.TrackingPercent) / 100 * face.CapHeight;
        var shaped = text.ReplaceLineEndings("\n")
            .Replace('\t', ' ')
            .Split('\n')
            .Select(line => LineShaper.Shape(face, line, tracking))
            .ToArray();
        var missing = shaped.SelectMany(s => s.Missing).Distinct().ToArray();
        var lines = new LetterLines(face, request, shaped);
        var asked = capMm / face.CapHeight;
        // A ring round the letters takes its width on both sides.
        var ringMm = request.Ring is { Inside: false } ring ? 2 * Need.Positive(ring.WidthMm) : 0;
        var scale = lines.IsEmpty ? asked : Fit(lines, request, asked, ringMm);
        var steps = lines.Steps(scale);
        var rung = request.Ring is { } drawn && steps.Count > 0 ? RingSteps.Of(steps, drawn) : steps;
        steps = rung ?? steps;

        var ink = InkOutline.Box(steps);
        if (ink.IsEmpty)
        {
            return new(new([]), 0, 0, [.. missing], capMm, null);
        }

        var corner = new PointMm(-ink.Left, -ink.Top);
        return new(
            new([.. steps.Select(s => Steps.Moved(s, corner))]),
            ink.Width,
            ink.Height,
            [.. missing],
            scale * face.CapHeight,
            Notes(request, capMm, scale * face.CapHeight, lines.Clean, rung is null)
        );
    }

    private static Sentence? Notes(LetteringRequest request, double askedMm, double setMm, bool clean, bool noRing)
    {
        var notes = new List<Sentence>();
        if (Math.Abs(setMm - askedMm) > 1e-9)
        {
            var why =
                setMm > askedMm ? (Sentence)$"so that it is {Mm(request.MaxWidthMm!.Value)} wide"
                : request.Arc is null ? (Sentence)$"so that it is no wider than {Mm(request.MaxWidthMm!.Value)}"
                : request.MaxWidthMm is { } most
                    ? (Sentence)$"so that it keeps to its circle and is no wider than {Mm(most)}"
                : $"so that it keeps to its circle";
            notes.Add($"Set {new Part.Length(setMm, null, "0.0#")} high instead of {Mm(askedMm)} {why}.");
        }

        if (noRing)
        {
            notes.Add("The outline cannot be drawn, so the letters are full: take another font or width.");
        }

        if (!clean)
        {
            notes.Add("Where letters overlap the outlines could not be cleaned: look at the trim map for holes.");
        }

        return notes.Count > 0 ? (Sentence)$"{new Part.Row(notes, " ")}" : null;
    }

    private static Part.Length Mm(double mm) => new Part.Length(mm, null, "0.##");

    /// <summary>Millimetres in a font unit: as asked, smaller where the width or the circle is too small for it, larger where the width is to be filled.</summary>
    private static double Fit(LetterLines lines, LetteringRequest request, double asked, double ringMm)
    {
        double? most = request.MaxWidthMm is { } width ? Math.Max(Need.Positive(width) - ringMm, width / 10) : null;
        if (request.Arc is null)
        {
            var full = most / lines.Width(1);
            return full is not { } limit ? asked
                : request.FillWidth || asked > limit ? limit
                : asked;
        }

        bool Fits(double scale) => lines.GoesRound(scale) && !(most < lines.Width(scale));
        if (Fits(asked) && !(request.FillWidth && most is not null))
        {
            return asked;
        }

        var (fits, fails) = (asked, asked);
        while (Fits(fails) && fails < 1000 * asked)
        {
            (fits, fails) = (fails, fails * 2);
        }

        while (!Fits(fits) && fits > asked / 1000)
        {
            (fits, fails) = (fits / 2, fits);
        }

        for (var k = 0; k < 40; k++)
        {
            var middle = (fits + fails) / 2;
            (fits, fails) = Fits(middle) ? (middle, fails) : (fits, middle);
        }

        return fits;
    }
}
