using System.Globalization;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Storage.Shelf;
using Coldpeel.Workshop.Press.Bench;
using Coldpeel.Workshop.Shelf;

namespace Coldpeel.Desk.Shelf;

/// <summary>What a tap at the bench does to the shelf: a spoilt item takes spares and a blank, a sheet that is made again takes film.</summary>
/// <param name="workshop">The workshop.</param>
internal sealed class WorkOfTaps(OpenedWorkshop workshop)
{
    /// <summary>What it does; null for nothing.</summary>
    /// <param name="day">The day.</param>
    /// <param name="cards">What the bench shows of items and sheets.</param>
    /// <param name="progress">The day before the tap.</param>
    /// <param name="events">All that was said before.</param>
    /// <param name="tap">The tap.</param>
    public StoredWork? Of(
        int day,
        IReadOnlyList<BenchCard> cards,
        BenchProgress progress,
        IReadOnlyList<BenchEvent> events,
        BenchTap tap
    ) =>
        tap.Saying switch
        {
            BenchSaying.Spoilt => Spoilt(cards, progress, tap.About),
            BenchSaying.Again => Again(day, cards, progress, events, tap.About),
            BenchSaying.TakenBack => TakenBack(day, cards, progress, events, tap.About),
            _ => null,
        };

    private StoredWork? Spoilt(IReadOnlyList<BenchCard> cards, BenchProgress progress, string item)
    {
        if (Order(cards, progress, item) is not { } order || new WorkOfSteps(workshop).UseOf(order) is not { } use)
        {
            return null;
        }

        var nothing = StoredWork.Nothing(order, $"{Own(item)} spoilt at the bench");
        if (Item(use, item) is not var (group, number, pieces))
        {
            return nothing; // a sheet: its pieces were never pressed, and the record is of prints that were
        }

        // What was laid on the item is lost with it; what waits for its turn is still good. Nothing laid yet: the first piece went.
        var latest = progress
            .Tasks.Where(t => t.Item == item && t.Op == "load")
            .GroupBy(t => t.Ref)
            .Select(g => g.Last())
            .ToArray();
        var laid = latest.Where(t => progress.Done.ContainsKey(t.Id)).Select(t => Place(t.Ref)).ToArray();
        int[] lost = laid.Length > 0 ? laid : [.. latest.Take(1).Select(t => Place(t.Ref))];
        return nothing with
        {
            Moves = [.. WorkOfSteps.SpoiltBlanks(group, laid.Length > 0 ? 1 : 0)],
            Outcomes =
            [
                .. WorkOfSteps.Lost(
                    use,
                    group,
                    number,
                    lost.Where(p => p >= 1 && p <= pieces.Length).Select(p => pieces[p - 1]),
                    "at the bench"
                ),
            ],
        };
    }

    private StoredWork? Again(
        int day,
        IReadOnlyList<BenchCard> cards,
        BenchProgress progress,
        IReadOnlyList<BenchEvent> events,
        string item
    )
    {
        if (Order(cards, progress, item) is not { } order)
        {
            return null;
        }

        var work = StoredWork.Nothing(order, $"{Own(item)} made again at the bench");
        var spoilt = events.LastOrDefault(e => e.Tap.Saying == BenchSaying.Spoilt && e.Tap.About == item);
        if (spoilt is not null)
        {
            work = work with { MakesAgain = StoredWork.CauseOf(day, spoilt.Tap.Key) };
        }

        return
            Page(item) is { } page
            && new WorkOfSteps(workshop).UseOf(order)?.Sheets.FirstOrDefault(s => s.Page == page) is { } sheet
            ? work with
            {
                // Printed anew on a new sheet, whatever the first one was.
                Moves = [.. WorkOfSteps.Sheets(sheet with { Started = false })],
            }
            : work;
    }

    private static StoredWork? TakenBack(
        int day,
        IReadOnlyList<BenchCard> cards,
        BenchProgress progress,
        IReadOnlyList<BenchEvent> events,
        string key
    ) =>
        events.FirstOrDefault(e => e.Tap.Key == key) is { Tap.Saying: BenchSaying.Spoilt or BenchSaying.Again } said
        && Order(cards, progress, said.Tap.About) is { } order
            ? StoredWork.Nothing(order, $"{Own(said.Tap.About)}: tap taken back") with
            {
                Undoes = StoredWork.CauseOf(day, key),
            }
            : null;

    private static string? Order(IReadOnlyList<BenchCard> cards, BenchProgress progress, string item)
    {
        var refs = progress.Tasks.Where(t => t.Item == item).Select(t => t.Ref).ToHashSet(StringComparer.Ordinal);
        return cards.FirstOrDefault(c => c.Ref == item || refs.Contains(c.Ref))?.Job;
    }

    // "2/gilet-3" is the third gilet of the second order of the day.
    private static string Own(string item) => item[(item.IndexOf('/', StringComparison.Ordinal) + 1)..];

    private static (UsedGroup Group, int Number, System.Collections.Immutable.ImmutableArray<string> Pieces)? Item(
        OrderUse use,
        string item
    )
    {
        var own = Own(item);
        var cut = own.LastIndexOf('-');
        return
            cut > 0
            && int.TryParse(own[(cut + 1)..], CultureInfo.InvariantCulture, out var number)
            && use.Groups.FirstOrDefault(g => g.Id == own[..cut]) is { } group
            && number >= 1
            && number <= group.Items.Length
            ? (group, number, group.Items[number - 1])
            : null;
    }

    private static int Place(string placement) =>
        int.TryParse(placement[(placement.LastIndexOf('.') + 1)..], CultureInfo.InvariantCulture, out var at) ? at : 0;

    private static int? Page(string sheet) =>
        Own(sheet) is ['S', .. var number] && int.TryParse(number, CultureInfo.InvariantCulture, out var page)
            ? page
            : null;
}
