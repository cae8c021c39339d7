using System.Collections.Immutable;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Storage.Press;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Press;
using Coldpeel.Workshop.Press.Bench;

namespace Coldpeel.Desk.Press.Bench;

/// <summary>Plans the rest of a running day again: something is late, or an order is put in.</summary>
internal sealed class PlanBenchAgain(OpenedWorkshop workshop)
{
    private const string Where = "The bench";

    // Somebody stands at the bench and waits.
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(2);

    /// <summary>What a tap changes, with the cards of an order that it puts in.</summary>
    public sealed record Changed(BenchChange Change, ImmutableArray<BenchCard> Cards);

    private sealed record Part(DayProblem More, ImmutableArray<BenchCard> Cards);

    /// <summary>The new plan of what is left. The fault says why there is none, and the day stays as it is.</summary>
    /// <param name="kept">The day.</param>
    /// <param name="events">All that was said.</param>
    /// <param name="tap">What is late, or the order to put in.</param>
    /// <param name="at">When that was said.</param>
    public Outcome<Changed> Run(StoredBenchDay kept, IReadOnlyList<BenchEvent> events, BenchTap tap, DateTimeOffset at)
    {
        var plan = KeptJson.Read<BenchPlan>(kept.PlanJson);
        var cards = KeptJson.Read<BenchCard[]>(kept.CardsJson).DistinctBy(c => c.Ref).ToImmutableArray();
        var progress = BenchProgress.Of(plan, events);
        if (plan.Day is not { } first)
        {
            return new Fault(
                Where,
                "was opened by an earlier version, which kept no work to plan again.",
                "Close this day and start another with the orders that are left."
            );
        }

        var now = workshop.Clock.GetUtcNow();
        var held = progress.Changes.Select(c => c.Tap.Key).ToHashSet(StringComparer.Ordinal);
        var day = plan
            .Changes.Where(c => held.Contains(c.Key))
            .Select(c => c.More)
            .OfType<DayProblem>()
            .Aggregate(first, With);
        var rest = BenchRest.Of(progress, day, kept.Start, now);
        var before = rest.Problem.Placements.Select(p => p.Id).ToHashSet(StringComparer.Ordinal);
        Part? more = null;
        if (tap.Saying == BenchSaying.Added)
        {
            var part = More(tap.About, cards, progress);
            if (!part.Ok)
            {
                return part.Fault;
            }

            more = part.Value;
            rest = rest with { Problem = With(rest.Problem, Shifted(part.Value.More, rest)) };
        }

        if (
            tap.Saying == BenchSaying.Late
            && LateSubject.Of(tap.About) is { Kind: "order", Name: var order }
            && !cards.Any(c => c.Job == order)
        )
        {
            return new Fault($"“{order}”", "is not in this day.", "Choose what is late.");
        }

        var late = progress
            .Changes.Where(c => c.Tap.Saying == BenchSaying.Late)
            .Select(c => (c.Tap.About, Until: c.At.AddSeconds(c.Tap.Seconds), Asked: false))
            .Concat(tap.Saying == BenchSaying.Late ? [(tap.About, Until: at.AddSeconds(tap.Seconds), Asked: true)] : [])
            .Where(l => l.Until > now)
            .Select(l => (Subject: LateSubject.Of(l.About)!, Second: (int)(l.Until - kept.Start).TotalSeconds, l.Asked))
            .ToArray();
        foreach (var (subject, second, asked) in late)
        {
            var applied = Late(rest, subject, second, cards);
            // What came late before may be pressed by now: only what is asked for must be there.
            if (!applied.Ok && asked)
            {
                return applied.Fault;
            }

            rest = applied.Ok ? rest with { Problem = applied.Value } : rest;
        }

        var solved = Solve(rest.Problem);
        if (!solved.Ok)
        {
            return solved.Fault;
        }

        if (solved.Value.LeftOut.FirstOrDefault(l => !before.Contains(l.Ref)) is { } cannot && more is not null)
        {
            return new Fault(
                $"“{tap.About}”",
                $"cannot be pressed here today: {PastLine.Read(cannot.Why)}",
                "Choose another order, or press it on another day."
            );
        }

        var steps = solved.Value.Steps.ToDictionary(s => (s.Op, s.Ref));
        var added = more is { } put
            ? BenchPlan.Of(put.More, Shifted(solved.Value, put.More, rest)).Tasks
            : ImmutableArray<BenchTask>.Empty;
        var moves = progress
            .Tasks.Where(t => !progress.Done.ContainsKey(t.Id) && !progress.Dropped.Contains(t.Id))
            .Concat(added)
            .Select(t => (Task: t, Step: steps.GetValueOrDefault((t.Op, BenchRest.ChainOf(t)))))
            .Where(x => x.Step is not null)
            .Select(x => new BenchMove(
                x.Task.Id,
                rest.ToBench(x.Step!.Start),
                x.Step.Press,
                x.Step.Hand,
                late.Where(l => Waits(x.Task, x.Step, l.Subject, cards)).Select(l => l.Second).DefaultIfEmpty().Max()
            ))
            .ToImmutableArray();
        var addedIds = added.Select(t => t.Id).ToHashSet(StringComparer.Ordinal);
        var notBefore = moves.ToDictionary(m => m.Task, m => m.NotBeforeS, StringComparer.Ordinal);
        return new Changed(
            new(
                tap.Key,
                [.. moves.Where(m => !addedIds.Contains(m.Task))],
                [.. added.Select(t => t with { NotBeforeS = notBefore.GetValueOrDefault(t.Id) })],
                more?.More
            ),
            more?.Cards ?? []
        );
    }

    // Work under names that the day has already is none of it, as in what the bench shows.
    private static DayProblem With(DayProblem day, DayProblem more) =>
        day.Sheets.Select(s => s.Id).Intersect(more.Sheets.Select(s => s.Id)).Any()
        || day.Placements.Select(p => p.Id).Intersect(more.Placements.Select(p => p.Id)).Any()
            ? day
            : day with
            {
                Sheets = [.. day.Sheets, .. more.Sheets],
                Orders = [.. day.Orders, .. more.Orders],
                Placements = [.. day.Placements, .. more.Placements],
            };

    // Of an order that is put in only what it brings: presses, hands and rack are those of the running day.
    private Outcome<Part> More(string name, ImmutableArray<BenchCard> cards, BenchProgress progress)
    {
        if (DayOfOrder.Of(workshop, name) is not { } part)
        {
            return DayOfOrder.None(name);
        }

        var working = progress.Tasks.Select(t => t.Ref).ToHashSet(StringComparer.Ordinal);
        if (cards.Any(c => c.Job == name && working.Contains(c.Ref)))
        {
            return new Fault($"“{name}”", "is in this day already.", "Choose another order.");
        }

        if (DayOfOrder.Against(workshop, part.Order) is { } against)
        {
            return against;
        }

        var prefix = DayOfOrder.Prefix(Math.Max(1, cards.Max(c => DayOfOrder.PartOf(c.Ref))) + 1);
        return new Part(
            DayOfOrder.Named(part.Day, prefix),
            [.. BenchCards.Of(part.Order, part.Day).Select(c => c with { Ref = prefix + c.Ref })]
        );
    }

    private static DayProblem Shifted(DayProblem more, BenchRest rest) =>
        more with
        {
            Sheets = [.. more.Sheets.Select(s => s with { AvailableAt = 0 })],
            Orders = [.. more.Orders.Select(o => o with { Due = rest.ToProblem(rest.NowS + o.Due) })],
        };

    // The steps of what was put in, in seconds of the bench's day.
    private static DayPlan Shifted(DayPlan plan, DayProblem more, BenchRest rest)
    {
        var own = more.Sheets.Select(s => s.Id).Concat(more.Placements.Select(p => p.Id)).ToHashSet();
        return plan with
        {
            Steps =
            [
                .. plan
                    .Steps.Where(s => own.Contains(s.Ref))
                    .Select(s => s with { Start = rest.ToBench(s.Start), End = rest.ToBench(s.End) }),
            ],
        };
    }

    private static Outcome<DayProblem> Late(
        BenchRest rest,
        LateSubject subject,
        int second,
        ImmutableArray<BenchCard> cards
    )
    {
        var day = rest.Problem;
        var until = rest.ToProblem(second);
        switch (subject.Kind)
        {
            case "hand":
                return day with
                {
                    Wishes = day.Wishes with { Breaks = [.. day.Wishes.Breaks, new DayBreak(day.Now, until, 1)] },
                };
            case "order":
                var begun = day.Fixed.Where(f => f.Op == "place").Select(f => f.Ref).ToHashSet(StringComparer.Ordinal);
                var its = cards.Where(c => c.Job == subject.Name).Select(c => c.Ref).ToHashSet(StringComparer.Ordinal);
                var waiting = day
                    .Placements.Where(p => its.Contains(p.Id.Split('~')[0]) && !begun.Contains(p.Id))
                    .ToArray();
                return waiting.Length == 0
                    ? new Fault($"“{subject.Name}”", "has nothing left to be pressed.", "Choose what is late.")
                    : day with
                    {
                        Wishes = day.Wishes with
                        {
                            Pins = [.. day.Wishes.Pins, .. waiting.Select(p => new DayPin("place", p.Id, until, null))],
                        },
                    };
            default:
                return LateThings.Apply(day, Where, subject.Name, until);
        }
    }

    // Which task needs what is late: it is not offered before.
    private static bool Waits(BenchTask task, DayStep step, LateSubject late, ImmutableArray<BenchCard> cards) =>
        late.Kind switch
        {
            "press" => step.Press == late.Name && task.Op is "bond.load" or "load" or "finish.load",
            "sheet" => task.Op == "bond.load" && task.Ref == late.Name,
            "order" => task.Op == "load" && cards.Any(c => c.Ref == task.Ref && c.Job == late.Name),
            _ => false,
        };

    private Outcome<DayPlan> Solve(DayProblem day)
    {
        using var clock = new CancellationTokenSource(Patience, workshop.Clock);
        var begun = workshop.Clock.GetTimestamp();
        var plan = DayPlanner.Solve(
            day,
            new DaySearch
            {
                Seed = 1,
                Effort = 0,
                Gone = () => workshop.Clock.GetElapsedTime(begun) / Patience,
            },
            null,
            clock.Token
        );
        return DayCheck.Faults(day, plan.Steps) is [{ } fault, ..]
            ? new Fault(Where, $"found no plan for what is left: {fault}", "Go on by the plan as it is.")
            : plan;
    }
}
