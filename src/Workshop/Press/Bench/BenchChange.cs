using System.Collections.Immutable;
using Coldpeel.Craft.Press.Day;

namespace Coldpeel.Workshop.Press.Bench;

/// <summary>Where a task stands after the rest of a day was planned again.</summary>
/// <param name="Task">The task.</param>
/// <param name="StartS">Planned start, in seconds of the day.</param>
/// <param name="Press">The press, where one is held.</param>
/// <param name="Hand">The hand from 1, where one is taken.</param>
/// <param name="NotBeforeS">It cannot be begun before this second of the day; 0 when it can be at any time.</param>
public sealed record BenchMove(string Task, int StartS, string? Press, int? Hand, int NotBeforeS);

/// <summary>The rest of a day planned again because something is late or was added; it holds for as long as the tap that asked for it.</summary>
/// <param name="Key">Key of that tap.</param>
/// <param name="Moves">Tasks that had not begun.</param>
/// <param name="Added">Tasks of an order that was put in.</param>
/// <param name="More">The work of that order, for whoever plans again after it; null when none was put in.</param>
public sealed record BenchChange(
    string Key,
    ImmutableArray<BenchMove> Moves,
    ImmutableArray<BenchTask> Added,
    DayProblem? More
);

/// <summary>What can be late at the bench, as a tap names it: <c>order:NAME</c>, <c>press:ID</c>, <c>sheet:ID</c> or <c>hand</c>.</summary>
/// <param name="Kind">order, press, sheet or hand.</param>
/// <param name="Name">Of the order, press or sheet; empty for a hand.</param>
public sealed record LateSubject(string Kind, string Name)
{
    /// <summary>The subject that a tap names; null for none.</summary>
    public static LateSubject? Of(string about)
    {
        ArgumentNullException.ThrowIfNull(about);
        var cut = about.IndexOf(':', StringComparison.Ordinal);
        return (cut < 0 ? about : about[..cut]) switch
        {
            "hand" when cut < 0 => new("hand", ""),
            "order" or "press" or "sheet" when cut > 0 && cut < about.Length - 1 => new(
                about[..cut],
                about[(cut + 1)..]
            ),
            _ => null,
        };
    }
}
