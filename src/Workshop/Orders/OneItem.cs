using System.Collections.Immutable;
using Coldpeel.Workshop.Artwork;

namespace Coldpeel.Workshop.Orders;

/// <summary>One physical thing to be decorated.</summary>
/// <param name="Group">The item group of the job it belongs to.</param>
/// <param name="Number">Which of the group, from 1.</param>
/// <param name="Row">Its row of the roster, or null.</param>
/// <param name="Who">Who it is for, as the roster says; empty without one.</param>
/// <param name="Pieces">The piece that goes to each placement of the group, in their order.</param>
public sealed record OneItem(ItemRequest Group, int Number, RosterRow? Row, string Who, ImmutableArray<string> Pieces)
{
    /// <summary>Its name on plans: group and number.</summary>
    public string Id => $"{Group.Id}-{Number}";
}

/// <summary>The order taken apart into single things.</summary>
public static class OrderItems
{
    /// <summary>Every item of the job, in the job's order, with the pieces it needs.</summary>
    /// <param name="job">The job.</param>
    /// <param name="rosters">The roster of every item group that has one, with as many rows as items.</param>
    /// <remarks>
    /// A piece is a design; lettering that takes columns of a roster becomes one piece an item, named design/group/number.
    /// </remarks>
    public static ImmutableArray<OneItem> Of(Job job, IReadOnlyDictionary<string, Roster> rosters)
    {
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(rosters);
        var personal = job
            .Designs.OfType<DesignRequest.Lettered>()
            .Where(d => LetteringText.Columns(d.Lettering.Text).Any())
            .ToDictionary(d => d.Id, d => d.Lettering.Text);
        return
        [
            .. from item in job.Items
            let roster = rosters.GetValueOrDefault(item.Id)
            from number in Enumerable.Range(1, item.Quantity)
            let row = roster?.Rows[number - 1]
            select new OneItem(
                item,
                number,
                row,
                row is null ? "" : Who(item, row, roster!, personal),
                [
                    .. item.Placements.Select(p =>
                        personal.ContainsKey(p.Design) ? $"{p.Design}/{item.Id}/{number}" : p.Design
                    ),
                ]
            ),
        ];
    }

    // The person is what is written on the item; where nothing of the roster is, the first column names the row.
    private static string Who(ItemRequest item, RosterRow row, Roster roster, Dictionary<string, string> personal)
    {
        var text = item.Placements.Select(p => personal.GetValueOrDefault(p.Design)).FirstOrDefault(t => t is not null);
        return text is null
            ? row.Cells.GetValueOrDefault(roster.Columns[0], "")
            : LetteringText.Fill(text, row).ReplaceLineEndings(" ");
    }
}
