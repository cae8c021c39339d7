using System.Collections.Immutable;
using Coldpeel.Craft.Sheets;

namespace Coldpeel.Files.Sheets;

/// <summary>What a pieces file asks for: the pieces that must be laid, and those wished for where room is left.</summary>
/// <param name="Problem">What must be laid.</param>
/// <param name="Wish">What is laid where room is left.</param>
/// <param name="Unusable">Pieces and wishes that no sheet can carry as they are described: named here, laid nowhere.</param>
public sealed record PiecesRequest(
    SheetProblem Problem,
    ImmutableArray<Piece> Wish,
    ImmutableArray<UnusablePiece> Unusable
);

/// <summary>A piece whose outline cannot be laid.</summary>
/// <param name="Id">Its name in the file.</param>
/// <param name="Quantity">Copies asked for.</param>
/// <param name="Why">Where, what, and how to mend it, in one line.</param>
/// <param name="Wished">Whether it was only wished for.</param>
public sealed record UnusablePiece(string Id, int Quantity, string Why, bool Wished);
