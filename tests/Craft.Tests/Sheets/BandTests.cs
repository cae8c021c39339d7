using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Sheets;
using Coldpeel.Craft.Sheets.Search;
using Coldpeel.Craft.Sheets.Search.Lattice;
using Coldpeel.Craft.Sheets.Search.Overlap;
using Coldpeel.Craft.Tests.Geometry;
using CsCheck;
using NetTopologySuite.Geometries;

namespace Coldpeel.Craft.Tests.Sheets;

/// <summary>Straight bands of copies, and rectangles filled with them.</summary>
public sealed class BandTests
{
    private const double ToleranceMm = 0.005;
    private const long LongestMicrometres = 400_000;

    /// <summary>Two right triangles with a side of 30 mm make a square (Euclid I.34): a band of 30 mm with two of them every 30 mm.</summary>
    [Fact]
    public void Triangles_stand_two_by_two_in_a_band_of_their_side()
    {
        var triangle = Region.Of(new(0, 0), new(30, 0), new(0, 30));
        var bands = Bands(Jobs.Job(0, Jobs.Sheet(200, 400), new Piece("triangle", 40, triangle)), out _);
        Assert.InRange(bands.Min(b => (double)b.Width * b.Pitch / b.Lines.Length / 1e6), 449.9, 460);
    }

    /// <summary>Squares of 20 mm with a gap of 2 mm: one every 22 mm.</summary>
    [Fact]
    public void Squares_repeat_at_their_side_and_the_gap()
    {
        var bands = Bands(Jobs.Job(2, Jobs.Sheet(200, 400), new Piece("square", 40, Jobs.Box(20, 20))), out _);
        Assert.All(bands, b => Assert.InRange(b.Pitch, 22_000, 22_020));
        Assert.All(bands, b => Assert.Equal(20_000 * b.Lines.Length, b.Width, 2_100L));
    }

    [Fact]
    public void Bands_keep_the_gap_and_their_width_by_an_independent_library() =>
        Gen.Select(Outlines.Star, Gen.Double[0.5, 4])
            .Sample(
                (outline, gap) =>
                {
                    var bands = Bands(Jobs.Job(gap, Jobs.Sheet(240, 400), new Piece("star", 60, outline)), out _);
                    Assert.NotEmpty(bands);
                    foreach (var band in bands)
                    {
                        var spots = band.On(LongestMicrometres, 0, 0).ToList();
                        Assert.Equal(band.Count(LongestMicrometres), spots.Count);
                        Sound(
                            outline,
                            spots,
                            gap,
                            band.Across ? (band.Width, LongestMicrometres) : (LongestMicrometres, band.Width)
                        );
                    }
                },
                iter: 60
            );

    [Fact]
    public void A_filled_rectangle_keeps_the_gap_and_holds_no_more_than_is_wanted() =>
        Gen.Select(
                Outlines.Star,
                Gen.Double[0.5, 4],
                Gen.Int[1, 40],
                Gen.Long[60_000, 260_000],
                Gen.Long[60_000, 360_000]
            )
            .Sample(
                (outline, gap, wanted, u, v) =>
                {
                    var bands = Bands(
                        Jobs.Job(gap, Jobs.Sheet(400, 400), new Piece("star", wanted, outline)),
                        out var step
                    );
                    var fill = new BandFill(bands, new Dictionary<int, int> { [0] = wanted }, _ => 1, step);
                    var spots = fill.Spots(u, v);
                    Assert.True(spots.Count <= wanted);
                    Assert.True(spots.Count == wanted || !fill.HoldsAll(u, v));
                    Sound(outline, spots, gap, (u, v));
                },
                iter: 60
            );

    /// <summary>Squares of 30 mm without a gap: seven by five of them lie on 210 by 150 mm, as counting tells.</summary>
    [Fact]
    public void Squares_fill_a_rectangle_of_their_multiples()
    {
        var bands = Bands(Jobs.Job(0, Jobs.Sheet(300, 400), new Piece("square", 99, Jobs.Box(30, 30))), out _);
        // Contours are drawn a third of a micrometre smaller where there is no gap, pitches found to five.
        var fill = new BandFill(bands, new Dictionary<int, int> { [0] = 99 }, _ => 1, 0);
        Assert.Equal(35, fill.Spots(210_250, 150_250).Count);
    }

    /// <summary>
    /// Boxes of 60 × 20 and 30 × 30 mm on 90 × 60 mm: by hand, three of the long ones fill 60 × 60 and two of the others the rest;
    /// no filling is worth more, for nothing is left of the area.
    /// </summary>
    [Fact]
    public void Two_shapes_share_a_rectangle_without_waste()
    {
        var problem = Jobs.Job(
            0,
            Jobs.Sheet(300, 400),
            new Piece("long", 9, Jobs.Box(60, 20)),
            new Piece("square", 2, Jobs.Box(30, 30))
        );
        var bands = Bands(problem, out _);
        double Worth(int shape) => shape == 0 ? 1200 : 900;
        var fill = new BandFill(bands, new Dictionary<int, int> { [0] = 9, [1] = 2 }, Worth, 0);
        // A little more than the sum, as bands begin on a grid of a millimetre.
        var spots = fill.Spots(93_000, 63_000);
        Assert.Equal(5400, spots.Sum(s => Worth(s.Piece)));
    }

    private static List<Band> Bands(SheetProblem problem, out long gap)
    {
        var book = new FormBook(problem);
        gap = problem.Gap.Micrometres;
        var finder = new BandFinder(book, new ContourBook(problem, book), gap);
        return [.. Enumerable.Range(0, problem.Pieces.Length).SelectMany(finder.Of)];
    }

    private static void Sound(Region outline, IReadOnlyList<Spot> spots, double gap, (long U, long V) room)
    {
        var paper = new Envelope(
            -ToleranceMm,
            (room.V / 1000.0) + ToleranceMm,
            -ToleranceMm,
            (room.U / 1000.0) + ToleranceMm
        );
        Assert.All(
            LaidSpots.KeepingTheGap(outline, spots, gap),
            s => Assert.True(paper.Contains(s.EnvelopeInternal), $"{s.EnvelopeInternal} is beyond {paper}.")
        );
    }
}
