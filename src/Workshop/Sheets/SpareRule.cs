using System.Collections.Immutable;
using Coldpeel.Craft.Sheets;

namespace Coldpeel.Workshop.Sheets;

/// <summary>How many spares a workshop makes.</summary>
/// <param name="Probability">With what probability enough copies of a design shall be good, 0 to below 1.</param>
/// <param name="RejectRate">Share of prints that is spoilt; null when <paramref name="Record"/> tells.</param>
/// <param name="Record">So many spoilt of so many; null when the rate is known.</param>
/// <param name="Always">Whether spares are made even where they cost another sheet; else only where room is left.</param>
public sealed record SpareRule(double Probability, double? RejectRate, RejectRecord? Record, bool Always)
{
    /// <summary>
    /// What is taken for granted before a process and material has a record of its own: so many prints, spoilt as often as the price list reckons. Our choice, no source;
    /// with the workshop's own prints it soon weighs nothing. Jeffreys' prior alone (half of all prints spoilt, on the mean) would ask a new workshop for hundreds.
    /// </summary>
    public const int PriorPrints = 20;

    /// <summary>The workshop's own record by process and material; empty where the rule's own figures hold.</summary>
    public ImmutableDictionary<(string Process, string Material), RejectRecord> Own { get; init; } =
        ImmutableDictionary<(string, string), RejectRecord>.Empty;

    /// <summary>What is taken for granted and counted on top of every record of <see cref="Own"/>.</summary>
    public RejectRecord Prior { get; init; }

    /// <summary>What is taken for granted with a price list that reckons with so many per cent spoilt: never less than one in <see cref="PriorPrints"/>.</summary>
    public static RejectRecord PriorOf(decimal spoilagePercent) =>
        new((int)Math.Clamp(decimal.Ceiling(spoilagePercent * PriorPrints / 100), 1, PriorPrints), PriorPrints);

    /// <summary>The spares for so many copies of a design that are pressed on these materials; with several, those of the worst record.</summary>
    /// <param name="needed">Copies needed, 0 or more.</param>
    /// <param name="process">The process.</param>
    /// <param name="materials">What they are pressed on.</param>
    public int For(int needed, string process, IEnumerable<string> materials)
    {
        ArgumentNullException.ThrowIfNull(materials);
        return Record is not null || RejectRate is not null
            ? For(needed)
            : materials
                .Distinct()
                .Select(m => Spares.Needed(needed, Probability, RecordOf(process, m)))
                .DefaultIfEmpty(0)
                .Max();
    }

    /// <summary>What the spares of a process and material rest on: the own record and what is taken for granted.</summary>
    public RejectRecord RecordOf(string process, string material)
    {
        var own = Own.GetValueOrDefault((process, material));
        return new(own.Rejects + Prior.Rejects, own.Of + Prior.Of);
    }

    /// <summary>The spares for so many copies of a design.</summary>
    public int For(int needed) =>
        Record is { } record ? Spares.Needed(needed, Probability, record)
        : RejectRate is { } rate ? Spares.Needed(needed, Probability, rate)
        : 0;
}
