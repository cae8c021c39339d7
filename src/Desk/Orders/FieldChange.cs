using System.Globalization;

namespace Coldpeel.Desk.Orders;

/// <summary>What was changed in a field of an order, for the history.</summary>
internal static class FieldChange
{
    /// <summary>The field, what it was and what it is; of a list each line that differs.</summary>
    public static IEnumerable<string> Told(OrderField field, string to)
    {
        var name = field.Kind switch
        {
            OrderFieldKind.Due => "due",
            OrderFieldKind.Language => "language of the papers",
            OrderFieldKind.Width => $"width of {field.About} in mm",
            OrderFieldKind.Height => $"height of {field.About} in mm",
            OrderFieldKind.Letters => $"height of letters of {field.About} in mm",
            OrderFieldKind.Placement => $"{field.About}: place of {field.Of}",
            OrderFieldKind.Lines => $"{field.About}: names",
            _ => $"{field.About}: {field.Kind.ToString().ToLowerInvariant()}",
        };
        if (field.Kind != OrderFieldKind.Lines)
        {
            return [$"{name} {Shown(field.Value)} → {Shown(to)}"];
        }

        var (before, after) = (OrderFields.Plain(field.Value).Split('\n'), to.Split('\n'));
        return Enumerable
            .Range(0, Math.Max(before.Length, after.Length))
            .Select(n => (From: before.ElementAtOrDefault(n), To: after.ElementAtOrDefault(n), Line: n + 1))
            .Where(l => l.From != l.To)
            .Select(l =>
                string.Create(CultureInfo.InvariantCulture, $"{name}, line {l.Line} {Shown(l.From)} → {Shown(l.To)}")
            );
    }

    private static string Shown(string? value) => string.IsNullOrEmpty(value) ? "nothing" : $"“{value}”";
}
