using Op = Coldpeel.Desk.Tests.Press.PlanPaper.Op;

namespace Coldpeel.Desk.Tests.Press;

/// <summary>What the guide promises of pins, bans and breaks, over the two files alone; nothing here is shared with the program.</summary>
internal static class PlanWishRules
{
    private static readonly Dictionary<string, string[]> Tasks = new()
    {
        ["bond"] = ["bond.load", "bond.press", "bond.peel"],
        ["trim"] = ["trim"],
        ["place"] = ["load", "press", "lift"],
        ["peel"] = ["peel"],
        ["finish"] = ["finish.load", "finish.press", "unload"],
        ["inspect"] = ["inspect"],
    };

    public static IEnumerable<string> Pins(PlanPaper paper)
    {
        foreach (var pin in paper.Day.Pins)
        {
            var steps = Of(paper, pin);
            if (steps.Min(o => o.Start) < pin.Start)
            {
                yield return $"{pin.Task} of {pin.Ref} starts before {pin.Start} s";
            }

            if (pin.Press is not null && steps.Exists(o => o.Press is not null && o.Press != pin.Press))
            {
                yield return $"{pin.Task} of {pin.Ref} is not on {pin.Press}";
            }
        }
    }

    /// <summary>Asked before all else, and kept wherever it can be: so broken only in a plan for which it cannot.</summary>
    public static IEnumerable<string> Exactly(PlanPaper paper)
    {
        foreach (var pin in paper.Day.Pins)
        {
            var steps = Of(paper, pin);
            if (pin.Exactly && steps.Min(o => o.Start) != pin.Start)
            {
                yield return $"{pin.Task} of {pin.Ref} does not start at {pin.Start} s";
            }

            if (pin.Hand is not null && steps.Exists(o => o.Hand is not null && o.Hand != pin.Hand))
            {
                yield return $"{pin.Task} of {pin.Ref} is done by other hands than {pin.Hand}";
            }
        }
    }

    public static IEnumerable<string> Bans(PlanPaper paper) =>
        from ban in paper.Day.Bans
        from o in paper.Ops
        where o.Press == ban.Press && (ban.Ref is null || ban.Ref == o.Ref)
        select $"{o.Name} of {o.Ref} is on {ban.Press}";

    // Second by second: hands at work and hands away are never more than there are.
    public static IEnumerable<string> Breaks(PlanPaper paper)
    {
        var working = paper.Ops.Where(o => o.Hand is not null).ToArray();
        foreach (var second in paper.Day.Pauses.SelectMany(p => Enumerable.Range(p.From, p.To - p.From)).Distinct())
        {
            var away = paper.Day.Pauses.Where(p => p.From <= second && second < p.To).Sum(p => p.Hands);
            var busy = working.Count(o => o.Start <= second && second < o.End);
            if (busy > Math.Max(0, paper.Day.Hands - away))
            {
                yield return $"{busy} hands work at {second} s, {away} of {paper.Day.Hands} are away";
                yield break;
            }
        }
    }

    private static List<Op> Of(PlanPaper paper, PlanPaper.Pin pin) =>
        [.. paper.Ops.Where(o => o.Ref == pin.Ref && Tasks[pin.Task].Contains(o.Name))];
}
