using System.Collections.Immutable;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Sheets;

namespace Coldpeel.Workshop.Press;

/// <summary>A day's work at the presses, with the words for people.</summary>
/// <param name="Problem">What is to be planned.</param>
/// <param name="Names">A sheet's or placement's name on the plan, for people.</param>
public sealed record WorkDay(DayProblem Problem, ImmutableDictionary<string, Sentence> Names)
{
    /// <summary>The names in those words.</summary>
    public ImmutableDictionary<string, string> NamesIn(Wording words)
    {
        ArgumentNullException.ThrowIfNull(words);
        return Names.ToImmutableDictionary(n => n.Key, n => words[n.Value]);
    }

    /// <summary>The working day that lateness is counted from when a job is due on a later day: eight hours (common practice, no source).</summary>
    public const int WorkingDayS = 8 * 3600;

    /// <summary>The label printed beside a placement's piece.</summary>
    public ImmutableDictionary<string, string> Labels { get; init; } = ImmutableDictionary<string, string>.Empty;

    /// <summary>The day of one job: bond its sheets, trim, apply, cool, peel, finish, inspect.</summary>
    /// <param name="job">The job.</param>
    /// <param name="book">Presses, hands, processes.</param>
    /// <param name="items">Its items.</param>
    /// <param name="labels">The labels of its pieces.</param>
    /// <param name="sheets">The sheets and the process each is printed for.</param>
    public static WorkDay Of(
        Job job,
        WorkshopBook book,
        ImmutableArray<OneItem> items,
        PieceLabels labels,
        ImmutableArray<(string Process, PrintSheet Sheet)> sheets
    )
    {
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(book);
        ArgumentNullException.ThrowIfNull(labels);
        var names = ImmutableDictionary.CreateBuilder<string, Sentence>();
        var printedLabels = ImmutableDictionary.CreateBuilder<string, string>();
        var sheetOf = sheets
            .SelectMany(s =>
                s.Sheet.Pieces.Select(p => (Key: (s.Process, p.PieceId, p.Copy), Id: SheetId(s.Sheet.Page)))
            )
            .ToDictionary(p => p.Key, p => p.Id);
        var daySheets = ImmutableArray.CreateBuilder<DaySheet>();
        var bonded = new HashSet<string>();
        var printed = 0;
        foreach (var (processId, sheet) in sheets)
        {
            var process = book.Processes.First(p => p.Id == processId);
            printed += process.Steps.FirstOrDefault(s => s.Kind == StepKind.Print)?.Seconds ?? 0;
            if (Step(process, StepKind.Bond) is not { } bond)
            {
                continue; // a sheet that is not bonded needs no press before it is applied
            }

            var id = SheetId(sheet.Page);
            bonded.Add(id);
            names[id] = $"sheet {sheet.Page}";
            daySheets.Add(
                new(
                    id,
                    printed,
                    (int)Math.Ceiling(sheet.Width.InMillimetres),
                    (int)Math.Ceiling(sheet.Height.InMillimetres),
                    bond.Celsius ?? 0,
                    bond.LoadSeconds,
                    bond.Seconds,
                    bond.UnloadSeconds + (Step(process, StepKind.HotPeel)?.Seconds ?? 0),
                    Step(process, StepKind.Trim)?.Seconds ?? 0
                )
            );
        }

        var placements = ImmutableArray.CreateBuilder<DayPlacement>();
        foreach (var item in items)
        {
            var pressing = Pressings.For(book, item.Group.Material);
            string? before = null;
            for (var at = 0; at < item.Pieces.Length; at++)
            {
                var piece = labels.PieceOf(item, at);
                if (!sheetOf.TryGetValue(piece, out var sheet) && !labels.IsFromShelf(piece))
                {
                    continue; // a piece that found no sheet cannot be pressed
                }

                var id = $"{item.Id}.{at + 1}";
                var what = $"{item.Group.What} {item.Number}{(item.Who.Length > 0 ? $" {item.Who}" : "")}";
                names[id] = $"{what}, {Words.Data(item.Group.Placements[at].At)} ({labels.Of(item, at)})";
                printedLabels[id] = labels.Of(item, at);
                placements.Add(
                    Placement(
                        id,
                        item,
                        job,
                        pressing,
                        sheet is not null && bonded.Contains(sheet) ? sheet : null,
                        before,
                        book.Placements.First(p => p.Name == item.Group.Placements[at].At)
                    )
                );
                before = id;
            }
        }

        var problem = new DayProblem(
            job.Name,
            0,
            book.HeatCPerMin,
            book.CoolCPerMin,
            book.Hands,
            book.RackPlaces,
            [.. book.Presses.Select(p => new DayPress(p.Id, p.PlateWidthMm, p.PlateHeightMm, p.SetpointC, 0))],
            daySheets.ToImmutable(),
            [new DayOrder(job.Name, WorkingDayS, 1)],
            placements.ToImmutable(),
            []
        );
        return new(problem, names.ToImmutable()) { Labels = printedLabels.ToImmutable() };
    }

    private static DayPlacement Placement(
        string id,
        OneItem item,
        Job job,
        Pressing pressing,
        string? sheet,
        string? after,
        PlacementRule at
    )
    {
        var press =
            pressing.Step(StepKind.Press)
            ?? throw new InvalidOperationException($"The process {pressing.Process.Id} never presses.");
        var pre = pressing.Step(StepKind.PrePress);
        var finish = pressing.Step(StepKind.FinishPress);
        // Pre-pressing the bare item is part of loading: the press opens, the design is placed, the press closes again.
        return new(
            id,
            item.Id,
            job.Name,
            sheet,
            after,
            at.PlateWidthMm,
            at.PlateHeightMm,
            press.Celsius ?? 0,
            press.LoadSeconds + (after is null && pre is not null ? pre.LoadSeconds + pre.Seconds : 0),
            press.Seconds,
            press.UnloadSeconds,
            pressing.Step(StepKind.Cool)?.Seconds ?? 0,
            pressing.Step(StepKind.ColdPeel)?.Seconds ?? 0,
            finish?.LoadSeconds ?? 0,
            finish?.Seconds ?? 0,
            finish?.UnloadSeconds ?? 0,
            pressing.Step(StepKind.Inspect)?.Seconds ?? 0
        );
    }

    private static ProcessStep? Step(Process process, StepKind kind) =>
        process.Steps.FirstOrDefault(s => s.Kind == kind);

    private static string SheetId(int page) => $"S{page}";
}
