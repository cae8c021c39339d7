using System.Text.Json;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Files.Artwork;
using Coldpeel.Files.Artwork.Fonts;
using Coldpeel.Files.Artwork.Lettering;
using Coldpeel.Workshop.Artwork;

namespace Coldpeel.Files.Tests.Artwork;

/// <summary>Arcs, outlines, widths and lines by arithmetic; spaces between letters by hb-shape (HarfBuzz's own program).</summary>
public sealed class LetteringLayoutTests : IDisposable
{
    private readonly FontFace inter = FontShelf.OpenOnly([]).Find("Inter", null, "test").Value!;

    public void Dispose() => inter.Dispose();

    private static LetteringRequest At(double heightMm, double tracking = 0, double? most = null) =>
        new("", "Inter", heightMm, tracking, most);

    /// <summary>Corners of every letter, contour by contour: a capital I is a rectangle.</summary>
    private static List<List<PointMm>> Contours(SetLettering set)
    {
        var contours = new List<List<PointMm>>();
        foreach (var step in set.Path.Steps)
        {
            if (step.Move == PathMove.Start)
            {
                contours.Add([]);
            }

            if (step.Move != PathMove.Close)
            {
                contours[^1].Add(step.End);
            }
        }

        return contours.ConvertAll(c => c.Distinct().ToList());
    }

    private static PointMm Middle(PointMm a, PointMm b) => new((a.X + b.X) / 2, (a.Y + b.Y) / 2);

    private static double Far(PointMm a, PointMm b) => Math.Sqrt(Math.Pow(a.X - b.X, 2) + Math.Pow(a.Y - b.Y, 2));

    /// <summary>The circle through three points.</summary>
    private static (PointMm Centre, double Radius) Circle(PointMm a, PointMm b, PointMm c)
    {
        var d = 2 * ((a.X * (b.Y - c.Y)) + (b.X * (c.Y - a.Y)) + (c.X * (a.Y - b.Y)));
        double Sq(PointMm p) => (p.X * p.X) + (p.Y * p.Y);
        var centre = new PointMm(
            ((Sq(a) * (b.Y - c.Y)) + (Sq(b) * (c.Y - a.Y)) + (Sq(c) * (a.Y - b.Y))) / d,
            ((Sq(a) * (c.X - b.X)) + (Sq(b) * (a.X - c.X)) + (Sq(c) * (b.X - a.X))) / d
        );
        return (centre, Far(centre, a));
    }

    [Theory]
    [InlineData(60, false)]
    [InlineData(60, true)]
    [InlineData(25, false)]
    [InlineData(140, true)]
    public void Letters_on_an_arc_stand_with_their_feet_on_the_circle_and_their_heads_along_its_radius(
        double radius,
        bool below
    )
    {
        var set = LetteringSetter.Set(inter, At(10) with { Arc = new(radius, below) }, "IIIIIII");
        Assert.Null(set.Note);
        var letters = Contours(set);
        Assert.Equal(7, letters.Count);
        Assert.All(letters, l => Assert.Equal(4, l.Count));
        // Two ends of each letter: of the letter in the middle the foot is the lower one.
        var ends = letters.ConvertAll(Ends);
        var sorted = ends.OrderBy(e => e.Foot.X).ToList();
        var (centre, r) = Circle(sorted[0].Foot, sorted[3].Foot, sorted[6].Foot);
        Assert.Equal(radius, r, 0.02);
        Assert.Equal(below, centre.Y < sorted[3].Foot.Y);
        Assert.All(sorted, e => Assert.Equal(radius, Far(centre, e.Foot), 0.02));
        Assert.All(sorted, e => Assert.Equal(radius + (below ? -10 : 10), Far(centre, e.Head), 0.02));
        // The arc between two letters is the advance of an I: straight text tells it.
        var straight = Contours(LetteringSetter.Set(inter, At(10), "II"));
        var advance = straight[1].Min(p => p.X) - straight[0].Min(p => p.X);
        for (var i = 1; i < sorted.Count; i++)
        {
            Assert.Equal(advance, 2 * radius * Math.Asin(Far(sorted[i].Foot, sorted[i - 1].Foot) / 2 / radius), 0.02);
        }
    }

    /// <summary>The middles of the two short sides; the foot is the lower one, as on any arc of less than half a circle.</summary>
    private static (PointMm Foot, PointMm Head) Ends(List<PointMm> corners)
    {
        var (a, b) =
            Far(corners[0], corners[1]) < Far(corners[1], corners[2])
                ? (Middle(corners[0], corners[1]), Middle(corners[2], corners[3]))
                : (Middle(corners[1], corners[2]), Middle(corners[3], corners[0]));
        return a.Y > b.Y ? (a, b) : (b, a);
    }

    [Fact]
    public void A_second_line_over_the_top_stands_inside_and_along_the_bottom_outside()
    {
        foreach (var (below, radius) in new[] { (false, 80 - 15.0), (true, 80 + 15.0) })
        {
            var spacing = 15 / (10 / inter.CapHeight * inter.LineHeight) * 100;
            var request = At(10) with { Arc = new(80, below), LineSpacingPercent = spacing };
            var both = Contours(LetteringSetter.Set(inter, request, "III\nIII")).ConvertAll(Ends);
            var (centre, r) = Circle(both[0].Foot, both[1].Foot, both[2].Foot);
            Assert.Equal(80, r, 0.03);
            Assert.All(both[3..], e => Assert.Equal(radius, Far(centre, e.Foot), 0.03));
        }
    }

    [Fact]
    public void Text_too_long_for_its_circle_is_set_smaller_and_says_so()
    {
        var set = LetteringSetter.Set(
            inter,
            At(20) with
            {
                Arc = new(20, false),
            },
            "ALL ROUND THE HOUSES AND BACK AGAIN"
        );
        Assert.InRange(set.CapHeightMm, 1, 8);
        Assert.Contains("keeps to its circle", set.Note!.English, StringComparison.Ordinal);
        Assert.InRange(set.WidthMm, 40, 2 * (20 + set.CapHeightMm) + 0.1);
    }

    [Theory]
    [InlineData("Ida", 50.0)]
    [InlineData("Wilhelmina Ottilie", 50.0)]
    public void Text_that_fills_a_width_is_as_wide_straight_or_on_an_arc(string text, double width)
    {
        var fill = At(10, most: width) with { FillWidth = true };
        var straight = LetteringSetter.Set(inter, fill, text);
        Assert.Equal(width, straight.WidthMm, 1e-6);
        Assert.Contains("mm", straight.Note!.English, StringComparison.Ordinal);
        Assert.Equal(width, LetteringSetter.Set(inter, fill with { Arc = new(60, false) }, text).WidthMm, 0.01);
        var ringed = LetteringSetter.Set(inter, fill with { Ring = new(1, false) }, text);
        Assert.Equal(width, ringed.WidthMm, 0.02);
    }

    [Fact]
    public void A_ring_round_a_letter_has_the_area_of_its_width_along_the_edge_and_round_corners()
    {
        // A capital I is a rectangle, w × h: round it lie 2 t (w + h) and four quarter discs of radius t.
        var full = LetteringSetter.Set(inter, At(20), "I");
        var ring = LetteringSetter.Set(inter, At(20) with { Ring = new(1.5, false) }, "I");
        Assert.Equal(full.WidthMm + 3, ring.WidthMm, 0.01);
        Assert.Equal(full.HeightMm + 3, ring.HeightMm, 0.01);
        Assert.Equal((2 * 1.5 * (full.WidthMm + full.HeightMm)) + (Math.PI * 1.5 * 1.5), Area(ring), 0.05);
    }

    [Fact]
    public void A_ring_within_a_letter_leaves_its_size_and_opens_its_inside()
    {
        var full = LetteringSetter.Set(inter, At(20), "I");
        var ring = LetteringSetter.Set(inter, At(20) with { Ring = new(0.6, true) }, "I");
        Assert.Equal(full.WidthMm, ring.WidthMm, 0.005);
        Assert.Equal(full.HeightMm, ring.HeightMm, 0.005);
        Assert.Equal((full.WidthMm * full.HeightMm) - ((full.WidthMm - 1.2) * (full.HeightMm - 1.2)), Area(ring), 0.05);
    }

    [Fact]
    public void Every_dot_of_a_ring_lies_within_its_width_of_the_letters_and_outside_them()
    {
        var full = LetteringSetter.Set(inter, At(15), "Åg&");
        var ring = LetteringSetter.Set(inter, At(15) with { Ring = new(1, false) }, "Åg&");
        const double Dpm = 20;
        var path = full.Path.Map(p => new(p.X + 1, p.Y + 1));
        var letters = InkRaster.Fill(path, ring.WidthMm, ring.HeightMm, Dpm);
        var drawn = InkRaster.Fill(ring.Path, ring.WidthMm, ring.HeightMm, Dpm);
        var marks = letters.Coverage.Select(c => (byte)(c >= 128 ? 1 : 0)).ToArray();
        var grown = Morphology.Grow(marks, letters.Width, letters.Height, 1 * Dpm);
        var off = drawn.Coverage.Where((c, i) => c >= 128 != (grown[i] != 0 && marks[i] == 0)).Count();
        // Dots on the line itself fall either way.
        Assert.InRange(off, 0, 0.03 * drawn.Coverage.Count(c => c >= 128));
    }

    private static double Area(SetLettering set) =>
        Ink.AreaMm2(InkRaster.Fill(set.Path, set.WidthMm, set.HeightMm, 40));

    [Theory]
    [InlineData(LineAlign.Left)]
    [InlineData(LineAlign.Right)]
    [InlineData(LineAlign.Centre)]
    public void Lines_stand_to_each_other_as_asked(LineAlign align)
    {
        var letters = Contours(LetteringSetter.Set(inter, At(10) with { Align = align }, "IIII\nI"));
        var first = BoxMm.Around(letters[..4].SelectMany(l => l));
        var second = BoxMm.Around(letters[4]);
        var (one, two) = align switch
        {
            LineAlign.Left => (first.Left, second.Left),
            LineAlign.Right => (first.Right, second.Right),
            _ => (first.Left + first.Right, second.Left + second.Right),
        };
        Assert.Equal(one, two, 1e-3);
    }

    [Fact]
    public void Line_spacing_moves_lines_by_its_percent_and_nothing_else()
    {
        double Height(double percent) =>
            LetteringSetter.Set(inter, At(10) with { LineSpacingPercent = percent }, "I\nI").HeightMm;
        // A capital is 10 mm high: what is left is the distance of the feet.
        Assert.Equal(2 * (Height(100) - 10), Height(200) - 10, 0.02);
        Assert.Equal(0.8 * (Height(100) - 10), Height(80) - 10, 0.02);
    }

    [Theory]
    [InlineData("Inter", "Wilhelmina", 8)]
    [InlineData("DejaVu Sans", "Office AVATAR", 15)]
    [InlineData("Noto Sans", "Жанна Ω", -3)]
    public void Tracked_letters_stand_where_hb_shape_puts_them_and_the_tracking_between(
        string font,
        string word,
        double percent
    )
    {
        using var face = LetteringFonts.Face(font);
        var tracking = percent / 100 * face.CapHeight;
        var said = Drawings.Run(
            "hb-shape",
            "--output-format=json",
            "--no-glyph-names",
            "--language=und",
            "--features=-liga,-clig",
            LetteringFonts.PathOf(font),
            word
        );
        var ours = LineShaper.Shape(face, word, tracking).Glyphs;
        var theirs = JsonDocument.Parse(said).RootElement.EnumerateArray().ToArray();
        Assert.Equal(theirs.Length, ours.Count);
        var x = 0.0;
        for (var i = 0; i < ours.Count; i++)
        {
            var advance = theirs[i].GetProperty("ax").GetInt32();
            Assert.Equal(x + (i * tracking) + theirs[i].GetProperty("dx").GetInt32(), ours[i].X, 1e-6);
            Assert.Equal(x + (i * tracking) + (advance / 2.0), ours[i].Middle, 1e-6);
            x += advance;
        }
    }
}
