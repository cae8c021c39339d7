using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;
using Coldpeel.Desk.Artwork;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Desk.Orders;

/// <summary>Everything the owner must know of a job, worst first, with what was accepted by name.</summary>
internal sealed record Judged(ImmutableArray<Finding> Findings);

/// <summary>Judges items, designs, places and fabrics of a job.</summary>
internal static class JudgeJob
{
    public static Outcome<Judged> Run(
        Job job,
        WorkshopBook book,
        ImmutableArray<OneItem> items,
        PreparedDesigns prepared,
        IReadOnlyList<string> accept
    )
    {
        var found = new List<Finding>(Cautions.For(job, book));
        found.AddRange(prepared.Findings);
        found.AddRange(RosterJudge.Judge(job, items));
        foreach (var (id, design) in prepared.Designs)
        {
            var lettered = job.Designs.First(d => d.Id == id.Split('/')[0]) is DesignRequest.Lettered;
            found.AddRange(DesignJudge.Judge(design, LimitsFor(job, book, id), Named(id, items), lettered));
        }

        foreach (var item in job.Items)
        {
            var fabric = FabricColour.Read(item.Colour)!.Value;
            var (deltaE, contrast) = FabricCheck.WhiteShows(fabric);
            found.AddRange(FabricJudge.Judge(item, fabric, deltaE, contrast, book));
            var rules = item.Placements.Select(p => book.Placements.First(r => r.Name == p.At)).ToArray();
            var printed = rules.Select((_, at) => Printed(items, item, prepared, at)).ToArray();
            found.AddRange(HeatJudge.Judge(item, [.. rules.Zip(printed, AsPrinted)], book));
            for (var at = 0; at < rules.Length; at++)
            {
                var asked = job.Designs.First(d => d.Id == item.Placements[at].Design);
                var worst = printed[at];
                found.AddRange(worst.SelectMany(d => PlacementJudge.Judge(d, asked, item, rules[at], book)));
                var material = book.Materials.First(m => m.Id == item.Material);
                if (material.EdgeMmPerCm2 is not null)
                {
                    found.AddRange(worst.Select(d => Stretch(item, d, material)).OfType<Finding>());
                }
            }
        }

        var acceptances = new List<Acceptance>();
        foreach (var text in accept)
        {
            var parsed = Acceptance.Parse(text);
            if (!parsed.Ok)
            {
                return parsed.Fault;
            }

            acceptances.Add(parsed.Value);
        }

        return new Judged(WorstFirst.Order(Acceptance.Apply([.. found], acceptances)));
    }

    // The designs that a group's items carry at a place, each once.
    private static Design[] Printed(
        ImmutableArray<OneItem> items,
        ItemRequest item,
        PreparedDesigns prepared,
        int at
    ) =>
        [
            .. items
                .Where(i => i.Group.Id == item.Id)
                .Select(i => prepared.Designs.GetValueOrDefault(i.Pieces[at]))
                .OfType<Design>()
                .DistinctBy(d => d.Id),
        ];

    // The place with the room that is truly printed there, not the most that may be.
    private static PlacementRule AsPrinted(PlacementRule rule, Design[] printed) =>
        printed.Length == 0
            ? rule
            : rule with
            {
                MaxWidthMm = printed.Max(d => d.WidthMm),
                MaxHeightMm = printed.Max(d => d.HeightMm),
            };

    private static Finding? Stretch(ItemRequest item, Design design, Material material)
    {
        var (mmPerCm2, at) = EdgeDensity.Busiest(design.Plane);
        return StretchJudge.Judge(item, design.Id, material, mmPerCm2, at);
    }

    // A lettering of one's own is told by whose it is, as on the ticket; its number means nothing to the reader.
    private static Sentence Named(string piece, ImmutableArray<OneItem> items) =>
        piece.Split('/') is [var design, ..] parts
        && parts.Length > 1
        && items.FirstOrDefault(i => i.Pieces.Contains(piece)) is { } item
            ? (Sentence)$"{design} of {item.Group.What} {item.Number} ({item.Who})"
            : $"{piece}";

    private static ProcessLimits LimitsFor(Job job, WorkshopBook book, string piece)
    {
        var design = piece.Split('/')[0];
        return PrepareDesigns.LimitsOf(job, book, design);
    }
}
