using System.Collections.Immutable;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Desk.Press;
using CsCheck;
using Op = Coldpeel.Desk.Tests.Press.PlanPaper.Op;

namespace Coldpeel.Desk.Tests.Press;

/// <summary>The outside rules are judged themselves: a good plan passes, and whichever step a rule is broken at, that rule says so.</summary>
public sealed class PlanRulesTests
{
    private static readonly PlannedDay Planned = Plan();
    private static readonly PlanPaper Good = PlanPaper.Read(File.ReadAllText(Morning), Planned.Json);

    private static string Morning => Place.Data("press", "pinned-morning.json");

    // Every way gives the plan once for each place where it can be spoilt so.
    private static readonly Dictionary<string, (string Rule, Func<IEnumerable<PlanPaper>> Spoilt)> Ways = new()
    {
        ["a step is lost"] = ("each once", () => Good.Ops.Select(o => Good with { Ops = Good.Ops.Remove(o) })),
        ["a step is doubled"] = ("each once", () => Good.Ops.Select(o => Good with { Ops = Good.Ops.Add(o) })),
        ["a step is nobody's"] = ("each once", () => Altered(o => o with { Ref = "nobody" })),
        ["a shelf piece is trimmed"] = (
            "each once",
            () => Only("trim").Select(o => Good with { Ops = Good.Ops.Add(o with { Ref = "fob-1.1" }) })
        ),
        ["a step is a second short"] = (
            "as long as given",
            () => Altered(o => o with { End = o.End - 1 }, o => o.Name != "cool")
        ),
        ["a block waits a second"] = (
            "no wait on one press",
            () => Altered(o => Later(o, 1), o => Runs.Any(r => r.Steps.Skip(1).Contains(o)))
        ),
        ["a block changes press midway"] = (
            "no wait on one press",
            () => Altered(o => o with { Press = Other(o.Press!) }, o => o.Press is not null)
        ),
        ["two items on one plate"] = (
            "one op on a press",
            () => Pairs(a => a.Steps[0].Press, a => a.Steps[^1].End - 1)
        ),
        ["too large for the plate"] = (
            "fits the plate",
            () =>
                Runs.Where(r =>
                        !r.Of.StartsWith("fob", StringComparison.Ordinal)
                        && !r.Of.EndsWith(".1", StringComparison.Ordinal)
                    )
                    .Select(r => Moved(r.Steps, o => o with { Press = "small" }))
        ),
        ["an item wider than every plate"] = (
            "fits the plate",
            () => Asked(p => p with { Wide = 501 }).Concat(Asked(p => p with { Wide = 401, High = 401 }))
        ),
        ["hotter than the press can be"] = ("set-point reached", () => Asked(p => p with { TempC = p.TempC + 40 })),
        ["colder than the press can be"] = ("set-point reached", () => Asked(p => p with { TempC = p.TempC - 60 })),
        ["a press that heats slowly"] = (
            "set-point reached",
            () => [Good with { Day = Good.Day with { HeatCPerMin = 0.1 } }]
        ),
        ["a press that cools slowly"] = (
            "set-point reached",
            () => [Good with { Day = Good.Day with { CoolCPerMin = 0.1 } }]
        ),
        ["a hand is missing"] = ("one hand each", () => Altered(o => o with { Hand = null }, o => o.Hand is not null)),
        ["a hand nobody has"] = ("one hand each", () => Altered(o => o with { Hand = 3 }, o => o.Hand is not null)),
        ["a hand does two things"] = (
            "one hand each",
            () =>
                from a in Good.Ops
                from b in Good.Ops
                where a.Hand is not null && b.Hand is not null && a != b
                where a.Start < b.End && b.Start < a.End
                select With(a, a with { Hand = b.Hand })
        ),
        ["fewer hands than are needed"] = (
            "one hand each",
            () =>
                [
                    Good with
                    {
                        Day = Good.Day with { Hands = 1 },
                        Ops = [.. Good.Ops.Select(o => o.Hand is null ? o : o with { Hand = 1 })],
                    },
                ]
        ),
        ["a rack place is missing"] = (
            "rack places",
            () => Altered(o => o with { Rack = null }, o => o.Name == "cool")
        ),
        ["a rack place nobody has"] = ("rack places", () => Altered(o => o with { Rack = 4 }, o => o.Name == "cool")),
        ["two items on one rack place"] = (
            "rack places",
            () =>
                from a in Only("cool")
                from b in Only("cool")
                where a != b && a.Start < b.End && b.Start < a.End
                select With(a, a with { Rack = b.Rack })
        ),
        ["fewer rack places than are needed"] = (
            "rack places",
            () => [Good with { Day = Good.Day with { RackPlaces = Only("cool").Max(o => o.Rack!.Value) - 1 } }]
        ),
        ["cooled a second less"] = (
            "cool at least",
            () => Altered(o => o with { End = o.End - 1 }, o => o.Name == "cool")
        ),
        ["cooling begins late"] = ("cool at least", () => Altered(o => Later(o, 1), o => o.Name == "cool")),
        ["peeled while it cools"] = (
            "cool at least",
            () => Altered(o => At(o, Step("cool", o.Ref).End - 1), o => o.Name == "peel")
        ),
        ["trimmed before the hot peel ends"] = (
            "steps in order",
            () => Altered(o => At(o, Step("bond.peel", SheetOf(o)).End - 1), o => o.Name == "trim")
        ),
        ["trimmed while it is laid"] = (
            "steps in order",
            () => Altered(o => At(o, Step("load", o.Ref).Start - (o.End - o.Start) + 1), o => o.Name == "trim")
        ),
        ["finished before it is peeled"] = (
            "steps in order",
            () =>
                Runs.Where(r => r.Steps[0].Name == "finish.load")
                    .Select(r => Shifted(r.Steps, Step("peel", r.Of).End - 1 - r.Steps[0].Start))
        ),
        ["looked at on the plate"] = (
            "steps in order",
            () => Altered(o => At(o, Step("unload", o.Ref).End - 1), o => o.Name == "inspect")
        ),
        ["the second place before the first is done"] = (
            "after",
            () =>
                from p in Good.Day.Placements
                where p.After is not null
                let run = Runs.Single(r => r.Of == p.Id && r.Steps[0].Name == "load")
                select Shifted(run.Steps, Step("inspect", p.After!).End - 1 - run.Steps[0].Start)
        ),
        ["bonded before it is printed"] = (
            "printed before bonded",
            () =>
                Good.Day.Sheets.Select(s =>
                    Shifted(Runs.Single(r => r.Of == s.Id).Steps, s.AvailableAt - 1 - Step("bond.load", s.Id).Start)
                )
        ),
        ["before the press is free"] = (
            "press free, not before now",
            () =>
                from press in Good.Day.Presses
                let run = Runs.Where(r => r.Steps[0].Press == press.Id).MinBy(r => r.Steps[0].Start)
                select Shifted(run.Steps, press.FreeAt - 1 - run.Steps[0].Start)
        ),
        ["before now"] = ("press free, not before now", () => Altered(o => At(o, Good.Day.Now - 1))),
        ["before its pin"] = (
            "pinned",
            () => Good.Day.Pins.Select(p => Shifted(Task(p), p.Start - 1 - Task(p)[0].Start))
        ),
        ["on another press than its pin's"] = (
            "pinned",
            () =>
                Good
                    .Day.Pins.Where(p => p.Press is not null)
                    .Select(p => Moved(Task(p), o => o.Press is null ? o : o with { Press = Other(o.Press) }))
        ),
        ["a second after its pin"] = (
            "exactly as pinned",
            () => Good.Day.Pins.Where(p => p.Exactly).Select(p => Shifted(Task(p), 1))
        ),
        ["by other hands than its pin's"] = (
            "exactly as pinned",
            () =>
                Good
                    .Day.Pins.Where(p => p.Hand is not null)
                    .Select(p => Moved(Task(p), o => o.Hand is null ? o : o with { Hand = 3 - o.Hand }))
        ),
        ["on a press banned for it"] = (
            "banned",
            () =>
                from ban in Good.Day.Bans
                from run in Runs
                where run.Of == ban.Ref
                select Moved(run.Steps, o => o with { Press = ban.Press })
        ),
        ["on a press that is banned"] = (
            "banned",
            () =>
                Good.Day.Presses.Select(p =>
                    Good with
                    {
                        Day = Good.Day with { Bans = [new PlanPaper.Ban(p.Id, null)] },
                    }
                )
        ),
        ["work while everybody is away"] = (
            "breaks",
            () => Altered(o => At(o, Good.Day.Pauses[0].To - 1), o => o.Hand is not null && o.End > o.Start)
        ),
        ["work of one who is away"] = (
            "breaks",
            () =>
                Good
                    .Ops.Where(o => o.Hand is not null && o.End > o.Start)
                    .Select(o =>
                        Good with
                        {
                            Day = Good.Day with { Pauses = [new PlanPaper.Pause(o.End - 1, o.End, 2)] },
                        }
                    )
        ),
        ["a bound that is none"] = ("bound and makespan", () => [Good with { BoundS = Good.MakespanS + 1 }]),
        ["an earlier end"] = ("bound and makespan", () => [Good with { MakespanS = Good.MakespanS - 1 }]),
        ["proved for nothing"] = ("bound and makespan", () => [Good with { Proved = !Good.Proved }]),
    };

    private static IEnumerable<(string Of, Op[] Steps)> Runs => PlanRules.Runs(Good);

    public static TheoryData<string> Names => [.. Ways.Keys];

    [Fact]
    public void A_good_plan_passes() => Assert.Empty(PlanRules.Broken(Good));

    [Theory]
    [MemberData(nameof(Names))]
    public void Wherever_a_plan_is_spoilt_the_rule_it_breaks_says_so(string way)
    {
        var (rule, spoilt) = Ways[way];
        var plans = spoilt().ToArray();

        Assert.NotEmpty(plans);
        Assert.All(
            plans,
            plan => Assert.Contains(PlanRules.Broken(plan), f => f.StartsWith(rule, StringComparison.Ordinal))
        );
    }

    [Fact]
    public void Every_rule_is_broken_by_some_way() =>
        Assert.Equal(PlanRules.All.Keys.Order(), Ways.Values.Select(w => w.Rule).Distinct().Order());

    [Fact]
    public void The_programs_own_judge_and_these_rules_agree_on_plans_pushed_about()
    {
        // One to three blocks or steps, each some seconds earlier or later, or with another hand, place or press.
        var push = Gen.Select(
            Gen.Int[0, Good.Ops.Length - 1],
            Gen.Int[0, 4],
            Gen.OneOf(Gen.Int[-40, 40], Gen.Int[-900, 900])
        );
        push.Array[1, 3]
            .Sample(
                pushes =>
                {
                    var plan = pushes.Aggregate(Good, Pushed);
                    var last = plan.Ops.Max(o => o.End) - plan.Day.Now;
                    plan = plan with { MakespanS = last, BoundS = Math.Min(last, Good.BoundS) };
                    plan = plan with { Proved = plan.BoundS == last };
                    // A pin that cannot hold is told, not forbidden: only the rules judge it.
                    var ours = PlanRules
                        .Broken(plan)
                        .Where(f => !f.StartsWith("exactly", StringComparison.Ordinal))
                        .ToList();
                    var theirs = DayCheck.Faults(
                        Planned.Problem,
                        [.. plan.Ops.Select(o => new DayStep(o.Name, o.Ref, o.Start, o.End, o.Press, o.Hand, o.Rack))]
                    );
                    Assert.True(
                        (ours.Count > 0) == (theirs.Count > 0),
                        $"the rules: {string.Join("; ", ours)}; the judge: {string.Join("; ", theirs)}"
                    );
                },
                iter: 4000
            );
    }

    private static PlanPaper Pushed(PlanPaper plan, (int At, int How, int By) push)
    {
        var o = plan.Ops[push.At];
        var block = PlanRules.Runs(plan).FirstOrDefault(r => r.Steps.Contains(o)).Steps ?? [o];
        Op Change(Op x) =>
            push.How switch
            {
                0 when x.Hand is not null => x with { Hand = 1 + (Math.Abs(push.By) % 2) },
                1 when x.Name == "cool" => x with { Rack = 1 + (Math.Abs(push.By) % 3) },
                2 when x.Press is not null => x with { Press = Other(x.Press) },
                _ => Later(x, push.By),
            };
        return plan with { Ops = [.. plan.Ops.Select(x => block.Contains(x) ? Change(x) : x)] };
    }

    private static PlannedDay Plan()
    {
        var planned = new PlanDay().Run(Morning, new PlanDayOptions { Trials = 60 }, CancellationToken.None);
        Assert.True(planned.Ok, planned.Fault?.ToString());
        return planned.Value;
    }

    private static Op[] Task(PlanPaper.Pin pin) =>
        pin.Task == "place"
            ? Runs.Single(r => r.Of == pin.Ref && r.Steps[0].Name == "load").Steps
            : [Step(pin.Task, pin.Ref)];

    private static IEnumerable<Op> Only(string name) => Good.Ops.Where(o => o.Name == name);

    private static Op Step(string name, string of) => Good.Ops.Single(o => o.Name == name && o.Ref == of);

    private static string SheetOf(Op o) => Good.Day.Placements.Single(p => p.Id == o.Ref).Sheet!;

    private static string Other(string press) => press == "large" ? "small" : "large";

    private static Op Later(Op o, int by) => o with { Start = o.Start + by, End = o.End + by };

    private static Op At(Op o, int start) => Later(o, start - o.Start);

    private static PlanPaper With(Op old, Op instead) => Good with { Ops = Good.Ops.Replace(old, instead) };

    private static IEnumerable<PlanPaper> Altered(Func<Op, Op> change, Func<Op, bool>? which = null) =>
        Good.Ops.Where(o => which?.Invoke(o) ?? true).Select(o => With(o, change(o)));

    private static PlanPaper Moved(Op[] steps, Func<Op, Op> change) =>
        Good with
        {
            Ops = [.. Good.Ops.Select(o => steps.Contains(o) ? change(o) : o)],
        };

    private static PlanPaper Shifted(Op[] steps, int by) => Moved(steps, o => Later(o, by));

    private static IEnumerable<PlanPaper> Asked(Func<PlanPaper.Placement, PlanPaper.Placement> change) =>
        Good.Day.Placements.Select(p =>
            Good with
            {
                Day = Good.Day with { Placements = Good.Day.Placements.Replace(p, change(p)) },
            }
        );

    // Each block laid on a plate just before the block before it on that press is taken off.
    private static IEnumerable<PlanPaper> Pairs(
        Func<(string Of, Op[] Steps), string?> press,
        Func<(string Of, Op[] Steps), int> start
    ) =>
        from plate in Runs.GroupBy(press)
        let runs = plate.OrderBy(r => r.Steps[0].Start).ToArray()
        from pair in runs.Zip(runs.Skip(1))
        select Shifted(pair.Second.Steps, start(pair.First) - pair.Second.Steps[0].Start);
}
