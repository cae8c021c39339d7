namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>Some of the sheets by themselves, with what lies on them: a round costs little there, however many sheets there are.</summary>
internal sealed class SheetGroup
{
    private readonly Copies _all;
    private readonly int[] _chosen;
    private readonly int[] _sheets;

    /// <param name="all">The copies on all sheets.</param>
    /// <param name="lies">Where they lie.</param>
    /// <param name="sizes">Printable length and width of every sheet, in mm.</param>
    /// <param name="sheets">Which sheets.</param>
    /// <param name="chosen">Which copies: those that lie on other sheets do not lie anywhere in the group yet.</param>
    public SheetGroup(Copies all, Lie[] lies, (double X, double Y)[] sizes, int[] sheets, int[] chosen)
    {
        (_all, _sheets, _chosen) = (all, sheets, chosen);
        Board = new(all.Only(chosen), Array.ConvertAll(sheets, s => sizes[s]));
        for (var k = 0; k < chosen.Length; k++)
        {
            var lie = lies[chosen[k]];
            if (Array.IndexOf(sheets, lie.Sheet) is >= 0 and var sheet)
            {
                Board.Put(k, lie with { Sheet = sheet });
            }
        }
    }

    /// <summary>The group as a board: copies and sheets in the order they were given in.</summary>
    public Board Board { get; }

    /// <summary>What share of all copies takes part.</summary>
    public double Share => (double)_chosen.Length / _all.Count;

    /// <summary>The copies that lie on some sheets.</summary>
    public static int[] On(Lie[] lies, params int[] sheets) =>
        [.. Enumerable.Range(0, lies.Length).Where(c => sheets.Contains(lies[c].Sheet))];

    /// <summary>All places, those of the group as its board says.</summary>
    /// <param name="lies">The places of all copies.</param>
    /// <param name="found">Places on the group's board.</param>
    public Lie[] Among(Lie[] lies, Lie[] found)
    {
        Lie[] all = [.. lies];
        for (var k = 0; k < _chosen.Length; k++)
        {
            all[_chosen[k]] = found[k] with { Sheet = _sheets[found[k].Sheet] };
        }

        return all;
    }
}
