namespace Coldpeel.Desk.Orders;

/// <summary>Which version of an order it is, and whose content it has.</summary>
/// <param name="Number">Its number, from 1; each change of the order makes the next.</param>
/// <param name="ContentOf">The version whose content it has: an earlier one where that was put back, else itself.</param>
public sealed record OrderVersion(int Number, int ContentOf)
{
    /// <summary>How the history begins what it says of a version that was put back; earlier versions did not number them.</summary>
    private static readonly string[] PutBack =
    [
        "made again: the content of version ",
        "made again: as it was before the change of ",
    ];

    /// <summary>The versions of an order, the oldest first; the last one holds.</summary>
    public static IReadOnlyList<OrderVersion> All(OpenedWorkshop workshop, string name)
    {
        ArgumentNullException.ThrowIfNull(workshop);
        var versions = new List<OrderVersion> { new(1, 1) };
        foreach (var what in workshop.Store.History.Replacements("order", name))
        {
            // What is put back is always the one before.
            var isBack = versions.Count > 1 && PutBack.Any(b => what.StartsWith(b, StringComparison.Ordinal));
            versions.Add(new(versions.Count + 1, isBack ? versions[^2].ContentOf : versions.Count + 1));
        }

        return versions;
    }
}
