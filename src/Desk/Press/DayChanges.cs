using System.Collections.Immutable;
using Coldpeel.Craft.Press.Day;

namespace Coldpeel.Desk.Press;

/// <summary>A task that stands elsewhere than before: its first step, when it began and on which press, then and now.</summary>
public sealed record MovedTask(string Op, string Ref, int From, int To, string? FromPress, string? ToPress);

/// <summary>What a new plan changed: of how many tasks known before, which moved by a minute or more or to another press.</summary>
public sealed record DayChanges(int Known, ImmutableArray<MovedTask> Moved)
{
    /// <summary>Tasks that no plan held before.</summary>
    public int Added { get; init; }

    /// <summary>Tasks of the plan before that are in the day no more.</summary>
    public int Dropped { get; init; }

    private const int ElsewhereS = 60;

    internal static DayChanges Between(DayPlan before, DayPlan after)
    {
        var now = after.Steps.Where(s => TaskOf(s.Op) is not null).ToDictionary(s => (s.Op, s.Ref));
        var all = before.Steps.Where(s => TaskOf(s.Op) is not null).ToList();
        var known = all.Where(s => now.ContainsKey((s.Op, s.Ref))).ToList();
        return new(
            known.Count,
            [
                .. known
                    .Select(s => (Old: s, New: now[(s.Op, s.Ref)]))
                    .Where(x => Math.Abs(x.New.Start - x.Old.Start) >= ElsewhereS || x.New.Press != x.Old.Press)
                    .OrderBy(x => x.New.Start)
                    .Select(x => new MovedTask(
                        x.Old.Op,
                        x.Old.Ref,
                        x.Old.Start,
                        x.New.Start,
                        x.Old.Press,
                        x.New.Press
                    )),
            ]
        )
        {
            Added = now.Count - known.Count,
            Dropped = all.Count - known.Count,
        };
    }

    /// <summary>The task that a step begins, or null when it only goes on with one.</summary>
    internal static string? TaskOf(string op) =>
        op switch
        {
            "bond.load" => "bond",
            "load" => "place",
            "finish.load" => "finish",
            "trim" or "peel" or "inspect" => op,
            _ => null,
        };
}
