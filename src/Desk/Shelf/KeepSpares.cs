using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Craft.Sheets;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Sheets;

namespace Coldpeel.Desk.Shelf;

/// <summary>How many of how many pieces a workshop has spoilt, and what its rule for spares makes of it.</summary>
/// <param name="Process">The process.</param>
/// <param name="Material">The material.</param>
/// <param name="Spoilt">Pieces spoilt.</param>
/// <param name="Of">Pieces pressed, spoilt ones among them.</param>
public sealed record OwnRecord(string Process, string Material, int Spoilt, int Of);

/// <summary>How sure the workshop wants to be.</summary>
/// <param name="Percent">Enough copies of a design shall be good in so many of a hundred orders; 0 for no spares.</param>
/// <param name="Always">Whether spares are made even where they cost another sheet.</param>
public sealed record SpareWish(double Percent, bool Always);

/// <summary>Keeps how sure the workshop wants to be of its pieces, and reads its own record.</summary>
public sealed class KeepSpares(OpenedWorkshop workshop)
{
    private const string PercentKey = "spares-percent";
    private const string AlwaysKey = "spares-always";

    /// <summary>What can be wished: no spares, or enough in so many of a hundred orders.</summary>
    public static ImmutableArray<double> Percents { get; } = [0, 80, 90, 95, 99];

    /// <summary>What is wished.</summary>
    public SpareWish Now() =>
        new(
            double.TryParse(workshop.Store.Rooms.Setting(PercentKey), CultureInfo.InvariantCulture, out var percent)
                ? percent
                : 0,
            workshop.Store.Rooms.Setting(AlwaysKey) == "yes"
        );

    /// <summary>Keeps a wish.</summary>
    public Fault? Run(SpareWish wish, string who)
    {
        ArgumentNullException.ThrowIfNull(wish);
        if (!Percents.Contains(wish.Percent))
        {
            return new("The spares", "have no such certainty.", "Choose one of the list.");
        }

        workshop.Store.Rooms.Set(PercentKey, wish.Percent.ToString(CultureInfo.InvariantCulture), workshop.Now, who);
        workshop.Store.Rooms.Set(AlwaysKey, wish.Always ? "yes" : "no", workshop.Now, who);
        return null;
    }

    /// <summary>The workshop's own record by process and material.</summary>
    public ImmutableArray<OwnRecord> Records() =>
        [
            .. workshop
                .Store.Outcomes.Records()
                .Where(r => r.Of > 0)
                .Select(r => new OwnRecord(r.Process, r.Material, r.Spoilt, r.Of)),
        ];

    /// <summary>The rule for orders without a rule of their own; null when no spares are wished.</summary>
    internal SpareRule? Rule() =>
        Now() is { Percent: > 0 } wish
            ? new(wish.Percent / 100, null, null, wish.Always)
            {
                Own = Records()
                    .ToImmutableDictionary(r => (r.Process, r.Material), r => new RejectRecord(r.Spoilt, r.Of)),
            }
            : null;
}
