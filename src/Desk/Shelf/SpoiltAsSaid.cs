using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Shelf;

namespace Coldpeel.Desk.Shelf;

/// <summary>What somebody who inspected wrote of a group of items.</summary>
/// <param name="Ticket">The ticket of the group; 0 for the only one.</param>
/// <param name="Count">How many are spoilt, as typed; empty for none.</param>
/// <param name="Numbers">Which of them, where they have names.</param>
public sealed record SpoiltSaid(int Ticket, string Count, ImmutableArray<int> Numbers);

/// <summary>Reads what was found spoilt.</summary>
internal static class SpoiltAsSaid
{
    /// <summary>The items, or the fault of what was written.</summary>
    public static Outcome<SpoiltItems[]> Read(OrderUse? use, IEnumerable<SpoiltSaid> said)
    {
        var found = new List<SpoiltItems>();
        foreach (var one in said)
        {
            var text = one.Count.Trim();
            var count = 0;
            if (text.Length > 0 && !int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out count))
            {
                return new Fault(
                    "Spoilt",
                    $"“{text}” is no number of items.",
                    "Write a whole number, or leave it empty."
                );
            }

            if (count == 0 && one.Numbers.IsEmpty)
            {
                continue;
            }

            var group =
                one.Ticket == 0 && use?.Groups.Length == 1
                    ? use.Groups[0]
                    : use?.Groups.FirstOrDefault(g => g.Ticket == one.Ticket);
            if (group is null)
            {
                return new Fault(
                    "Spoilt",
                    use is null
                        ? "cannot be counted: the order was kept by an earlier version."
                        : "does not say which items.",
                    use is null
                        ? "Bring the order again, or leave the field empty and write it into the note."
                        : "Write it beside the items that are spoilt."
                );
            }

            var numbers = one.Numbers.Distinct().Order().ToImmutableArray();
            count = numbers.IsEmpty ? count : numbers.Length;
            if (count > group.Items.Length || numbers.Any(n => n < 1 || n > group.Items.Length))
            {
                return new Fault(
                    "Spoilt",
                    $"is more than the {group.Items.Length.ToString(CultureInfo.InvariantCulture)} × {group.What} of the order.",
                    "Count those of the last pressing only: what was spoilt at the bench stands in the record already."
                );
            }

            found.Add(new(group, numbers, count));
        }

        return found.ToArray();
    }

    /// <summary>In words, for the history.</summary>
    public static string Say(IEnumerable<SpoiltItems> spoilt, WhoseItems who) =>
        string.Join(
            ", ",
            spoilt.Select(s =>
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{s.Count} × {s.Group.What} spoilt{(s.Numbers.IsEmpty ? "" : $" ({string.Join(", ", s.Numbers.Select(n => who.Of(s.Group, n)))})")}"
                )
            )
        );
}
