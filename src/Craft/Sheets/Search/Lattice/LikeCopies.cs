namespace Coldpeel.Craft.Sheets.Search.Lattice;

/// <summary>Copies of one shape: of one piece, or of several whose outlines and turns are the same.</summary>
/// <param name="Shape">The first of the pieces, which stands for all in a tile.</param>
/// <param name="Pieces">A piece for every copy, in the order in which they are to be laid.</param>
internal sealed record LikeCopies(int Shape, int[] Pieces)
{
    /// <summary>All shapes of a job, those with the most film first.</summary>
    /// <param name="problem">The job.</param>
    /// <param name="book">Its forms.</param>
    /// <param name="copies">How many copies of each piece are laid.</param>
    public static List<LikeCopies> Of(SheetProblem problem, FormBook book, IReadOnlyList<int> copies) =>
        [
            .. Enumerable
                .Range(0, problem.Pieces.Length)
                .Where(p => copies[p] > 0)
                .GroupBy(p => string.Join(' ', book.Ways[p].Select(w => w.Form.Index)))
                .Select(group => new LikeCopies(
                    group.First(),
                    [
                        .. group
                            .OrderBy(p => problem.Pieces[p].Due ?? long.MaxValue)
                            .SelectMany(p => Enumerable.Repeat(p, copies[p])),
                    ]
                ))
                .OrderByDescending(like => like.Pieces.Length * Hull(book, like.Shape))
                .ThenBy(like => like.Shape),
        ];

    private static double Hull(FormBook book, int piece) =>
        book.Ways[piece].Min(w => (double)w.Form.ExtentU * w.Form.ExtentV);
}
