using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Files.Artwork.Fonts;
using Coldpeel.Workshop.Artwork;
using SkiaSharp;

namespace Coldpeel.Files.Artwork.Lettering;

/// <summary>Shaped lines laid out straight or along an arc, as clean outlines.</summary>
internal sealed class LetterLines
{
    /// <summary>Text on a circle leaves at least this much of it free, in turns: otherwise its end runs into its start.</summary>
    private const double FreeTurn = 0.03;

    private readonly FontFace _face;
    private readonly LetteringRequest _request;
    private readonly ShapedLine[] _lines;
    private readonly double _spacing;
    private readonly List<PathStep>? _straight;

    public LetterLines(FontFace face, LetteringRequest request, ShapedLine[] lines)
    {
        (_face, _request, _lines) = (face, request, lines);
        _spacing = face.LineHeight * request.LineSpacingPercent / 100;
        var straight = Straight();
        IsEmpty = straight.Count == 0;
        _straight = request.Arc is null ? straight : null;
    }

    /// <summary>Whether nothing prints.</summary>
    public bool IsEmpty { get; }

    /// <summary>Whether letters that overlap could be joined.</summary>
    public bool Clean { get; private set; } = true;

    /// <summary>The outline in mm at so many millimetres a font unit; its place means nothing, but on an arc the circle's middle is the origin.</summary>
    public List<PathStep> Steps(double scale) =>
        [.. (_straight ?? Bent(_request.Arc!, scale)).Select(s => Lettering.Steps.Moved(s, default, scale))];

    /// <summary>Width of the ink in mm.</summary>
    public double Width(double scale) => InkOutline.Box(_straight ?? Bent(_request.Arc!, scale)).Width * scale;

    /// <summary>Whether every line keeps to its circle: not all round, and none nearer to the middle than a capital is high.</summary>
    public bool GoesRound(double scale)
    {
        if (_request.Arc is not { } arc)
        {
            return true;
        }

        return _lines
            .Select((line, i) => (line.Advance, Radius: Radius(arc, scale, i)))
            .All(l => l.Radius >= _face.CapHeight && l.Advance <= 2 * Math.PI * (1 - FreeTurn) * Inner(arc, l.Radius));
    }

    // Heads inwards stand closer than feet: the circle at their height counts.
    private double Inner(LetterArc arc, double radius) => arc.Below ? radius - _face.CapHeight : radius;

    private double Radius(LetterArc arc, double scale, int line) =>
        (arc.RadiusMm / scale) + (line * (arc.Below ? _spacing : -_spacing));

    private List<PathStep> Straight()
    {
        var steps = new List<PathStep>();
        for (var i = 0; i < _lines.Length; i++)
        {
            var line = Outline(Placed(_lines[i]));
            var box = InkOutline.Box(line);
            if (!box.IsEmpty)
            {
                var start = _request.Align switch
                {
                    LineAlign.Left => box.Left,
                    LineAlign.Right => box.Right,
                    _ => (box.Left + box.Right) / 2,
                };
                steps.AddRange(line.Select(s => Lettering.Steps.Moved(s, new(-start, i * _spacing))));
            }
        }

        return steps;
    }

    /// <summary>Every letter turned to stand upright on the circle at the middle of its advance; the line's middle at the top, or bottom.</summary>
    private List<PathStep> Bent(LetterArc arc, double scale)
    {
        var steps = new List<PathStep>();
        for (var i = 0; i < _lines.Length; i++)
        {
            var radius = Math.Max(Radius(arc, scale, i), 1);
            var middle = _lines[i].Advance / 2;
            var placed = new List<(SKPath Path, double X, double Y)>();
            foreach (var glyph in _lines[i].Glyphs)
            {
                if (_face.Pen.GetGlyphPath(glyph.Glyph) is not { IsEmpty: false } path)
                {
                    continue;
                }

                var turn = (glyph.Middle - middle) / radius;
                var (x, y, degrees) = arc.Below
                    ? (radius * Math.Sin(turn), radius * Math.Cos(turn), -turn * 180 / Math.PI)
                    : (radius * Math.Sin(turn), -radius * Math.Cos(turn), turn * 180 / Math.PI);
                var move = SKMatrix
                    .CreateRotationDegrees((float)degrees)
                    .PreConcat(SKMatrix.CreateTranslation((float)(glyph.X - glyph.Middle), (float)-glyph.Y));
                path.Transform(move);
                placed.Add((path, x, y));
            }

            steps.AddRange(Outline(placed));
        }

        return steps;
    }

    /// <summary>A line's outline in font units, y down.</summary>
    private List<PathStep> Outline(List<(SKPath Path, double X, double Y)> placed)
    {
        var steps = new List<PathStep>();
        foreach (var group in Touching(placed))
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
            Clean &= OutlineUnion.TryUnite(filled, out var united);
            using (united)
            {
                steps.AddRange(InkOutline.Steps(united).Select(s => Lettering.Steps.Moved(s, new(origin.X, origin.Y))));
            }
        }

        return steps;
    }

    private List<(SKPath Path, double X, double Y)> Placed(ShapedLine line)
    {
        var placed = new List<(SKPath, double, double)>();
        foreach (var glyph in line.Glyphs)
        {
            if (_face.Pen.GetGlyphPath(glyph.Glyph) is { IsEmpty: false } path)
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
}
