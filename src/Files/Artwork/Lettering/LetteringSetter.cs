using System.Globalization;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;
using Coldpeel.Files.Artwork.Fonts;
using Coldpeel.Workshop.Artwork;
using SkiaSharp;

namespace Coldpeel.Files.Artwork.Lettering;

/// <summary>Sets text in type: from words to clean outlines in millimetres.</summary>
public static class LetteringSetter
{
    /// <summary>Sets a text. The same text, font and request always give the same outlines.</summary>
    /// <param name="face">The font.</param>
    /// <param name="request">Size, tracking and the width to keep to; its own text is not read.</param>
    /// <param name="text">The text as it shall stand, its places filled; lines are centred on each other by their ink.</param>
    /// <exception cref="ArgumentOutOfRangeException">A size is not above zero, or not a number.</exception>
    public static SetLettering Set(FontFace face, LetteringRequest request, string text)
    {
        ArgumentNullException.ThrowIfNull(face);
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(text);
        var capMm = Need.Positive(request.HeightMm);
        var tracking = Need.Finite(request.TrackingPercent) / 100 * face.CapHeight;

        var lines = text.ReplaceLineEndings("\n").Replace('\t', ' ').Split('\n');
        var missing = new List<string>();
        var steps = new List<PathStep>();
        var clean = true;
        for (var i = 0; i < lines.Length; i++)
        {
            var shaped = LineShaper.Shape(face, lines[i], tracking);
            missing.AddRange(shaped.Missing);
            var line = Outline(face, shaped, ref clean);
            var box = InkOutline.Box(line);
            var shift = box.IsEmpty ? default : new PointMm(-(box.Left + box.Right) / 2, i * face.LineHeight);
            steps.AddRange(line.Select(s => Moved(s, shift, 1)));
        }

        var ink = InkOutline.Box(steps);
        if (ink.IsEmpty)
        {
            return new(new([]), 0, 0, [.. missing.Distinct()], capMm, null);
        }

        var notes = new List<string>();
        var scale = capMm / face.CapHeight;
        if (request.MaxWidthMm is { } most && ink.Width * scale > Need.Positive(most))
        {
            scale = most / ink.Width;
            notes.Add(Smaller(capMm, scale * face.CapHeight, most));
            capMm = scale * face.CapHeight;
        }

        if (!clean)
        {
            notes.Add("Where letters overlap the outlines could not be cleaned: look at the trim map for holes.");
        }

        var corner = new PointMm(-ink.Left, -ink.Top);
        return new(
            new([.. steps.Select(s => Moved(s, corner, scale))]),
            ink.Width * scale,
            ink.Height * scale,
            [.. missing.Distinct()],
            capMm,
            notes.Count > 0 ? string.Join(" ", notes) : null
        );
    }

    private static string Smaller(double askedMm, double setMm, double mostMm) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"Set {setMm:0.0#} mm high instead of {askedMm:0.##} mm so that it is no wider than {mostMm:0.##} mm."
        );

    /// <summary>A line's outline in font units, y down from the line's foot.</summary>
    private static List<PathStep> Outline(FontFace face, ShapedLine line, ref bool clean)
    {
        var steps = new List<PathStep>();
        foreach (var group in Touching(Placed(face, line)))
        {
            // A letter that touches no other is cleaned where it stands in the font, so that it always comes out alike.
            var origin = group[0];
            using var builder = new SKPathBuilder { FillType = SKPathFillType.Winding };
            foreach (var glyph in group)
            {
                builder.AddPath(
                    glyph.Path,
                    (float)(glyph.X - origin.X),
                    (float)(glyph.Y - origin.Y),
                    SKPathAddMode.Append
                );
            }

            using var filled = builder.Detach();
            clean &= OutlineUnion.TryUnite(filled, out var united);
            using (united)
            {
                steps.AddRange(InkOutline.Steps(united).Select(s => Moved(s, new(origin.X, origin.Y), 1)));
            }
        }

        return steps;
    }

    private static List<(SKPath Path, double X, double Y)> Placed(FontFace face, ShapedLine line)
    {
        var placed = new List<(SKPath, double, double)>();
        foreach (var glyph in line.Glyphs)
        {
            if (face.Pen.GetGlyphPath(glyph.Glyph) is { IsEmpty: false } path)
            {
                placed.Add((path, glyph.X, -glyph.Y));
            }
        }

        return placed;
    }

    /// <summary>Letters whose boxes meet, directly or by others between them, in the order of their first.</summary>
    private static List<List<(SKPath Path, double X, double Y)>> Touching(
        List<(SKPath Path, double X, double Y)> glyphs
    )
    {
        var groups = new List<(BoxMm Box, List<(SKPath, double, double)> Glyphs)>();
        foreach (var glyph in glyphs)
        {
            var b = glyph.Path.TightBounds;
            var box = new BoxMm(b.Left + glyph.X, b.Top + glyph.Y, b.Right + glyph.X, b.Bottom + glyph.Y).Grow(1);
            var meeting = groups.Where(g => g.Box.Meets(box)).ToList();
            groups.RemoveAll(meeting.Contains);
            var all = meeting.Select(g => g.Box).Append(box).ToList();
            groups.Add(
                (
                    new(all.Min(a => a.Left), all.Min(a => a.Top), all.Max(a => a.Right), all.Max(a => a.Bottom)),
                    [.. meeting.SelectMany(g => g.Glyphs), glyph]
                )
            );
        }

        return groups.ConvertAll(g => g.Glyphs);
    }

    private static PathStep Moved(PathStep step, PointMm shift, double scale)
    {
        PointMm Map(PointMm p) => new((p.X + shift.X) * scale, (p.Y + shift.Y) * scale);
        return step.Move switch
        {
            PathMove.Close => step,
            PathMove.Curve => new(step.Move, Map(step.First), Map(step.Second), Map(step.End)),
            _ => new(step.Move, default, default, Map(step.End)),
        };
    }
}
