using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Sheets;

/// <summary>How the pieces are cut apart.</summary>
public enum Trim
{
    /// <summary>Round the true shape.</summary>
    Scissors,

    /// <summary>Edge to edge only.</summary>
    Straight,
}

/// <summary>The turns a piece may take on the sheet.</summary>
/// <param name="Degrees">Clockwise turns; when <paramref name="Free"/>, ignored.</param>
/// <param name="Free">Any angle.</param>
public sealed record Turns(ImmutableArray<double> Degrees, bool Free)
{
    /// <summary>The four quarter turns.</summary>
    public static Turns Quarters { get; } = new([0, 90, 180, 270], false);

    /// <summary>Upright only.</summary>
    public static Turns None { get; } = new([0], false);
}

/// <summary>One kind of sheet on the shelf.</summary>
/// <param name="Width">Paper across.</param>
/// <param name="Height">Paper down.</param>
/// <param name="Margin">Border that cannot be printed, on every side.</param>
/// <param name="Count">How many there are; null when as many as needed.</param>
/// <param name="Cost">
/// Relative cost of one, zero or more; equal costs mean fewest sheets. Zero is what is left of a sheet that was started and paid for before.
/// </param>
public sealed record SheetStock(Length Width, Length Height, Length Margin, int? Count, double Cost);

/// <summary>One design to be laid a number of times.</summary>
/// <param name="Id">Its name in the job.</param>
/// <param name="Quantity">Copies.</param>
/// <param name="Outline">What must not meet another piece, in mm of the design's frame.</param>
/// <param name="Turns">Turns this piece may take; null for the problem's.</param>
/// <param name="Order">The order it belongs to, or null.</param>
/// <param name="Due">When the order is due, in seconds; earlier goes on earlier sheets; null when it does not matter.</param>
public sealed record Piece(
    string Id,
    int Quantity,
    Region Outline,
    Turns? Turns = null,
    string? Order = null,
    long? Due = null
);

/// <summary>Pieces to be laid on as few sheets as possible.</summary>
/// <param name="Gap">Least distance between two pieces; pieces may touch the printable border.</param>
/// <param name="Trim">How they are cut apart.</param>
/// <param name="Turns">Turns allowed where the piece says nothing.</param>
/// <param name="Sheets">Kinds of sheet, at least one.</param>
/// <param name="Pieces">What is to be laid.</param>
/// <param name="StripHeight">
/// When set, one strip of this height (its margin and gap as given) whose width is the answer, for comparison with published results;
/// <paramref name="Sheets"/> then gives the margin only.
/// </param>
/// <param name="InRings">Whether pieces may lie in the holes of others; if not, holes count as solid.</param>
public sealed record SheetProblem(
    Length Gap,
    Trim Trim,
    Turns Turns,
    ImmutableArray<SheetStock> Sheets,
    ImmutableArray<Piece> Pieces,
    Length? StripHeight = null,
    bool InRings = true
)
{
    /// <summary>The problem that a search works on: without holes where nothing may lie in them.</summary>
    internal SheetProblem ToSearch() =>
        InRings || Pieces.All(p => p.Outline.Holes.IsDefaultOrEmpty)
            ? this
            : this with
            {
                Pieces = [.. Pieces.Select(p => p with { Outline = new(p.Outline.Outer, []) })],
            };
}

/// <summary>How long and from which chance the search runs.</summary>
public sealed record SheetSearch
{
    /// <summary>Seed: the same seed and problem give the same answer.</summary>
    public required ulong Seed { get; init; }

    /// <summary>How many orders of the pieces are tried, 1 or more; a count, not a time, so that a run can be repeated.</summary>
    public int Trials { get; init; } = 40;

    /// <summary>
    /// How many rounds of pushing overlapping copies apart follow, 0 or more: what makes sheets fewer and strips shorter; a count, as above.
    /// </summary>
    public long Rounds { get; init; }

    /// <summary>
    /// Share of the time allowed that has passed, 0 to 1, where a time limit holds beside the rounds; null where none does. The search asks it
    /// to leave time for its last steps.
    /// </summary>
    public Func<double>? TimeShare { get; init; }

    /// <summary>Whether many copies of one shape are also laid in patterns that repeat; off only to measure what those bring.</summary>
    public bool Lattices { get; init; } = true;

    /// <summary>How many of the two orders of moves that make a round run at once, 1 or 2; the answer is the same.</summary>
    public int Workers { get; init; } = 2;
}
