using System.Collections.Immutable;
using System.Text;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Craft.Sheets;
using Coldpeel.Desk.Artwork;
using Coldpeel.Desk.Sheets;
using Coldpeel.Files.Artwork.Fonts;
using Coldpeel.Files.Findings;
using Coldpeel.Files.Orders;
using Coldpeel.Files.Press;
using Coldpeel.Files.Quotes;
using Coldpeel.Files.Sheets;
using Coldpeel.Files.Wash;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;
using Coldpeel.Workshop.Quotes;
using Coldpeel.Workshop.Sheets;
using Coldpeel.Workshop.Wash;

namespace Coldpeel.Desk.Orders;

/// <summary>How a job is made.</summary>
/// <param name="OutFolder">Where the files go.</param>
/// <param name="SecondsLimit">Ends the searches early; null lets them make all their trials, which repeat exactly.</param>
/// <param name="Seed">Seed of the searches.</param>
/// <param name="Accept">Findings that the owner accepts: KIND or KIND@DESIGN.</param>
public sealed record MakeOptions(string OutFolder, double? SecondsLimit, ulong Seed, IReadOnlyList<string> Accept);

/// <summary>What was made.</summary>
/// <param name="Job">The job.</param>
/// <param name="Findings">Everything the owner should know, worst first.</param>
/// <param name="Stopped">A finding stood in the way: nothing but findings.json was written.</param>
/// <param name="Files">Names of the files written.</param>
/// <param name="Sheets">Sheets to print.</param>
/// <param name="Pieces">Pieces laid.</param>
/// <param name="Unplaced">Pieces that fit no sheet.</param>
/// <param name="Day">The day plan; null when stopped.</param>
/// <param name="Quote">The price; null when stopped.</param>
public sealed record MadeJob(
    Job Job,
    ImmutableArray<Finding> Findings,
    bool Stopped,
    ImmutableArray<string> Files,
    int Sheets,
    int Pieces,
    int Unplaced,
    DayPlan? Day,
    Quote? Quote
)
{
    /// <summary>Whether all of the work as asked can be made.</summary>
    public bool Complete => !Stopped && Unplaced == 0 && Day is { LeftOut.Length: 0 };
}

/// <summary>The main job: an order into everything needed at the printer and at the press.</summary>
public sealed class MakeJob(TimeProvider clock)
{
    private static readonly ImmutableArray<string> Ours =
    [
        "findings.json",
        "sheets.pdf",
        "sheets.json",
        "trim-map.pdf",
        "day.json",
        "day-plan.json",
        "day-plan.pdf",
        "tickets.pdf",
        "quote.json",
        "quote.pdf",
        "care.pdf",
    ];

    /// <summary>Makes the job; a fault means that the input is wrong and nothing was written.</summary>
    /// <param name="jobPath">JOB.json.</param>
    /// <param name="options">Where to, how long, what is accepted.</param>
    /// <param name="say">Progress.</param>
    /// <param name="stop">Cancels everything; nothing is written then.</param>
    public Outcome<MadeJob> Run(string jobPath, MakeOptions options, IProgress<string>? say, CancellationToken stop)
    {
        var opened = new OpenJob().Run(jobPath);
        if (!opened.Ok)
        {
            return opened.Fault;
        }

        var (job, book, folder, items) = opened.Value;
        var prepared = new PrepareDesigns(FontShelf.Open([Path.Combine(folder, "fonts")])).Run(
            job,
            book,
            folder,
            items,
            say,
            stop
        );
        if (!prepared.Ok)
        {
            return prepared.Fault;
        }

        var designs = prepared.Value.Designs;
        var accepted = JudgeJob.Run(job, book, items, prepared.Value, options.Accept);
        if (!accepted.Ok)
        {
            return accepted.Fault;
        }

        var findings = accepted.Value.Findings;
        var findingsFile = Encoding.UTF8.GetBytes(FindingsFile.Write(findings));
        if (
            findings.Any(f => f.Severity == Severity.Stop && !f.Accepted)
            || items.SelectMany(i => i.Pieces).Any(p => !designs.ContainsKey(p))
        )
        {
            var kept = new Dictionary<string, byte[]> { ["findings.json"] = findingsFile };
            return OutFolder.Put(options.OutFolder, kept, Ours) is { } notWritten
                ? notWritten
                : new MadeJob(job, findings, true, [.. kept.Keys], 0, 0, 0, null, null);
        }

        using var limit = options.SecondsLimit is { } seconds
            ? new CancellationTokenSource(TimeSpan.FromSeconds(seconds / 2), clock)
            : new CancellationTokenSource();
        var labels = new PieceLabels(job, items, material => book.Materials.First(m => m.Id == material).Process);
        var nested = new NestOrders().Run(book, items, designs, labels, options.Seed, say, limit.Token);
        stop.ThrowIfCancellationRequested();

        var sheets = nested.SelectMany(n => n.Sheets.Select(s => (n.Process, Sheet: s))).ToImmutableArray();
        var day = WorkDay.Of(job, book, items, labels, sheets);
        say?.Report($"planning {day.Problem.Placements.Length} pressings on {book.Presses.Length} presses");
        using var dayLimit = options.SecondsLimit is { } more
            ? new CancellationTokenSource(TimeSpan.FromSeconds(more / 2), clock)
            : new CancellationTokenSource();
        var plan = DayPlanner.Solve(day.Problem, new DaySearch { Seed = options.Seed }, null, dayLimit.Token);
        var faults = DayCheck.Faults(day.Problem, plan.Steps);
        if (faults.Count > 0)
        {
            throw new InvalidOperationException($"the day plan breaks a rule: {faults[0]}");
        }

        stop.ThrowIfCancellationRequested();
        var quoted = PriceJob.Run(job, book, items, sheets, plan);
        if (!quoted.Ok)
        {
            return quoted.Fault;
        }

        say?.Report("writing the papers");
        var today = DateOnly.FromDateTime(clock.GetLocalNow().DateTime);
        var printed = sheets.Select(s => s.Sheet).ToArray();
        var slips = CareSlips.For(job, book);
        var files = new Dictionary<string, byte[]>
        {
            ["findings.json"] = findingsFile,
            ["sheets.pdf"] = SheetsPdf.Write(printed, job.Name),
            ["sheets.json"] = Utf8(
                LayoutFile.Write([
                    .. nested.Select(n =>
                        (
                            n.Problem,
                            n.Plan,
                            (Func<Placed, string>)(p => labels.Of(n.Process, n.Problem.Pieces[p.Piece].Id, p.Copy))
                        )
                    ),
                ])
            ),
            ["trim-map.pdf"] = TrimMapPdf.Write(printed, job.Name),
            ["day.json"] = Utf8(DayFile.Write(day.Problem, options.Seed)),
            ["day-plan.json"] = Utf8(DayPlanFile.Write(day.Problem, plan)),
            ["day-plan.pdf"] = DayPlanPdf.Write(
                new DayPlanPaper(job.Name, book.Name, null, book.DayStart, day.Problem, plan, day.Names)
            ),
            ["tickets.pdf"] = TicketsPdf.Write(Tickets.For(job, book, items, designs, labels, findings)),
            ["quote.json"] = Utf8(QuoteFile.Write(quoted.Value)),
            ["quote.pdf"] = QuotePdf.Write(
                new QuotePaper(book.Name, job.Name, job.Customer, job.Due, today, quoted.Value)
            ),
            ["care.pdf"] = CarePdf.Write(slips, book.Name, book.CareSymbolsLicence is not null),
        };
        stop.ThrowIfCancellationRequested();
        return OutFolder.Put(options.OutFolder, files, Ours) is { } refused
            ? refused
            : new MadeJob(
                job,
                findings,
                false,
                [.. files.Keys],
                printed.Length,
                printed.Sum(s => s.Pieces.Length),
                nested.Sum(n => n.Plan.LeftOut.Length),
                plan,
                quoted.Value
            );
    }

    private static byte[] Utf8(string text) => Encoding.UTF8.GetBytes(text);
}
