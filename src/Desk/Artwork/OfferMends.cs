using System.Collections.Immutable;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Shelf;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Artwork;

/// <summary>What mends would do to a design of a kept order; nothing is changed yet.</summary>
/// <param name="Order">The order.</param>
/// <param name="Design">The design.</param>
/// <param name="Mends">The mends by their words, in the order in which they are made.</param>
/// <param name="Version">What the order was made of when this was offered: mends are only taken on the same.</param>
/// <param name="Before">The design as it is.</param>
/// <param name="After">The design with its mends.</param>
/// <param name="Steps">Every mend, with what it changed.</param>
/// <param name="Changes">Whether any of them changed anything.</param>
public sealed record ShownMends(
    string Order,
    string Design,
    ImmutableArray<string> Mends,
    string Version,
    DesignFigures Before,
    DesignFigures After,
    ImmutableArray<MendStep> Steps,
    bool Changes
)
{
    internal byte[] PreviewPng { get; init; } = [];

    internal byte[] PlanePng { get; init; } = [];

    /// <summary>Width at which the plane is read back dot for dot: its whole dots, cut to a micrometre so that none is added.</summary>
    internal double PlaneWidthMm { get; init; }
}

/// <summary>A design in figures.</summary>
/// <param name="WidthMm">Across.</param>
/// <param name="HeightMm">Down.</param>
/// <param name="InkMm2">Toner, in mm².</param>
/// <param name="Findings">What is found on it, worst first.</param>
public sealed record DesignFigures(double WidthMm, double HeightMm, double InkMm2, ImmutableArray<Finding> Findings);

/// <summary>Shows what mends would do to a design of a kept order.</summary>
public sealed class OfferMends(OpenedWorkshop workshop)
{
    /// <summary>Figures of before and after.</summary>
    /// <param name="order">The order.</param>
    /// <param name="design">The design.</param>
    /// <param name="mends">Words of <see cref="MendWord"/>.</param>
    /// <param name="stop">Cancels waiting.</param>
    public Outcome<ShownMends> Run(
        string order,
        string design,
        IReadOnlyCollection<string> mends,
        CancellationToken stop
    )
    {
        ArgumentNullException.ThrowIfNull(mends);
        if (mends.Count == 0)
        {
            return new Fault("The mends", "name none.", "Choose at least one mend.");
        }

        if (Version(workshop, order) is not { } version)
        {
            return new RemakeOrder(workshop).Source(order).Fault
                ?? throw new InvalidOperationException("An order with a source has a version.");
        }

        var key = string.Join('\n', [order, version, design, .. mends.Order(StringComparer.Ordinal)]);
        if (workshop.Offers.Find(key) is { } known)
        {
            return known;
        }

        // A mend takes all the machine has, as making does: one at a time.
        workshop.Making.Wait(stop);
        try
        {
            var source = new RemakeOrder(workshop).Source(order);
            if (!source.Ok)
            {
                return source.Fault;
            }

            var shown = Offer(order, design, mends, version, source.Value, new OwnBook(workshop).For(source.Value));
            if (shown.Ok)
            {
                workshop.Offers.Keep(key, shown.Value);
            }

            return shown;
        }
        finally
        {
            workshop.Making.Release();
        }
    }

    /// <summary>The picture of before and after; null when these mends cannot be shown.</summary>
    public byte[]? Picture(string order, string design, IReadOnlyCollection<string> mends, CancellationToken stop)
    {
        var shown = Run(order, design, mends, stop);
        return shown.Ok ? shown.Value.PreviewPng : null;
    }

    /// <summary>Changes whenever what the order is made of does; null when nothing is kept that it is made of.</summary>
    internal static string? Version(OpenedWorkshop workshop, string order) =>
        workshop.Store.Order(order) is { } kept && kept.Files.Any(f => OrderSource.IsPart(f.Name))
            ? kept.Job.MadeAt.ToUnixTimeMilliseconds().ToString(System.Globalization.CultureInfo.InvariantCulture)
            : null;

    private static Outcome<ShownMends> Offer(
        string order,
        string design,
        IReadOnlyCollection<string> mends,
        string version,
        OrderSource source,
        WorkshopBook usual
    ) =>
        SourceFolder.With<ShownMends>(
            source,
            path =>
            {
                var opened = OpenJob.Run(path, usual);
                if (!opened.Ok)
                {
                    return opened.Fault;
                }

                var (job, book, folder, _, _) = opened.Value;
                var made = MendDesign.Run(new(job, book, folder, design, [.. mends]));
                if (!made.Ok)
                {
                    return made.Fault;
                }

                var offer = made.Value;
                var after = offer.Mended.Design;
                return new ShownMends(
                    order,
                    design,
                    [.. offer.Mended.Steps.Select(s => s.Mend)],
                    version,
                    new(offer.Before.WidthMm, offer.Before.HeightMm, offer.Before.InkMm2, offer.FoundBefore),
                    new(after.WidthMm, after.HeightMm, after.InkMm2, offer.Mended.Findings),
                    offer.Mended.Steps,
                    offer.Mended.Steps.Any(s => s.Places > 0)
                )
                {
                    PreviewPng = offer.PreviewPng,
                    PlanePng = offer.PlanePng,
                    PlaneWidthMm = Math.Floor(1000 * after.Plane.Width / after.Plane.DotsPerMm) / 1000,
                };
            }
        );
}
