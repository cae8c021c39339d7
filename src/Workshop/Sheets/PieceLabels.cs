using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Workshop.Sheets;

/// <summary>Short marks that link a piece on the film with the trim map and the ticket: a letter for the design, a running number.</summary>
public sealed class PieceLabels
{
    /// <summary>What stands in the place of a label where the piece lies on the shelf already.</summary>
    public const string FromShelf = "shelf";

    private readonly Dictionary<(string Process, string Piece, int Copy), string> _labels = [];
    private readonly Dictionary<(string Process, string Piece), int> _copies = [];
    private readonly Dictionary<(string Item, int Placement), (string Process, string Piece, int Copy)> _pieces = [];

    /// <summary>Labels for all pieces of a job: A1, A2, … for the first design, B1, … for the second.</summary>
    /// <param name="job">The job.</param>
    /// <param name="items">Its items; each takes the next copy of the pieces it needs.</param>
    /// <param name="processOf">The process of a material.</param>
    public PieceLabels(Job job, ImmutableArray<OneItem> items, Func<string, string> processOf)
    {
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(processOf);
        var letters = job
            .Designs.Select((design, index) => (design.Id, Letter: Letter(index)))
            .ToDictionary(d => d.Id, d => d.Letter);
        var running = job.Designs.ToDictionary(d => d.Id, _ => 0);
        foreach (var item in items)
        {
            var process = processOf(item.Group.Material);
            for (var at = 0; at < item.Pieces.Length; at++)
            {
                var design = item.Group.Placements[at].Design;
                var piece = item.Pieces[at];
                var copy = _copies.GetValueOrDefault((process, piece));
                _copies[(process, piece)] = copy + 1;
                _labels[(process, piece, copy)] =
                    letters[design] + (++running[design]).ToString(CultureInfo.InvariantCulture);
                _pieces[(item.Id, at)] = (process, piece, copy);
            }
        }
    }

    /// <summary>Says that so many copies of a piece, the last ones, come from the shelf: they are on no sheet and have no label.</summary>
    public void TakeFromShelf(string process, string piece, int copies)
    {
        var all = _copies.GetValueOrDefault((process, piece));
        for (var copy = Math.Max(0, all - copies); copy < all; copy++)
        {
            _labels[(process, piece, copy)] = FromShelf;
        }
    }

    /// <summary>Whether a copy comes from the shelf.</summary>
    public bool IsFromShelf((string Process, string Piece, int Copy) piece) =>
        _labels.GetValueOrDefault(piece) == FromShelf;

    /// <summary>The label of one copy of a piece; of a spare that of the first copy, and which spare it is: "C1+2".</summary>
    public string Of(string process, string piece, int copy) =>
        _labels.TryGetValue((process, piece, copy), out var label)
            ? label
            : string.Create(
                CultureInfo.InvariantCulture,
                $"{_labels[(process, piece, 0)]}+{copy - _copies[(process, piece)] + 1}"
            );

    /// <summary>The label of the piece that goes to a placement of an item, counted from 0.</summary>
    public string Of(OneItem item, int placement)
    {
        ArgumentNullException.ThrowIfNull(item);
        return _labels[_pieces[(item.Id, placement)]];
    }

    /// <summary>Which copy of which piece goes to a placement of an item.</summary>
    public (string Process, string Piece, int Copy) PieceOf(OneItem item, int placement)
    {
        ArgumentNullException.ThrowIfNull(item);
        return _pieces[(item.Id, placement)];
    }

    // A, B, … Z, AA, AB, …; I and O are left out, for they read as figures.
    private static string Letter(int index)
    {
        const string Letters = "ABCDEFGHJKLMNPQRSTUVWXYZ";
        return index < Letters.Length
            ? Letters[index].ToString()
            : Letter((index / Letters.Length) - 1) + Letters[index % Letters.Length];
    }
}
