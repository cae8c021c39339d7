using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Globalization;

namespace Coldpeel.Workshop.Findings;

/// <summary>Reads a line that a history or the shelf keeps in English back into the sentence it was, so that a page can word it.</summary>
/// <remarks>
/// What is kept is never changed, and other programs read it as it stands: only who looks at it has a language. What somebody wrote, and what
/// no form fits, stays as it is. Two readings are possible where a name holds the words of a form: both say the same names in the same order.
/// </remarks>
public static class PastLine
{
    // Longer than the store keeps a line, and more parts than one has.
    private const int Longest = 1200;
    private const int Deepest = 8;

    // What a place of a form takes.
    private enum Takes
    {
        // Any text, the same in every language.
        Text,

        // A word of our own, or any other.
        Data,

        // A line of ours, or any text.
        Line,

        // A line of ours that is no list.
        Ours,

        // A count.
        Count,

        // How many came or went: "+3", "-0.5".
        Move,

        // How many there are: "7", "0.5".
        Amount,

        // "210 × 147.4 mm".
        Size,

        // What stood in a field: “60”, or nothing.
        Value,

        // The same of a length in millimetres.
        Mm,
    }

    private sealed record Form(string English, ImmutableArray<Takes> Places)
    {
        // As it is said: a length that is kept bare is told with its unit.
        public string Said { get; init; } = English;

        // The letters before each place, and after the last.
        public ImmutableArray<string> Between { get; } =
        [.. System.Text.RegularExpressions.Regex.Split(English, """\{\d\}""")];
    }

    private static readonly FrozenSet<string> Whole = FrozenSet.ToFrozenSet(
        [
            "made",
            "made again",
            "told anew",
            "put on the shelf",
            "thrown out",
            "added",
            "ended",
            "let in as Owner",
            "let in as Helper",
            "let in as Program",
            "let in as owner",
            "let in as helper",
            "let in as program",
            "nothing",
            "for its sheets",
            "as the quote reckons",
            "used instead of being printed",
            "beyond what it needs",
            "left of its last sheet",
            "for its items",
            "in place of a spoilt one",
            "at the bench",
            "counted on the shelf page",
            "accepted as the order was brought",
            "present prices, recipes and machines taken up",
            "transfers from the shelf are used instead of being printed",
            "all is printed",
            "the approval that fell holds again",
            "this approval holds again",
            "which proof was approved is not known: approval is asked for anew",
            "the proof shows something else than what was approved: approval is asked for anew",
            "Approve",
            "Print",
            "Press",
            "Inspect",
            "HandOver",
            "SetAside",
            "TakeBack",
            "Change",
        ],
        StringComparer.Ordinal
    );

    // The first that fits is taken: what says more stands first.
    private static readonly ImmutableArray<Form> Forms =
    [
        new("made again: {0}", [Takes.Line]),
        new("the content of version {0} again, as it was before the change of {1}", [Takes.Count, Takes.Text]),
        new("as it was before the change of {0}", [Takes.Text]),
        // An approval: who said so, and how.
        new("{0}; this approval holds again", [Takes.Line]),
        new("{0}, said so before pressing began", [Takes.Text]),
        // Written by earlier versions in the language of whoever tapped.
        new("{0}, vor dem Pressen zugesagt", [Takes.Text]) { Said = "{0}, said so before pressing began" },
        new("spoilt pieces are made again in {0}", [Takes.Text]),
        new("made again in {0}", [Takes.Text]),
        new("accepted {0}: {1}", [Takes.Text, Takes.Text]),
        new("answer to {0} taken back", [Takes.Text]),
        new("mended {0}: {1}", [Takes.Text, Takes.Text]),
        new("mends of {0} taken back", [Takes.Text]),
        new("due {0} → {1}", [Takes.Value, Takes.Value]),
        new("width of {0} in mm {1} → {2}", [Takes.Text, Takes.Mm, Takes.Mm]) { Said = "width of {0}: {1} → {2}" },
        new("height of letters of {0} in mm {1} → {2}", [Takes.Text, Takes.Mm, Takes.Mm])
        {
            Said = "height of letters of {0}: {1} → {2}",
        },
        new("height of {0} in mm {1} → {2}", [Takes.Text, Takes.Mm, Takes.Mm]) { Said = "height of {0}: {1} → {2}" },
        new("language of the papers {0} → {1}", [Takes.Value, Takes.Value]),
        new("{0}: place of {1} {2} → {3}", [Takes.Text, Takes.Text, Takes.Value, Takes.Value]),
        new("{0}: names, line {1} {2} → {3}", [Takes.Text, Takes.Count, Takes.Value, Takes.Value]),
        new("{0}: material {1} → {2}", [Takes.Text, Takes.Value, Takes.Value]),
        new("{0}: colour {1} → {2}", [Takes.Text, Takes.Value, Takes.Value]),
        new("{0}: size {1} → {2}", [Takes.Text, Takes.Value, Takes.Value]),
        new("{0}: quantity {1} → {2}", [Takes.Text, Takes.Value, Takes.Value]),
        new("Approve: {0}", [Takes.Line]),
        new("Print: {0}", [Takes.Text]),
        new("Press: {0}", [Takes.Text]),
        new("Inspect: {0}", [Takes.Line]),
        new("HandOver: {0}", [Takes.Text]),
        new("SetAside: {0}", [Takes.Text]),
        new("TakeBack: {0}", [Takes.Text]),
        new("Change: {0}", [Takes.Line]),
        new("taken back: {0}", [Takes.Line]),
        new("set to {0}", [Takes.Text]),
        new("{0} × {1} spoilt ({2})", [Takes.Count, Takes.Text, Takes.Text]),
        new("{0} × {1} spoilt ({2}): {3}", [Takes.Count, Takes.Text, Takes.Text, Takes.Text]),
        new("{0} × {1} spoilt: {2}", [Takes.Count, Takes.Text, Takes.Text]),
        new("{0} × {1} spoilt", [Takes.Count, Takes.Text]),
        new("{0} {1}: {2}", [Takes.Move, Takes.Data, Takes.Line]),
        new("{0} counted on the shelf", [Takes.Amount]),
        new("started sheet {0}, {1}", [Takes.Size, Takes.Text]),
        new("sheet {0}", [Takes.Count]),
        // Why a day leaves something out, as the core says it.
        new("Placement {0} waits for sheet {1}, which no press can bond.", [Takes.Text, Takes.Text]),
        new(
            "Placement {0} comes after {1} on item {2}, which cannot be planned.",
            [Takes.Text, Takes.Text, Takes.Text]
        ),
        new("Placement {0} needs {1} and is banned from every press with such a plate.", [Takes.Text, Takes.Size]),
        new("Placement {0} needs a press and the day has none.", [Takes.Text]),
        new(
            "Placement {0} needs {1} and no press has such a plate (the largest is {2}, {3}).",
            [Takes.Text, Takes.Size, Takes.Text, Takes.Size]
        ),
        new("{0}, step taken back: {1}", [Takes.Text, Takes.Ours]),
        new("{0}, {1}: tap taken back: {2}", [Takes.Text, Takes.Text, Takes.Ours]),
        new("{0}, printed: {1}", [Takes.Text, Takes.Ours]),
        new("{0}, pressed: {1}", [Takes.Text, Takes.Ours]),
        new("{0}, inspected: {1}", [Takes.Text, Takes.Ours]),
        new("{0}, {1} spoilt at the bench: {2}", [Takes.Text, Takes.Text, Takes.Ours]),
        new("{0}, {1} made again at the bench: {2}", [Takes.Text, Takes.Text, Takes.Ours]),
        // The same of the order whose page is looked at.
        new("printed: {0}", [Takes.Ours]),
        new("pressed: {0}", [Takes.Ours]),
        new("inspected: {0}", [Takes.Ours]),
        new("step taken back: {0}", [Takes.Ours]),
        new("{0} spoilt at the bench: {1}", [Takes.Text, Takes.Ours]),
        new("{0} made again at the bench: {1}", [Takes.Text, Takes.Ours]),
        new("{0}: tap taken back: {1}", [Takes.Text, Takes.Ours]),
    ];

    private static readonly ImmutableArray<Form> WithLists =
    [
        new("{0}; {1}", [Takes.Ours, Takes.Line]),
        new("{0}, {1}", [Takes.Ours, Takes.Line]),
        .. Forms,
    ];

    /// <summary>All English forms of such lines, for whoever asks whether each has its wording.</summary>
    public static IEnumerable<string> English => [.. Whole, .. Forms.Select(f => f.Said)];

    /// <summary>The sentence that a kept line is; in English it says the same, letter by letter, but for the lengths of a design, which get their unit.</summary>
    public static Sentence Read(string line)
    {
        ArgumentNullException.ThrowIfNull(line);
        return line.Length <= Longest && new Reading().Ours(line, 0, lists: true) is { } said
            ? said
            : new("{0}", [new Part.Text(line)]);
    }

    // One line being read: names may hold the words of forms, so it is tried in many ways, but in no more than these.
    private sealed class Reading
    {
        private int _tries = 2000;

        public Sentence? Ours(string line, int depth, bool lists)
        {
            if (Whole.Contains(line))
            {
                return line;
            }

            if (depth < Deepest && _tries-- > 0)
            {
                foreach (var form in lists ? WithLists : Forms)
                {
                    if (Fill(form, 0, line, depth, []) is { } parts)
                    {
                        return new(form.Said, parts);
                    }
                }
            }

            return null;
        }

        // The parts of the form from that place on, out of what is left of the line; null where it does not fit.
        private ImmutableArray<Part>? Fill(Form form, int place, string left, int depth, ImmutableArray<Part> parts)
        {
            var before = form.Between[place];
            if (!left.StartsWith(before, StringComparison.Ordinal))
            {
                return null;
            }

            left = left[before.Length..];
            if (place == form.Places.Length)
            {
                return left.Length == 0 ? parts : null;
            }

            var next = form.Between[place + 1];
            if (next.Length == 0)
            {
                return place + 1 == form.Places.Length && PartOf(form.Places[place], left, depth) is { } last
                    ? parts.Add(last)
                    : null;
            }

            for (
                var end = left.IndexOf(next, StringComparison.Ordinal);
                end >= 0;
                end = left.IndexOf(next, end + 1, StringComparison.Ordinal)
            )
            {
                if (
                    PartOf(form.Places[place], left[..end], depth) is { } part
                    && Fill(form, place + 1, left[end..], depth, parts.Add(part)) is { } filled
                )
                {
                    return filled;
                }
            }

            return null;
        }

        private Part? PartOf(Takes takes, string text, int depth) =>
            text.Length == 0
                ? null
                : takes switch
                {
                    Takes.Text => new Part.Text(text),
                    Takes.Data => new Part.Inner(text),
                    Takes.Line => Ours(text, depth + 1, lists: true) is { } line
                        ? new Part.Inner(line)
                        : new Part.Text(text),
                    Takes.Ours => Ours(text, depth + 1, lists: false) is { } ours ? new Part.Inner(ours) : null,
                    Takes.Count => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var count)
                        ? new Part.Number(count, "0")
                        : null,
                    Takes.Move => Exact(text, "+0.###;-0.###"),
                    Takes.Amount => Exact(text, "0.###"),
                    Takes.Mm when Mm(text) is { } mm => mm,
                    Takes.Value or Takes.Mm => text is ['“', .. var typed, '”']
                    && !typed.Contains("”; ", StringComparison.Ordinal)
                        ? new Part.Text(text)
                    : text == "nothing" ? new Part.Inner(text)
                    : null,
                    _ => Size(text),
                };
    }

    // Only what the form itself would have written.
    private static Part.Exact? Exact(string text, string form) =>
        decimal.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number)
        && number.ToString(form, CultureInfo.InvariantCulture) == text
            ? new Part.Exact(number, form)
            : null;

    // As it was typed: "60", "80,5".
    private static Part.Length? Mm(string text) =>
        text is ['“', .. var typed, '”']
        && double.TryParse(
            typed.Replace(',', '.'),
            NumberStyles.AllowDecimalPoint,
            CultureInfo.InvariantCulture,
            out var mm
        )
            ? new Part.Length(mm, null, Wording.Exact)
            : null;

    private static Part.Length? Size(string text)
    {
        var sides = text.EndsWith(" mm", StringComparison.Ordinal) ? text[..^3].Split(" × ") : [];
        return
            sides.Length == 2
            && double.TryParse(sides[0], NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var width)
            && double.TryParse(sides[1], NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var height)
            ? new Part.Length(width, height, "0.#")
            : null;
    }
}
