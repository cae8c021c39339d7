using System.Collections.Immutable;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Sheets;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Sheets;
using Coldpeel.Workshop.Shelf;

namespace Coldpeel.Desk.Shelf;

/// <summary>What the shelf gives to an order as it is made.</summary>
/// <param name="Started">Started sheets.</param>
/// <param name="Spares">The rule for spares where the workshop file has none; null for none.</param>
/// <param name="Transfers">How many bonded transfers of each role are to be used instead of being printed.</param>
internal sealed record ShelfGives(
    ImmutableArray<StartedSheet> Started,
    SpareRule? Spares,
    ImmutableDictionary<string, int> Transfers
)
{
    /// <summary>The workshop with its started sheets and its spares.</summary>
    public WorkshopBook In(WorkshopBook book) =>
        book with
        {
            Remnants =
            [
                .. book.Remnants,
                // A sheet of a process that this workshop file does not know is no sheet to it.
                .. Started.Where(s => book.Processes.Any(p => p.Id == s.Process)),
            ],
            Spares =
                book.Spares
                ?? (Spares is { } rule ? rule with { Prior = SpareRule.PriorOf(book.Prices.SpoilagePercent) } : null),
        };

    /// <summary>How many copies of a design the shelf gives.</summary>
    public int Take(Design design, string process) =>
        Transfers.IsEmpty ? 0 : Transfers.GetValueOrDefault(StockRole.Transfer(PrintOf(design), process));

    /// <summary>SHA-256 of what prints: the plane dot by dot, its size and its resolution.</summary>
    public static string PrintOf(Design design)
    {
        var plane = design.Plane;
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        double[] form = [plane.Width, plane.Height, plane.DotsPerMm];
        hash.AppendData(MemoryMarshal.AsBytes(form.AsSpan()));
        hash.AppendData(plane.Coverage);
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    /// <summary>What the shelf of a workshop gives now.</summary>
    /// <param name="workshop">The workshop.</param>
    /// <param name="transfers">Transfers that an order is to use, by role.</param>
    public static ShelfGives Of(OpenedWorkshop workshop, ImmutableDictionary<string, int> transfers) =>
        new(
            [
                .. workshop
                    .Store.Shelf.Beginning(StockRole.StartedBegins)
                    .Select(s => (StockRole.StartedOf(s.Role), Count: (int)s.Count))
                    .Where(s => s is { Item1: not null, Count: > 0 })
                    .Select(s => new StartedSheet(
                        new SheetStock(
                            Length.FromMillimetres(s.Item1!.Value.WidthMm),
                            Length.FromMillimetres(s.Item1.Value.HeightMm),
                            Length.FromMillimetres(s.Item1.Value.MarginMm),
                            s.Count,
                            0
                        ),
                        s.Item1.Value.Process
                    )),
            ],
            new KeepSpares(workshop).Rule(),
            transfers
        );
}
