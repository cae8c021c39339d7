using System.Collections.Immutable;
using Coldpeel.Desk.Rooms;
using Coldpeel.Desk.Shelf;
using Coldpeel.Files.Orders;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Orders;

/// <summary>An order entered as a list of items or line by line: made and kept, or everything that is wrong with it.</summary>
/// <param name="Made">The order; null while something is wrong.</param>
/// <param name="Faults">What is wrong, each with its line and column.</param>
public sealed record EnteredOrder(MadeJob? Made, ImmutableArray<Fault> Faults);

/// <summary>What may be chosen while an order is entered.</summary>
/// <param name="Materials">Materials by id, with their names.</param>
/// <param name="Placements">Placements.</param>
/// <param name="Blanks">Blanks that have a price.</param>
/// <param name="Currency">Currency of the price list.</param>
public sealed record EntryChoices(
    ImmutableArray<(string Id, string Name)> Materials,
    ImmutableArray<string> Placements,
    ImmutableArray<string> Blanks,
    string Currency
)
{
    /// <summary>Language of the workshop's papers, "en" or "de".</summary>
    public string Language { get; init; } = "en";
}

/// <summary>Makes an order from a list of items (CSV), from lines typed in, or from both, with artwork.</summary>
public sealed class EnterOrder(OpenedWorkshop workshop)
{
    /// <summary>A list with more faults is told by the first of them.</summary>
    private const int MostFaults = 30;

    /// <summary>What may be chosen.</summary>
    public EntryChoices Choices
    {
        get
        {
            var book = new ReadBook(workshop).Run();
            return new(
                [.. book.Materials.Select(m => (m.Id, m.Name))],
                [.. book.Placements.Select(p => p.Name)],
                [.. book.Prices.Blanks.Keys.Order(StringComparer.OrdinalIgnoreCase)],
                book.Prices.Currency
            )
            {
                Language = new KeepAnswers(workshop).Words.Language,
            };
        }
    }

    /// <summary>Reads, makes and keeps it.</summary>
    /// <param name="head">Name, customer, day, currency.</param>
    /// <param name="files">Lists of items and artwork.</param>
    /// <param name="typed">Lines typed in.</param>
    /// <param name="who">Who enters it.</param>
    /// <param name="seconds">Ends the searches after so long.</param>
    /// <param name="stop">Cancels everything.</param>
    public EnteredOrder Run(
        OrderHead head,
        IReadOnlyList<HandedFile> files,
        IReadOnlyList<RawItemLine> typed,
        string who,
        double seconds,
        CancellationToken stop
    )
    {
        var (lines, artwork, faults) = Read(head, files, typed);
        if (!faults.IsEmpty)
        {
            return new(null, faults);
        }

        var written = ItemsJob.Write(head, lines).Select(f => new HandedFile(f.Name, f.Content));
        var made = new MakeFromFolder(workshop).Run([.. written, .. artwork], [], seconds, null, stop, who);
        return made.Ok ? new(made.Value, []) : new(null, [made.Fault]);
    }

    /// <summary>All that is wrong with it as far as it can be told without making it.</summary>
    public ImmutableArray<Fault> Wrong(
        OrderHead head,
        IReadOnlyList<HandedFile> files,
        IReadOnlyList<RawItemLine> typed
    ) => Read(head, files, typed).Faults;

    private (ImmutableArray<ItemLine> Lines, HandedFile[] Artwork, ImmutableArray<Fault> Faults) Read(
        OrderHead head,
        IReadOnlyList<HandedFile> files,
        IReadOnlyList<RawItemLine> typed
    )
    {
        ArgumentNullException.ThrowIfNull(head);
        ArgumentNullException.ThrowIfNull(typed);
        var handed = HandedNames.WithoutTop(files);
        if (handed.Count > 0 && HandedNames.Refusal(handed) is { } refusal)
        {
            return ([], [], [refusal]);
        }

        var faults = new List<Fault>();
        if (workshop.Store.Order(head.Name) is not null)
        {
            faults.Add(
                new($"“{head.Name}”", "is the name of an order that is kept already.", "Give the new one another name.")
            );
        }

        var lists = handed.Where(f => f.IsCsv).ToArray();
        var raw = new List<RawItemLine>();
        var unread = false;
        foreach (var list in lists)
        {
            var read = ItemsReader.Read(list.Content, list.Name);
            if (read.Ok)
            {
                raw.AddRange(read.Value.Lines);
            }
            else
            {
                unread = true;
                faults.Add(read.Fault);
            }
        }

        raw.AddRange(typed);
        if (raw.Count == 0 && !unread)
        {
            faults.Add(new("The order", "has no items.", "Choose a list of items (CSV), or type at least one line."));
        }

        var artwork = handed.Except(lists).ToArray();
        var (lines, wrong) = ItemLines.Read(raw, new ReadBook(workshop).Run(), [.. artwork.Select(f => f.Name)]);
        return (lines, artwork, [.. faults, .. wrong.Take(MostFaults)]);
    }
}
