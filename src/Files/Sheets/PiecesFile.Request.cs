using System.Collections.Immutable;
using Coldpeel.Craft.Sheets;

namespace Coldpeel.Files.Sheets;

/// <summary>What a pieces file asks for: the pieces that must be laid, and those wished for where room is left.</summary>
public sealed record PiecesRequest(SheetProblem Problem, ImmutableArray<Piece> Wish);
