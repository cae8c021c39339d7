using System.Globalization;

namespace Coldpeel.Workshop.Shelf;

/// <summary>A piece that was lost, with the item it belonged to: outcomes are kept under it, so that what is made again is the right item.</summary>
/// <param name="Group">The items' name in the order; empty in what earlier versions kept.</param>
/// <param name="Number">Which of them, from 1; 0 where only their number is known.</param>
/// <param name="Piece">The piece.</param>
public sealed record LostPiece(string Group, int Number, string Piece)
{
    /// <summary>As it is kept: "GROUP#NUMBER|PIECE". Names in a job hold neither sign.</summary>
    public string Text =>
        Group.Length == 0
            ? Piece
            : string.Create(CultureInfo.InvariantCulture, $"{Group}#{(Number > 0 ? Number : "")}|{Piece}");

    /// <summary>Reads what is kept; what an earlier version kept is the piece alone.</summary>
    public static LostPiece Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var bar = text.IndexOf('|', StringComparison.Ordinal);
        var mark = bar < 0 ? -1 : text.LastIndexOf('#', bar);
        return mark <= 0
            ? new("", 0, text)
            : new(
                text[..mark],
                int.TryParse(text[(mark + 1)..bar], NumberStyles.None, CultureInfo.InvariantCulture, out var number)
                    ? number
                    : 0,
                text[(bar + 1)..]
            );
    }
}
