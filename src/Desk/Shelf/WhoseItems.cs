using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Desk.Press;
using Coldpeel.Workshop.Shelf;

namespace Coldpeel.Desk.Shelf;

/// <summary>Whom items of an order are for.</summary>
/// <param name="tickets">Its tickets.</param>
internal sealed class WhoseItems(ImmutableArray<KeptTicket> tickets)
{
    /// <summary>The name on an item's row; its number where it has none.</summary>
    public string Of(UsedGroup group, int number) =>
        Name(group, number) ?? number.ToString(CultureInfo.InvariantCulture);

    /// <summary>The name on an item's row; null where it has none.</summary>
    public string? Name(UsedGroup group, int number) =>
        tickets
            .FirstOrDefault(t => t.Number == group.Ticket)
            ?.Rows.FirstOrDefault(r => r.Number == number && r.Who.Length > 0)
            ?.Who;
}
