using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Sheets;

namespace Coldpeel.Quality;

/// <summary>Jobs of many copies of few shapes, as clubs order them: six instances of our own, in mm.</summary>
/// <remarks>Shapes are simple outlines drawn here, none of them convex only, so that how they stand together matters.</remarks>
internal static class FewShapes
{
    private static readonly double[] Crest =
    [
        0,
        0,
        22,
        4,
        30,
        0,
        38,
        4,
        60,
        0,
        60,
        34,
        54,
        52,
        42,
        66,
        30,
        74,
        18,
        66,
        6,
        52,
        0,
        34,
    ];

    private static readonly double[] Pennant = [0, 0, 82, 17, 82, 25, 0, 42, 9, 21];

    private static readonly double[] Boathook = [0, 0, 10, 0, 10, 70, 24, 70, 24, 52, 34, 52, 34, 80, 0, 80];

    private static readonly double[] Name =
    [
        0,
        6,
        12,
        6,
        12,
        0,
        18,
        0,
        18,
        6,
        70,
        6,
        70,
        0,
        76,
        0,
        76,
        6,
        96,
        6,
        96,
        22,
        46,
        22,
        46,
        30,
        38,
        30,
        38,
        22,
        0,
        22,
    ];

    private static readonly double[] Seven = [0, 0, 46, 0, 46, 14, 24, 72, 8, 72, 28, 14, 0, 14];

    private static readonly double[] Chevron = [0, 0, 30, 26, 60, 0, 60, 20, 30, 46, 0, 20];

    private static readonly double[] Oar =
    [
        11,
        0,
        17,
        0,
        17,
        58,
        28,
        66,
        28,
        96,
        20,
        102,
        8,
        102,
        0,
        96,
        0,
        66,
        11,
        58,
    ];

    private static readonly double[] Star =
    [
        25,
        0,
        31,
        18,
        50,
        18,
        35,
        29,
        41,
        48,
        25,
        36,
        9,
        48,
        15,
        29,
        0,
        18,
        19,
        18,
    ];

    private static readonly (double Width, double Height) A4 = (210, 297);
    private static readonly (double Width, double Height) A3 = (297, 420);

    /// <summary>The six, by name.</summary>
    public static IReadOnlyList<(string Name, SheetProblem Problem)> All { get; } =
    [
        ("crests", Job(A3, ("crest", 40, Crest))),
        ("names and numbers", Job(A3, ("name", 24, Name), ("number", 24, Seven))),
        ("pennants", Job(A4, ("pennant", 240, Pennant))),
        ("boathooks", Job(A3, ("hook", 300, Boathook))),
        ("oars and stars", Job(A3, ("oar", 120, Oar), ("star", 120, Star))),
        ("chevrons", Job(A4, ("chevron", 200, Chevron), ("crest", 24, Crest))),
    ];

    private static SheetProblem Job(
        (double Width, double Height) paper,
        params (string Id, int Quantity, double[] Points)[] pieces
    ) =>
        new(
            Length.FromMillimetres(3),
            Trim.Scissors,
            Turns.Quarters,
            [new(Mm(paper.Width), Mm(paper.Height), Mm(5), null, 1)],
            [.. pieces.Select(p => new Piece(p.Id, p.Quantity, new([.. Ring(p.Points)], [])))]
        );

    private static IEnumerable<PointMm> Ring(double[] xy) => xy.Chunk(2).Select(p => new PointMm(p[0], p[1]));

    private static Length Mm(double mm) => Length.FromMillimetres(mm);
}
