using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;
using Coldpeel.Files.Artwork.Fonts;
using Coldpeel.Files.Artwork.Lettering;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Desk.Artwork;

/// <summary>Designs ready to be judged and laid, and what was found on the way.</summary>
/// <param name="Designs">By piece: the design's name, or design/group/number for lettering from a roster.</param>
/// <param name="Findings">What only the making itself can find: letters that a font lacks, notes of the reader.</param>
public sealed record PreparedDesigns(
    ImmutableSortedDictionary<string, Design> Designs,
    ImmutableArray<Finding> Findings
);

/// <summary>Makes the white plane of every piece of a job.</summary>
public sealed class PrepareDesigns(FontShelf fonts)
{
    /// <summary>Reads artwork and sets lettering; the first thing that cannot be read is the fault.</summary>
    /// <param name="job">The job.</param>
    /// <param name="book">The workshop.</param>
    /// <param name="folder">The job's folder.</param>
    /// <param name="items">Its items.</param>
    /// <param name="say">Progress.</param>
    /// <param name="stop">Cancels.</param>
    public Outcome<PreparedDesigns> Run(
        Job job,
        WorkshopBook book,
        string folder,
        ImmutableArray<OneItem> items,
        IProgress<string>? say,
        CancellationToken stop
    )
    {
        var designs = ImmutableSortedDictionary.CreateBuilder<string, Design>(StringComparer.Ordinal);
        var findings = new List<Finding>();
        var drawn = job.Designs.OfType<DesignRequest.Drawn>().ToArray();
        var lettered = job.Designs.OfType<DesignRequest.Lettered>().ToArray();
        if (drawn.Length > 0)
        {
            say?.Report($"reading {string.Join(", ", drawn.Select(d => d.File))}");
        }

        var read = SideBySide(
            drawn,
            d =>
                DrawnDesign.Make(
                    d,
                    Path.Combine(folder, d.File),
                    book,
                    LimitsOf(job, book, d.Id),
                    GainOf(job, book, d)
                ),
            stop
        );
        foreach (var (asked, made) in drawn.Zip(read))
        {
            if (!made.Ok)
            {
                return made.Fault;
            }

            findings.AddRange(made.Value.Findings);
            if (made.Value.Design is { } design)
            {
                designs[asked.Id] = design;
            }
        }

        if (lettered.Length > 0)
        {
            say?.Report($"setting {string.Join(", ", lettered.Select(l => l.Id))}");
        }

        // A face serves one thread at a time: set first, then draw and judge side by side.
        var pieces = new List<SetPiece>();
        foreach (var asked in lettered)
        {
            var face = fonts.Find(asked.Lettering.Font, folder, $"design {asked.Id}");
            if (!face.Ok)
            {
                return face.Fault;
            }

            using var font = face.Value;
            var limits = LimitsOf(job, book, asked.Id);
            pieces.AddRange(
                Pieces(asked, items)
                    .Select(p => new SetPiece(
                        asked,
                        limits,
                        p.Piece,
                        p.Text,
                        p.Item,
                        LetteredDesign.Set(font, asked, p.Text)
                    ))
            );
        }

        var set = SideBySide(
            pieces,
            p => LetteredDesign.Make(p.Asked, p.Limits, p.Piece, p.Text, p.Set, p.Item, book),
            stop
        );
        foreach (var (asked, (design, found)) in pieces.Zip(set))
        {
            findings.AddRange(found);
            if (design is not null)
            {
                designs[asked.Piece] = design;
            }
        }

        return new PreparedDesigns(designs.ToImmutable(), [.. findings]);
    }

    // In order whichever is ready first; the next free core takes the next one, for they differ in size.
    private static TMade[] SideBySide<TAsked, TMade>(
        IReadOnlyList<TAsked> asked,
        Func<TAsked, TMade> make,
        CancellationToken stop
    )
    {
        var made = new TMade[asked.Count];
        Parallel.For(0, made.Length, new() { CancellationToken = stop }, i => made[i] = make(asked[i]));
        return made;
    }

    private sealed record SetPiece(
        DesignRequest.Lettered Asked,
        ProcessLimits Limits,
        string Piece,
        string Text,
        OneItem? Item,
        SetLettering Set
    );

    private static IEnumerable<(string Piece, string Text, OneItem? Item)> Pieces(
        DesignRequest.Lettered lettered,
        ImmutableArray<OneItem> items
    )
    {
        if (!LetteringText.Columns(lettered.Lettering.Text).Any())
        {
            return [(lettered.Id, lettered.Lettering.Text, null)];
        }

        return from item in items
            from piece in item.Group.Placements.Zip(item.Pieces)
            where piece.First.Design == lettered.Id && item.Row is not null
            select (piece.Second, LetteringText.Fill(lettered.Lettering.Text, item.Row!), (OneItem?)item);
    }

    // A design that goes on items of several processes must survive the coarsest of them.
    internal static ProcessLimits LimitsOf(Job job, WorkshopBook book, string design)
    {
        var used = ProcessesOf(job, book, design).Select(p => p.Limits).ToArray();
        return new(
            used.Max(l => l.LineMm),
            used.Max(l => l.GapMm),
            used.Max(l => l.DotMm),
            used.Max(l => l.TintPercent),
            used.Max(l => l.PictureDpi)
        )
        {
            SolidMm = used.Min(l => l.SolidMm),
            TextMm = used.Max(l => l.TextMm),
        };
    }

    // One plane serves all items of a design: it is corrected for the first of its processes that was measured.
    internal static DotGain? GainOf(Job job, WorkshopBook book, DesignRequest.Drawn design) =>
        ProcessesOf(job, book, design.Id)
            .Select(p => p.Gains.GetValueOrDefault(design.Tone))
            .FirstOrDefault(g => g is not null);

    private static IEnumerable<Process> ProcessesOf(Job job, WorkshopBook book, string design) =>
        job
            .Items.Where(i => i.Placements.Any(p => p.Design == design))
            .Select(i => book.Materials.First(m => m.Id == i.Material).Process)
            .Distinct()
            .Select(id => book.Processes.First(p => p.Id == id))
            .DefaultIfEmpty(book.Processes[0]);
}
