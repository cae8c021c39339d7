using System.Collections.Immutable;
using System.Text.Json.Nodes;
using Coldpeel.Desk.Orders;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Artwork;

/// <summary>Takes mends that were shown: the mended artwork stands in the place of the design's own, and the order is made again. The own artwork stays.</summary>
public sealed class TakeMends(OpenedWorkshop workshop)
{
    // What the mended picture is drawn from is no longer the page of a document, and its curve is in it already.
    private static readonly string[] Done = ["page", "heightMm", "toneCurve"];

    /// <summary>Takes them.</summary>
    /// <param name="order">The order.</param>
    /// <param name="design">The design.</param>
    /// <param name="mends">The mends by their words.</param>
    /// <param name="version">What was shown, from <see cref="ShownMends.Version"/>.</param>
    /// <param name="who">Who takes them.</param>
    /// <param name="seconds">Ends the searches after so long.</param>
    /// <param name="stop">Cancels everything.</param>
    public Outcome<MadeJob> Run(
        string order,
        string design,
        IReadOnlyCollection<string> mends,
        string version,
        string who,
        double seconds,
        CancellationToken stop
    )
    {
        var shown = new OfferMends(workshop).Run(order, design, mends, stop);
        if (!shown.Ok)
        {
            return shown.Fault;
        }

        if (shown.Value.Version != version)
        {
            return Changed(order);
        }

        if (!shown.Value.Changes)
        {
            return new Fault(
                design,
                "would not be changed by these mends.",
                "Choose another mend, or leave it as it is."
            );
        }

        var offer = shown.Value;
        return new RemakeOrder(workshop).Run(
            order,
            source => OfferMends.Version(workshop, order) == version ? Mended(source, offer, who) : Changed(order),
            $"mended {design}: {string.Join(" ", offer.Steps.Where(s => s.Places > 0).Select(s => s.Say.English))}",
            who,
            seconds,
            stop
        );
    }

    /// <summary>Takes the last mends of a design back: what it was drawn from before is used again.</summary>
    public Outcome<MadeJob> TakeBack(string order, string design, string who, double seconds, CancellationToken stop) =>
        new RemakeOrder(workshop).Run(
            order,
            source =>
            {
                if (source.Mends.LastOrDefault(m => m.Design == design) is not { } last || source.Job is not { } job)
                {
                    return new Fault(design, "has no mends that could be taken back.", "Open the order again.");
                }

                Replace(job, design, JsonNode.Parse(last.WasJson)!);
                return source.WithJob(job) with
                {
                    Files = [.. source.WithJob(job).Files.Where(f => f.Name != last.File)],
                    Mends = source.Mends.Remove(last),
                };
            },
            $"mends of {design} taken back",
            who,
            seconds,
            stop
        );

    private Outcome<OrderSource> Mended(OrderSource source, ShownMends offer, string who)
    {
        var job = source.Job!;
        var was = Find(job, offer.Design);
        var now = was.DeepClone().AsObject();
        var file = FreeName(source, offer.Design);
        foreach (var key in Done)
        {
            now.Remove(key);
        }

        now["file"] = file;
        now["widthMm"] = offer.PlaneWidthMm;
        // The plane is drawn as the print file has it: what is dark prints.
        now["prints"] = "dark";
        Replace(job, offer.Design, now);
        return source.With(file, offer.PlanePng).WithJob(job) with
        {
            Mends = source.Mends.Add(
                new TakenMend(
                    offer.Design,
                    offer.Mends,
                    [.. offer.Steps.Where(s => s.Places > 0).Select(s => s.Say)],
                    file,
                    was.ToJsonString(),
                    who,
                    workshop.Now
                )
            ),
        };
    }

    // Beside the job file, as its paths begin there.
    private static string FreeName(OrderSource source, string design)
    {
        var taken = source.Files.Select(f => f.Name).ToImmutableHashSet(StringComparer.OrdinalIgnoreCase);
        var stem = $"{design.Trim()}-mended";
        return Enumerable
            .Range(1, int.MaxValue)
            .Select(n =>
                n == 1
                    ? $"{stem}.png"
                    : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{stem}-{n}.png")
            )
            .First(n => !taken.Contains(n));
    }

    private static JsonObject Find(JsonObject job, string design) =>
        job["designs"]!.AsArray().Select(d => d!.AsObject()).First(d => (string?)d["id"] == design);

    private static void Replace(JsonObject job, string design, JsonNode with)
    {
        var all = job["designs"]!.AsArray();
        all[all.IndexOf(Find(job, design))] = with;
    }

    private static Fault Changed(string order) =>
        new($"“{order}”", "was changed meanwhile.", "Look at the mends again: they are shown on what is there now.");
}
