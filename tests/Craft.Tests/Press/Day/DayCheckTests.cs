using Coldpeel.Craft.Press.Day;

namespace Coldpeel.Craft.Tests.Press.Day;

/// <summary>The judge is judged: a good plan passes, and each way to spoil it is found.</summary>
public sealed class DayCheckTests
{
    private static readonly DayProblem Day = Days.Mixed();
    private static readonly DayPlan Good = Days.Plan(
        Day,
        new DaySearch
        {
            Seed = 3,
            Trials = 40,
            Effort = 0,
        }
    );

    private static readonly Dictionary<
        string,
        (Func<IEnumerable<DayStep>, IEnumerable<DayStep>> Spoil, string Says)
    > Ways = new()
    {
        ["a step is lost"] = (s => s.Where(x => (x.Op, x.Ref) != ("peel", "J3")), "lacks its peel"),
        ["a placement is lost"] = (s => s.Where(x => x.Ref != "J4"), "lacks its load"),
        ["a sheet is lost"] = (s => s.Where(x => x.Ref != "S2"), "never bonded"),
        ["a step is doubled"] = (s => s.Append(s.Step("trim", "J1")), "twice"),
        ["a step is of nothing known"] = (s => s.Append(s.Step("trim", "J1") with { Ref = "J9" }), "knows no such"),
        ["a shelf piece is trimmed"] = (s => s.Append(s.Step("trim", "J1") with { Ref = "J4" }), "knows no such"),
        ["the press closes for less"] = (Alter("press", "J1", x => x with { End = x.End - 1 }), "instead of 25 s"),
        ["the lift comes a second late"] = (Alter("lift", "J3", x => Later(x, 1)), "do not follow at once"),
        ["the hot peel waits"] = (Alter("bond.peel", "S1", x => Later(x, 5)), "do not follow at once"),
        ["a block changes press midway"] = (
            Alter("finish.press", "J1", x => x with { Press = x.Press == "P1" ? "P2" : "P1" }),
            "not on one press"
        ),
        ["a large item lies on the small plate"] = (
            AlterAll("J3", ["load", "press", "lift"], x => x with { Press = "P2" }),
            "does not fit"
        ),
        ["a press of another day"] = (
            AlterAll("J1", ["load", "press", "lift"], x => x with { Press = "P7" }),
            "no press of this day"
        ),
        ["a hand is missing"] = (Alter("inspect", "J1", x => x with { Hand = null }), "has no hand"),
        ["a hand nobody has"] = (Alter("inspect", "J1", x => x with { Hand = 2 }), "given hand 2"),
        ["a hand does two things at once"] = (
            s => s.Select(x => x.Op == "inspect" && x.Ref == "J4" ? At(x, s.Step("bond.peel", "S1").Start) : x),
            "at once"
        ),
        ["a hand on a closed press"] = (Alter("press", "J1", x => x with { Hand = 1 }), "needs no hand"),
        ["a rack place nobody has"] = (Alter("cool", "J1", x => x with { Rack = 7 }), "rack place 7"),
        ["cooling in mid-air"] = (Alter("cool", "J1", x => x with { Rack = null }), "no rack place"),
        ["cooling cut short"] = (Alter("cool", "J1", x => x with { End = x.End - 1 }), "less than 120 s"),
        ["cooling begins late"] = (Alter("cool", "J1", x => Later(x, 1)), "from the end of its lift"),
        ["peeled warm"] = (
            s => s.Select(x => (x.Op, x.Ref) == ("peel", "J1") ? At(x, s.Step("cool", "J1").End - 1) : x),
            "before it has cooled"
        ),
        ["finished before the peel"] = (
            s => Move(s, "J3", ["finish.load", "finish.press", "unload"], s.Step("peel", "J3").End - 1),
            "before it is peeled"
        ),
        ["looked at on the press"] = (
            s => s.Select(x => (x.Op, x.Ref) == ("inspect", "J3") ? At(x, s.Step("unload", "J3").End - 1) : x),
            "before it is unloaded"
        ),
        ["trimmed before the hot peel"] = (
            s => s.Select(x => (x.Op, x.Ref) == ("trim", "J3") ? At(x, s.Step("bond.peel", "S2").End - 1) : x),
            "before the hot peel"
        ),
        ["placed before it is trimmed"] = (
            s => Move(s, "J3", ["load", "press", "lift"], s.Step("trim", "J3").End - 1),
            "before its piece is trimmed"
        ),
        ["bonded before it is printed"] = (
            s => Move(s, "S1", ["bond.load", "bond.press", "bond.peel"], 39),
            "before it is printed"
        ),
        ["the back before the front is done"] = (
            s => Move(s, "J2", ["load", "press", "lift"], s.Step("inspect", "J1").End - 1),
            "at once"
        ),
        ["before now"] = (s => Move(s, "J4", ["load", "press", "lift"], -1), "before now"),
        ["two items on a plate"] = (
            s => Move(s, "J3", ["load", "press", "lift"], s.Step("bond.press", "S1").Start),
            "taken twice"
        ),
        ["no time to change the set-point"] = (
            s => Move(s, "J2", ["load", "press", "lift"], LastBefore(s, "J2")),
            "cannot be at 140"
        ),
    };

    public static TheoryData<string> Names => [.. Ways.Keys];

    [Fact]
    public void A_good_plan_passes() => Assert.Empty(DayCheck.Faults(Day, Good.Steps));

    [Theory]
    [MemberData(nameof(Names))]
    public void A_spoilt_plan_is_refused_and_the_reason_named(string way)
    {
        var (spoil, says) = Ways[way];

        var faults = DayCheck.Faults(Day, [.. spoil(Good.Steps)]);

        Assert.Contains(faults, f => f.Contains(says, StringComparison.Ordinal));
    }

    [Fact]
    public void A_good_plan_of_another_day_is_refused()
    {
        Assert.NotEmpty(DayCheck.Faults(Day with { CoolCPerMin = 0.5 }, Good.Steps));
        Assert.NotEmpty(DayCheck.Faults(Day with { Now = 1 }, Good.Steps));
        Assert.NotEmpty(
            DayCheck.Faults(Day with { Presses = [Days.Large with { FreeAt = 600 }, Days.Small] }, Good.Steps)
        );
        Assert.NotEmpty(DayCheck.Faults(Day with { RackPlaces = 1 }, Good.Steps));
        Assert.NotEmpty(DayCheck.Faults(Day with { Fixed = [new DayFixed("bond", "S1", "P1", 41)] }, Good.Steps));
    }

    [Fact]
    public void Two_items_cannot_share_a_rack_place()
    {
        var day = Days.Of(Days.Shelf("J1"), Days.Shelf("J2"));
        var plan = Days.Plan(day, new DaySearch { Seed = 1, Trials = 5 });

        var faults = DayCheck.Faults(day, [.. plan.Steps.Select(s => s.Rack is null ? s : s with { Rack = 1 })]);

        Assert.Contains(faults, f => f.StartsWith("Rack place 1 is taken", StringComparison.Ordinal));
    }

    private static Func<IEnumerable<DayStep>, IEnumerable<DayStep>> Alter(
        string op,
        string name,
        Func<DayStep, DayStep> change
    ) => AlterAll(name, [op], change);

    private static Func<IEnumerable<DayStep>, IEnumerable<DayStep>> AlterAll(
        string name,
        string[] ops,
        Func<DayStep, DayStep> change
    ) => steps => steps.Select(s => s.Ref == name && ops.Contains(s.Op) ? change(s) : s);

    private static DayStep Later(DayStep step, int by) => step with { Start = step.Start + by, End = step.End + by };

    private static DayStep At(DayStep step, int start) => Later(step, start - step.Start);

    private static IEnumerable<DayStep> Move(IEnumerable<DayStep> steps, string name, string[] ops, int start)
    {
        var by = start - steps.Step(ops[0], name).Start;
        return AlterAll(name, ops, s => Later(s, by))(steps);
    }

    // A start of the block right after the run before it on its press, whatever the set-point there was.
    private static int LastBefore(IEnumerable<DayStep> steps, string name)
    {
        var load = steps.Step("load", name);
        return steps.Where(s => s.Press == load.Press && s.End <= load.Start).Max(s => s.End);
    }
}
