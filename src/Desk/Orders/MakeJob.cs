using System.Collections.Immutable;
using System.Text;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Desk.Artwork;
using Coldpeel.Desk.Quotes;
using Coldpeel.Desk.Sheets;
using Coldpeel.Desk.Shelf;
using Coldpeel.Files.Artwork.Fonts;
using Coldpeel.Files.Findings;
using Coldpeel.Files.Press;
using Coldpeel.Files.Quotes;
using Coldpeel.Files.Sheets;
using Coldpeel.Files.Wash;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;
using Coldpeel.Workshop.Quotes;
using Coldpeel.Workshop.Sheets;
using Coldpeel.Workshop.Wash;

namespace Coldpeel.Desk.Orders;

/// <summary>How a job is made.</summary>
/// <param name="SecondsLimit">Ends the searches early; null lets them make all their trials, which repeat exactly.</param>
/// <param name="Seed">Seed of the searches.</param>
/// <param name="Accept">Findings that the owner accepts: KIND or KIND@DESIGN.</param>
public sealed record MakeOptions(double? SecondsLimit, ulong Seed, IReadOnlyList<string> Accept)
{
    /// <summary>The workshop of a job that names none; null for the built-in example.</summary>
    public WorkshopBook? Book { get; init; }

    /// <summary>What the shelf gives beside it; null for nothing.</summary>
    internal ShelfGives? Shelf { get; init; }

    /// <summary>How the papers are worded.</summary>
    public Wording Words { get; init; } = Wording.English;

    /// <summary>How those are worded that the customer gets: proof, quote, hand-over and care slips; null for as all others.</summary>
    public Wording? ForCustomer { get; init; }
}

/// <summary>What was made.</summary>
/// <param name="Job">The job.</param>
/// <param name="Findings">Everything the owner should know, worst first.</param>
/// <param name="Files">Name and content of every file; only findings.json when a finding stood in the way.</param>
/// <param name="Work">What the files were made of; null when a finding stood in the way.</param>
public sealed record MadeJob(
    Job Job,
    ImmutableArray<Finding> Findings,
    ImmutableSortedDictionary<string, byte[]> Files,
    MadeWork? Work
)
{
    /// <summary>What it was read as.</summary>
    internal JobParts? Parts { get; init; }

    /// <summary>How the papers are worded that its customer gets.</summary>
    internal Wording Words { get; init; } = Wording.English;

    /// <summary>Whether all of the work as asked can be made.</summary>
    public bool Complete => Work is { Unplaced: 0, Plan.LeftOut.Length: 0 };
}

/// <summary>A job as it was read: its workshop, its items one by one, its designs by piece.</summary>
internal sealed record JobParts(
    WorkshopBook Book,
    ImmutableArray<OneItem> Items,
    ImmutableSortedDictionary<string, Design> Designs
);

/// <summary>Sheets, day, tickets and price of a job.</summary>
/// <param name="Sheets">Sheets to print.</param>
/// <param name="Unplaced">Pieces that fit no sheet.</param>
/// <param name="Day">The day's work.</param>
/// <param name="Plan">The day plan.</param>
/// <param name="Tickets">One an item group.</param>
/// <param name="Quote">The price.</param>
public sealed record MadeWork(
    ImmutableArray<PrintSheet> Sheets,
    int Unplaced,
    WorkDay Day,
    DayPlan Plan,
    ImmutableArray<Ticket> Tickets,
    Quote Quote
)
{
    /// <summary>The sheets process by process, as they were laid.</summary>
    internal ImmutableArray<NestedSheets> Nested { get; init; } = [];

    /// <summary>What prints in the waste, sheet by sheet.</summary>
    internal ImmutableArray<SheetMarkings> Marks { get; init; } = [];
}

/// <summary>The main job: an order into everything needed at the printer and at the press.</summary>
public sealed class MakeJob(TimeProvider clock)
{
    /// <summary>Makes the job; a fault means that the input is wrong. Nothing is written: see <see cref="OutFolder"/>.</summary>
    /// <param name="jobPath">JOB.json.</param>
    /// <param name="options">How long, what is accepted.</param>
    /// <param name="say">Progress.</param>
    /// <param name="stop">Cancels everything.</param>
    public Outcome<MadeJob> Run(string jobPath, MakeOptions options, IProgress<string>? say, CancellationToken stop)
    {
        ArgumentNullException.ThrowIfNull(options);
        if (SearchSeconds.Wrong(options.SecondsLimit) is { } wrong)
        {
            return wrong;
        }

        var opened = OpenJob.Run(jobPath, options.Book);
        if (!opened.Ok)
        {
            return opened.Fault;
        }

        var (job, read, folder, items, noticed) = opened.Value;
        var book = options.Shelf?.In(read) ?? read;
        var fonts = FontShelf.Open([Path.Combine(folder, "fonts")]);
        var prepared = new PrepareDesigns(fonts).Run(job, book, folder, items, say, stop);
        if (!prepared.Ok)
        {
            return prepared.Fault;
        }

        var judged = JudgeJob.Run(
            job,
            book,
            items,
            prepared.Value with
            {
                Findings = prepared.Value.Findings.AddRange(noticed),
            },
            options.Accept
        );
        if (!judged.Ok)
        {
            return judged.Fault;
        }

        var findings = judged.Value.Findings;
        var files = ImmutableSortedDictionary<string, byte[]>.Empty.Add(
            "findings.json",
            Utf8(FindingsFile.Write(findings))
        );
        var designs = prepared.Value.Designs;
        var parts = new JobParts(book, items, designs);
        if (
            findings.Any(f => f is { Severity: Severity.Stop, Accepted: false })
            || items.SelectMany(i => i.Pieces).Any(p => !designs.ContainsKey(p))
        )
        {
            return new MadeJob(job, findings, files, null) { Parts = parts };
        }

        var labels = new PieceLabels(job, items, material => book.Materials.First(m => m.Id == material).Process);
        ImmutableArray<NestedSheets> nested;
        using (var limit = Limit(options))
        {
            nested = NestOrders.Run(
                book,
                items,
                designs,
                labels,
                [.. job.Designs.Where(d => d.Ahead > 0).Select(d => (d.Id, d.Ahead))],
                options.Seed,
                say,
                limit.Token,
                options.Shelf is { } shelf ? (process, piece) => shelf.Take(designs[piece], process) : null
            );
        }

        stop.ThrowIfCancellationRequested();
        var sheets = nested.SelectMany(n => n.Sheets.Select(s => (n.Process, Sheet: s))).ToImmutableArray();
        var day = WorkDay.Of(job, book, items, labels, sheets);
        say?.Report($"planning {day.Problem.Placements.Length} pressings on {book.Presses.Length} presses");
        var plan = Plan(day.Problem, options);
        stop.ThrowIfCancellationRequested();
        var quoted = PriceJob.Run(job, book, sheets, plan);
        if (!quoted.Ok)
        {
            return quoted.Fault;
        }

        say?.Report("placing the marks of the film");
        var printed = sheets.Select(s => s.Sheet).ToImmutableArray();
        var marks = SheetMarks.PlaceAll(printed, job.Name);
        findings = findings.AddRange(marks.SelectMany(m => m.Findings)).AddRange(nested.SelectMany(LaySpares.Findings));
        files = files.SetItem("findings.json", Utf8(FindingsFile.Write(findings)));
        var tickets = Tickets.For(job, book, items, designs, labels, findings);
        var work = new MadeWork(printed, nested.Sum(n => n.Plan.LeftOut.Length), day, plan, tickets, quoted.Value)
        {
            Nested = nested,
            Marks = [.. marks],
        };
        say?.Report("writing the papers");
        return new MadeJob(job, findings, files.AddRange(Papers(job, book, nested, labels, work, marks, options)), work)
        {
            Parts = parts,
            Words = options.ForCustomer ?? options.Words,
        };
    }

    private DayPlan Plan(DayProblem problem, MakeOptions options)
    {
        using var limit = Limit(options);
        var plan = DayPlanner.Solve(problem, new DaySearch { Seed = options.Seed }, null, limit.Token);
        var faults = DayCheck.Faults(problem, plan.Steps);
        return faults.Count == 0
            ? plan
            : throw new InvalidOperationException($"the day plan breaks a rule: {faults[0]}");
    }

    // The papers know nothing of one another: they are written side by side.
    private KeyValuePair<string, byte[]>[] Papers(
        Job job,
        WorkshopBook book,
        ImmutableArray<NestedSheets> nested,
        PieceLabels labels,
        MadeWork work,
        IReadOnlyList<SheetMarkings> marks,
        MakeOptions options
    )
    {
        var today = DateOnly.FromDateTime(clock.GetLocalNow().DateTime);
        var (day, plan, words) = (work.Day, work.Plan, options.Words);
        var customers = options.ForCustomer ?? words;
        var layout = nested.Select(n => new LayoutPart(
            n.Problem,
            n.Plan,
            placed => labels.Of(n.Process, n.Problem.Pieces[placed.Piece].Id, placed.Copy),
            n.Keep
        ));
        var slips = job.Items.Select(item => CareSlips.Make(item, book)).ToArray();
        var dayPaper = new DayPlanPaper(job.Name, book.Name, null, book.DayStart, day.Problem, plan, day.NamesIn(words))
        {
            Words = words,
            Labels = day.Labels,
        };
        var quotePaper = new QuotePaper(book.Name, job.Name, job.Customer, job.Due, today, work.Quote)
        {
            Words = customers,
            Items =
            [
                .. work.Tickets.Select(t => new QuoteItem(
                    t.Title,
                    t.MaterialName,
                    [.. t.Places.Select(p => (p.Rule.Name, Math.Round(p.WidthMm), Math.Round(p.HeightMm)))]
                )),
            ],
        };
        (string Name, Func<byte[]> Write)[] papers =
        [
            ("trim-map.pdf", () => TrimMapPdf.Write(work.Sheets, job.Name, marks, words)),
            ("sheets.pdf", () => SheetsPdf.Write(work.Sheets, job.Name, marks)),
            ("tickets.pdf", () => TicketsPdf.Write(work.Tickets, words)),
            ("day-plan.pdf", () => DayPlanPdf.Write(dayPaper)),
            ("sheets.json", () => Utf8(LayoutFile.Write([.. layout]))),
            ("day.json", () => Utf8(DayFile.Write(day.Problem, options.Seed))),
            ("day-plan.json", () => Utf8(DayPlanFile.Write(day.Problem, plan))),
            ("quote.json", () => Utf8(QuoteFile.Write(work.Quote, job))),
            ("quote.pdf", () => QuotePdf.Write(quotePaper)),
            ("care.pdf", () => CarePdf.Write(slips, book.Name, book.CareSymbolsLicence is not null, customers)),
        ];
        return [.. papers.AsParallel().Select(p => KeyValuePair.Create(p.Name, p.Write()))];
    }

    // Sheets and day share what time there is.
    private CancellationTokenSource Limit(MakeOptions options) =>
        options.SecondsLimit is { } seconds ? new(TimeSpan.FromSeconds(seconds / 2), clock) : new();

    private static byte[] Utf8(string text) => Encoding.UTF8.GetBytes(text);
}
