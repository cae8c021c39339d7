using System.Collections.Immutable;
using System.Text;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Workshop.Findings;

/// <summary>Whether the names of an order are spelt as the customer meant them: nothing is corrected, the owner is told what to ask.</summary>
public static class RosterJudge
{
    private const int MostTold = 5;

    /// <summary>Findings by item group: spaces, letters of another alphabet, capitals, people twice, one person spelt in two ways.</summary>
    /// <param name="job">The job.</param>
    /// <param name="items">Its items with their roster rows.</param>
    public static ImmutableArray<Finding> Judge(Job job, ImmutableArray<OneItem> items)
    {
        ArgumentNullException.ThrowIfNull(job);
        var groups = job
            .Items.Where(i => i.Roster is not null)
            .Select(i => new Group(
                i,
                Columns(job, i),
                [.. items.Where(o => o.Group.Id == i.Id && o.Row is not null).Select(o => o.Row!)]
            ))
            .Where(g => g.Columns.Length > 0 && g.Rows.Length > 0)
            .ToArray();
        return
        [
            .. groups.SelectMany(g => One(g).Select(f => f with { Item = g.Item.Id })),
            .. groups.SelectMany((g, k) => groups.Skip(k + 1).SelectMany(other => Between(g, other))),
        ];
    }

    private sealed record Group(ItemRequest Item, ImmutableArray<string> Columns, ImmutableArray<RosterRow> Rows)
    {
        public string File => Item.Roster!;
    }

    private static ImmutableArray<string> Columns(Job job, ItemRequest item) =>
        [
            .. job
                .Designs.OfType<DesignRequest.Lettered>()
                .Where(d => item.Placements.Any(p => p.Design == d.Id))
                .SelectMany(d => LetteringText.Columns(d.Lettering.Text))
                .Distinct(StringComparer.OrdinalIgnoreCase),
        ];

    private static IEnumerable<Finding> One(Group group)
    {
        foreach (var column in group.Columns)
        {
            var cells = group.Rows.Select(r => (r.Line, Text: r.Cells.GetValueOrDefault(column, ""))).ToArray();
            if (
                Told(
                    cells.Where(c => HasDoubleSpace(c.Text)),
                    Severity.Warn,
                    group,
                    "double-space",
                    $"with two spaces together, as if a word were missing or a key stuck"
                ) is
                { } spaces
            )
            {
                yield return spaces;
            }

            var latin = cells.Count(c => Alphabets.Of(c.Text) == Alphabet.Latin);
            var alike = cells.Where(c =>
                Alphabets.IsMixed(c.Text) || (latin * 2 > cells.Length && Alphabets.LooksLatin(c.Text))
            );
            if (
                Told(
                    alike,
                    Severity.Warn,
                    group,
                    "look-alike-letter",
                    $"with look-alike letters of another alphabet (such as a Cyrillic а among Latin letters): they may be set in another shape, and nobody finds the name by search"
                ) is
                { } letters
            )
            {
                yield return letters;
            }

            if (
                Told(
                    Odd(cells),
                    Severity.Note,
                    group,
                    "odd-capitals",
                    $"written with other capitals than the rest of the roster"
                ) is
                { } capitals
            )
            {
                yield return capitals;
            }
        }

        foreach (var twice in Twice(group))
        {
            yield return twice;
        }
    }

    private static Finding? Told(
        IEnumerable<(int Line, string Text)> cells,
        Severity severity,
        Group group,
        string kind,
        Sentence what
    )
    {
        var found = cells.ToArray();
        if (found.Length == 0)
        {
            return null;
        }

        var list = Words.Row(
            found.Take(MostTold).Select(c => (Sentence)$"“{Words.Short(c.Text)}” (line {c.Line})"),
            ", "
        );
        var more = found.Length > MostTold ? $" and {found.Length - MostTold} more" : Sentence.Nothing;
        return new(
            kind,
            severity,
            found.Length == 1
                ? (Sentence)$"{group.File}: {list}{more} is {what}; ask the customer how it is spelt."
                : $"{group.File}: {list}{more} are {what}; ask the customer how it is spelt."
        )
        {
            Count = found.Length,
        };
    }

    private static bool HasDoubleSpace(string text) =>
        text.Split('\n')
            .Any(line => line.Zip(line.Skip(1)).Any(p => char.IsWhiteSpace(p.First) && char.IsWhiteSpace(p.Second)));

    private enum Capitals
    {
        None,
        All,
        First,
        Lower,
        Mixed,
    }

    /// <summary>Cells whose capitals differ from those of two thirds of the column, which must be three or more.</summary>
    private static IEnumerable<(int Line, string Text)> Odd((int Line, string Text)[] cells)
    {
        var styled = cells
            .Select(c => (Cell: c, Style: StyleOf(c.Text)))
            .Where(c => c.Style != Capitals.None)
            .ToArray();
        var usual = styled.GroupBy(c => c.Style).MaxBy(g => g.Count());
        return
            usual is null || usual.Key == Capitals.Mixed || usual.Count() < 3 || usual.Count() * 3 < styled.Length * 2
            ? []
            : styled
                .Where(c =>
                    c.Style != usual.Key && c.Style != Capitals.Mixed
                    || c.Style == Capitals.Mixed && SmallThenCapital(c.Cell.Text)
                )
                .Select(c => c.Cell);
    }

    private static Capitals StyleOf(string text)
    {
        var words = text.Split([' ', '-', '\n', '\'', '’', '.'], StringSplitOptions.RemoveEmptyEntries)
            .Where(w => w.Any(char.IsLetter))
            .ToArray();
        var letters = text.Where(c => char.IsUpper(c) || char.IsLower(c)).ToArray();
        return letters.Length < 2 ? Capitals.None
            : letters.All(char.IsUpper) ? Capitals.All
            : letters.All(char.IsLower) ? Capitals.Lower
            : words.Any(w => char.IsUpper(w[0])) && words.All(w => w.Skip(1).All(c => !char.IsUpper(c)))
                ? Capitals.First
            : Capitals.Mixed;
    }

    // "jOHN" is a stuck key, "McKay" and "van den Berg" are names.
    private static bool SmallThenCapital(string text) =>
        text.Split(' ', StringSplitOptions.RemoveEmptyEntries)
            .Any(w => w.Length > 1 && char.IsLower(w[0]) && char.IsUpper(w[1]) && w.Skip(1).All(c => !char.IsLower(c)));

    private static IEnumerable<Finding> Twice(Group group)
    {
        var alike = group
            .Rows.GroupBy(r =>
                string.Join('\u001f', group.Columns.Select(c => Folded(r.Cells.GetValueOrDefault(c, ""))))
            )
            .Where(g => g.Count() > 1 && g.Key.Any(char.IsLetterOrDigit))
            .ToArray();
        foreach (var same in alike.Take(MostTold))
        {
            var what = string.Join(" ", group.Columns.Select(c => same.First().Cells.GetValueOrDefault(c, "")));
            yield return new(
                "name-twice",
                Severity.Warn,
                $"{group.File}: “{Words.Short(what)}” stands in {Lines(same)}: two items would be printed alike; ask whether both are meant."
            )
            {
                Count = same.Count(),
            };
        }

        // The same name with another number may be two people: only worth a look.
        var name = group.Columns.FirstOrDefault(c =>
            group.Rows.Count(r => r.Cells.GetValueOrDefault(c, "").Any(char.IsLetter)) * 2 > group.Rows.Length
        );
        var names =
            name is null || group.Columns.Length < 2
                ? []
                : group
                    .Rows.GroupBy(r => Folded(r.Cells.GetValueOrDefault(name, "")))
                    .Where(g => g.Count() > 1 && g.Key.Length > 0)
                    .Where(g => !alike.Any(a => g.All(a.Contains)));
        foreach (var same in names.Take(MostTold))
        {
            yield return new(
                "name-twice",
                Severity.Note,
                $"{group.File}: “{Words.Short(same.First().Cells[name!])}” stands in {Lines(same)}; look whether it is one person twice."
            )
            {
                Count = same.Count(),
            };
        }
    }

    /// <summary>One person in two rosters of an order, spelt in two ways.</summary>
    private static IEnumerable<Finding> Between(Group one, Group other)
    {
        if (one.File == other.File)
        {
            yield break;
        }

        var (left, right) = (Names(one), Names(other));
        var told = 0;
        foreach (var (name, line) in left.Where(n => !right.ContainsKey(n.Key)))
        {
            var near = right
                .Where(r => !left.ContainsKey(r.Key) && IsNear(name, r.Key))
                .Select(r => ((string, int)?)(r.Key, r.Value))
                .FirstOrDefault();
            if (near is var (otherName, otherLine) && told++ < MostTold)
            {
                yield return new(
                    "two-spellings",
                    Severity.Warn,
                    $"“{Words.Short(name)}” ({one.File}, line {line}) and “{Words.Short(otherName)}” ({other.File}, line {otherLine}) may be one person spelt in two ways; ask the customer."
                )
                {
                    Item = other.Item.Id,
                    Count = 2,
                };
            }
        }
    }

    private static Dictionary<string, int> Names(Group group) =>
        group
            .Columns.SelectMany(c => group.Rows.Select(r => (Text: r.Cells.GetValueOrDefault(c, ""), r.Line)))
            .Where(c => c.Text.Count(char.IsLetter) >= 4)
            .GroupBy(c => c.Text, StringComparer.Ordinal)
            .ToDictionary(g => g.Key, g => g.First().Line, StringComparer.Ordinal);

    private static bool IsNear(string a, string b)
    {
        var (x, y) = (Bare(a), Bare(b));
        return x == y || (Math.Min(x.Length, y.Length) >= 5 && OneStep(x, y));
    }

    /// <summary>Whether one letter more, less, other, or two swapped make one out of the other.</summary>
    private static bool OneStep(string a, string b)
    {
        if (a.Length > b.Length)
        {
            (a, b) = (b, a);
        }

        var start = a.Zip(b).TakeWhile(p => p.First == p.Second).Count();
        return (b.Length - a.Length) switch
        {
            0 => a[(start + 1)..] == b[(start + 1)..]
                || (
                    start + 1 < a.Length
                    && a[start] == b[start + 1]
                    && a[start + 1] == b[start]
                    && a[(start + 2)..] == b[(start + 2)..]
                ),
            1 => a[start..] == b[(start + 1)..],
            _ => false,
        };
    }

    private static string Folded(string text) =>
        string.Join(' ', text.ToUpperInvariant().Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    /// <summary>Letters alone, without capitals and accents.</summary>
    private static string Bare(string text) =>
        string.Concat(Alphabets.Latinised(text).Normalize(NormalizationForm.FormD).Where(char.IsLetterOrDigit))
            .ToUpperInvariant();

    private static Sentence Lines(IEnumerable<RosterRow> rows) =>
        $"lines {Words.And([.. rows.Take(MostTold).Select(r => (Sentence)$"{r.Line}")])}";
}
