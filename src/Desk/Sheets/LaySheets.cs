using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Sheets;
using Coldpeel.Files.Sheets;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Sheets;

/// <summary>How pieces are laid.</summary>
public sealed record LaySheetsOptions
{
    /// <summary>When set, the search goes on for this long; else it makes its usual number of rounds.</summary>
    public double? SecondsLimit { get; init; }

    /// <summary>Seed of the search.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>When set, one strip of this height instead of sheets.</summary>
    public double? StripHeightMm { get; init; }
}

/// <summary>The layout, and what to tell about it.</summary>
/// <param name="Json">The layout file.</param>
/// <param name="AnythingLeftOut">Whether a piece that was asked for (not only wished) found no place.</param>
/// <param name="Say">What a person should know, a line each.</param>
public sealed record LaidSheets(string Json, bool AnythingLeftOut, IReadOnlyList<string> Say);

/// <summary>Lays the pieces of a file on sheets, and judges the plan before it is told.</summary>
public sealed class LaySheets(TimeProvider clock)
{
    // With a time limit the limit ends the search; these only keep it from running for ever on a tiny job.
    private const int TrialsByTime = 20_000;
    private const long RoundsByTime = 10_000_000;

    // Without one: some seconds for a day's pieces.
    private const long UsualRounds = 600;

    /// <summary>The layout of a pieces file.</summary>
    /// <exception cref="InvalidOperationException">The plan is not sound: a fault of ours.</exception>
    public Outcome<LaidSheets> Run(
        string piecesPath,
        LaySheetsOptions options,
        IProgress<string>? say = null,
        CancellationToken stop = default
    )
    {
        ArgumentNullException.ThrowIfNull(options);
        var read = PiecesFile.Read(piecesPath, piecesPath);
        if (!read.Ok)
        {
            return read.Fault;
        }

        if (Wrong(options, read.Value.Problem) is { } wrong)
        {
            return wrong;
        }

        var problem = read.Value.Problem with
        {
            StripHeight = options.StripHeightMm is { } h ? Length.FromMillimetres(h) : null,
        };
        var start = clock.GetTimestamp();
        double? first = null;
        var straight = problem.Trim == Trim.Straight;
        var search = new SheetSearch { Seed = options.Seed };
        search = options.SecondsLimit is { } allowed
            ? search with
            {
                Trials = straight ? TrialsByTime : 1,
                Rounds = RoundsByTime,
                TimeShare = () => clock.GetElapsedTime(start).TotalSeconds / allowed,
            }
            : search with
            {
                Trials = straight ? search.Trials : 1,
                Rounds = UsualRounds,
            };
        using var limit = options.SecondsLimit is { } seconds
            ? new CancellationTokenSource(TimeSpan.FromSeconds(seconds), clock)
            : new CancellationTokenSource();
        using var both = CancellationTokenSource.CreateLinkedTokenSource(stop, limit.Token);
        var plan = SheetPlanner.Solve(
            problem,
            search,
            new Better(better =>
            {
                first ??= clock.GetElapsedTime(start).TotalSeconds;
                say?.Report(Line(problem, better));
            }),
            both.Token
        );
        var wished = SheetWishes.Fill(problem, plan, read.Value.Wish);
        var faults = SheetCheck.Faults(wished.Problem, wished.Plan);
        if (faults.Count > 0)
        {
            throw new InvalidOperationException($"The sheet plan is not sound: {faults[0]}");
        }

        var figures = SheetFigures.Of(wished.Problem, wished.Plan);
        var unusable = read.Value.Unusable;
        var json = LayoutFile.Write(
            wished.Problem,
            wished.Plan,
            placed => Say($"{wished.Problem.Pieces[placed.Piece].Id}/{placed.Copy + 1}"),
            new(clock.GetElapsedTime(start).TotalSeconds, first ?? 0, figures.DensityPercent, figures.UsedLastMm),
            [
                .. unusable.SelectMany(u =>
                    Enumerable.Range(0, u.Quantity).Select(copy => new LayoutLeftOut(u.Id, copy, u.Why))
                ),
            ]
        );
        return new LaidSheets(
            json,
            !plan.LeftOut.IsEmpty || unusable.Any(u => !u.Wished),
            [.. Lines(wished, plan), .. unusable.Select(u => Say($"{u.Id}: {u.Quantity} not laid. {u.Why}"))]
        );
    }

    private static Fault? Wrong(LaySheetsOptions options, SheetProblem problem)
    {
        if (SearchSeconds.Wrong(options.SecondsLimit) is { } wrong)
        {
            return wrong;
        }

        var margins = 2 * problem.Sheets[0].Margin.InMillimetres;
        return options.StripHeightMm is { } h && !(h > margins && h <= 100_000)
            ? new("--strip", $"A height in mm above the margins ({margins}), up to 100000, is needed.", "Change it.")
            : null;
    }

    private static ImmutableArray<string> Lines(WishedPlan wished, SheetPlan asked)
    {
        var lines = ImmutableArray.CreateBuilder<string>();
        lines.Add(Line(wished.Problem, wished.Plan));
        if (asked.Stop == StopReason.Proved && wished.Problem.StripHeight is null)
        {
            lines.Add("By the area of the pieces and their gaps, no plan needs less film.");
        }

        if (SheetRemnant.Of(wished.Problem, wished.Plan) is { } keep)
        {
            lines.Add(Say($"Left for the shelf: {keep.Width:0.#} x {keep.Height:0.#} mm of the last sheet."));
        }

        if (GapBeyondSheets(wished.Problem))
        {
            lines.Add("The gap is larger than any sheet, so pieces need sheets of their own: check gapMm.");
        }

        foreach (var group in wished.Plan.LeftOut.GroupBy(l => (l.Piece, l.Why)))
        {
            lines.Add(Say($"{wished.Problem.Pieces[group.Key.Piece].Id}: {group.Count()} not laid. {group.Key.Why}"));
        }

        return lines.ToImmutable();
    }

    private static bool GapBeyondSheets(SheetProblem problem) =>
        problem.StripHeight is null && problem.Sheets.All(s => problem.Gap >= Longer(s.Width, s.Height));

    private static Length Longer(Length a, Length b) => a > b ? a : b;

    private static string Line(SheetProblem problem, SheetPlan plan)
    {
        var figures = SheetFigures.Of(problem, plan);
        var all = plan.Placed.Length + plan.LeftOut.Length;
        return problem.StripHeight is { } height
            ? Say(
                $"{plan.Placed.Length} of {all} copies in a strip {figures.UsedLastMm:0.###} mm wide and {height} high, {figures.DensityPercent:0.0} % covered."
            )
            : Say(
                $"{plan.Placed.Length} of {all} copies on {plan.Sheets.Length} {(plan.Sheets.Length == 1 ? "sheet" : "sheets")}, the last used to {figures.UsedLastMm:0.#} mm, {figures.DensityPercent:0.0} % covered."
            );
    }

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    // Progress<T> would tell later and on another thread.
    private sealed class Better(Action<SheetPlan> tell) : IProgress<SheetPlan>
    {
        public void Report(SheetPlan value) => tell(value);
    }
}
