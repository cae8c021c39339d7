using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Desk.Shelf.Book;

namespace Coldpeel.Web.Shelf.Book;

/// <summary>What was typed and has no place any more.</summary>
/// <param name="Row">The row as it was called when the form was opened; empty for one without a name.</param>
/// <param name="Field">The field.</param>
/// <param name="Typed">What was typed; empty where something was taken out.</param>
internal sealed record LeftOut(string Row, string Field, string Typed);

/// <summary>Brings what was typed into rows back to the same rows, after somebody else changed their list: rows go by number, and a number may be another thing's by then.</summary>
internal static class MovedRows
{
    // Rows beyond these are not of our forms.
    private const int Most = 500;

    // The lists whose rows go by number, and what one knows a row by; of texts it is the text itself.
    private static readonly (string List, string[] Names)[] Lists =
    [
        ("/blanks/", ["name"]),
        ("/presses/", ["id"]),
        ("/sheets/", ["widthMm", "heightMm", "name"]),
        ("/remnants/", ["widthMm", "heightMm", "process", "name"]),
        ("/process/steps/", ["do"]),
        ("/careTips/", []),
        ("/placement/keepOffThePlate/", []),
    ];

    // It tells where a row stands, not what it is.
    private const string Position = "place";

    /// <summary>Moves what was typed to where its rows are now.</summary>
    /// <param name="typed">What was typed by field; holds afterwards only what has a place.</param>
    /// <param name="was">What stood when the form was opened.</param>
    /// <param name="stands">What stands now, as it is shown.</param>
    /// <returns>What has no place: its row is gone, has another name, or is one of several that look alike.</returns>
    public static ImmutableArray<LeftOut> Follow(
        Dictionary<string, string> typed,
        Dictionary<string, string> was,
        Func<string, string> stands
    )
    {
        var left = ImmutableArray.CreateBuilder<LeftOut>();
        foreach (var (list, names) in Lists)
        {
            var sent = typed.Keys.Where(k => k.StartsWith(list, StringComparison.Ordinal)).ToArray();
            var rows = sent.GroupBy(k => k[list.Length..].Split('/')[0])
                .Where(r =>
                    int.TryParse(r.Key, NumberStyles.None, CultureInfo.InvariantCulture, out var number)
                    && At(list, number) == list + r.Key
                )
                .Select(r => new Row(
                    int.Parse(r.Key, CultureInfo.InvariantCulture),
                    Named(list + r.Key, names, f => was.GetValueOrDefault(f, "")),
                    [.. r.Select(f => (f, typed[f], was[f]))]
                ))
                .OrderBy(r => r.Number)
                .ToArray();
            foreach (var field in sent)
            {
                typed.Remove(field);
                was.Remove(field);
            }

            var present = Enumerable
                .Range(0, Most)
                .Select(n => Named(At(list, n), names, stands))
                .TakeWhile(n => n.Length > 0)
                .ToArray();
            var more = present.Length;
            foreach (var row in rows.Where(r => r.Touched.Any()))
            {
                var to =
                    row.Name.Length > 0 ? Place(list, row, rows, present, stands)
                    : more < present.Length + BookForm.NewRows ? more++
                    : (int?)null;
                foreach (var (field, value, before) in row.Touched)
                {
                    if (to is { } number)
                    {
                        var now = At(list, number) + field[At(list, row.Number).Length..];
                        (typed[now], was[now]) = (value, before);
                    }
                    else
                    {
                        left.Add(new(names.Length == 0 ? "" : row.Name, field, value));
                    }
                }
            }
        }

        return left.ToImmutable();
    }

    private static int? Place(string list, Row row, Row[] rows, string[] present, Func<string, string> stands)
    {
        int[] alike = [.. present.Index().Where(p => p.Item == row.Name).Select(p => p.Index)];
        if (alike.Length == 1 && rows.Count(r => r.Name == row.Name) == 1)
        {
            return alike[0];
        }

        // Of several of one name it is the one that holds just what the form showed.
        int[] same =
        [
            .. alike.Where(n =>
                row.Fields.All(f =>
                    f.Field.EndsWith("/" + Position, StringComparison.Ordinal)
                    || stands(At(list, n) + f.Field[At(list, row.Number).Length..]) == f.Was
                )
            ),
        ];
        return same.Length == 1 ? same[0] : null;
    }

    private static string Named(string row, string[] names, Func<string, string> read) =>
        names.Length == 0 ? read(row)
        : read($"{row}/{names[0]}").Length == 0 ? ""
        : string.Join(" × ", names.Select(n => read($"{row}/{n}")).Where(n => n.Length > 0));

    private static string At(string list, int row) => string.Create(CultureInfo.InvariantCulture, $"{list}{row}");

    private sealed record Row(int Number, string Name, (string Field, string Typed, string Was)[] Fields)
    {
        public IEnumerable<(string Field, string Typed, string Was)> Touched => Fields.Where(f => f.Typed != f.Was);
    }
}
