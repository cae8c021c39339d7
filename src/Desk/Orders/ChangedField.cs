using System.Globalization;

namespace Coldpeel.Desk.Orders;

/// <summary>A field of an order in which something else was typed than stands there.</summary>
/// <param name="Field">As it stands.</param>
/// <param name="To">What was typed.</param>
public sealed record ChangedField(OrderField Field, string To)
{
    /// <summary>Lines of a list that differ: from 1, what stands and what was typed; null where there is none.</summary>
    public IEnumerable<(int Line, string? From, string? To)> Lines
    {
        get
        {
            var (before, after) = (Plain(Field.Value).Split('\n'), Plain(To).Split('\n'));
            return Enumerable
                .Range(0, Math.Max(before.Length, after.Length))
                .Select(n => (n + 1, before.ElementAtOrDefault(n), after.ElementAtOrDefault(n)))
                .Where(l => l.Item2 != l.Item3);
        }
    }

    /// <summary>What was changed, for the history.</summary>
    public IEnumerable<string> Told()
    {
        var name = Field.Kind switch
        {
            OrderFieldKind.Due => "due",
            OrderFieldKind.Language => "language of the papers",
            OrderFieldKind.Width => $"width of {Field.About} in mm",
            OrderFieldKind.Height => $"height of {Field.About} in mm",
            OrderFieldKind.Letters => $"height of letters of {Field.About} in mm",
            OrderFieldKind.Placement => $"{Field.About}: place of {Field.Of}",
            OrderFieldKind.Lines => $"{Field.About}: names",
            _ => $"{Field.About}: {Field.Kind.ToString().ToLowerInvariant()}",
        };
        return Field.Kind != OrderFieldKind.Lines
            ? [$"{name} {Shown(Field.Value)} → {Shown(To)}"]
            : Lines.Select(l =>
                string.Create(CultureInfo.InvariantCulture, $"{name}, line {l.Line} {Shown(l.From)} → {Shown(l.To)}")
            );
    }

    /// <summary>As it counts: browsers send line ends of their own (HTML Living Standard, 4.10.22.4).</summary>
    internal static string Plain(string text) => text.ReplaceLineEndings("\n").Trim();

    private static string Shown(string? value) => string.IsNullOrEmpty(value) ? "nothing" : $"“{value}”";
}
