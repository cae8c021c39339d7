using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Desk.Orders;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Shelf;

namespace Coldpeel.Desk.Shelf;

/// <summary>How much the shelf gives to an order, role by role: what is made with it holds as long as that is the same.</summary>
internal sealed class ShelfStand
{
    // The rule for spares is no thing on the shelf.
    private const string Rule = "spares";
    private const int MostTold = 3;

    private readonly OpenedWorkshop _workshop;

    private ShelfStand(OpenedWorkshop workshop, string text) => (_workshop, Text) = (workshop, text);

    /// <summary>It as text, to be shown along and brought back.</summary>
    public string Text { get; }

    /// <summary>What it gives now to what is made of a source: started sheets, the transfers that were chosen for it, and the rule for spares.</summary>
    public static ShelfStand Of(OpenedWorkshop workshop, OrderSource source)
    {
        var chosen = source.FromShelf.GroupBy(f => f.Role).ToDictionary(g => g.Key, g => (decimal)g.Sum(f => f.Count));
        var there = workshop
            .Store.Shelf.Of(chosen.Keys)
            .Where(s => s.Count > 0)
            .GroupBy(s => s.Role)
            .ToDictionary(g => g.Key, g => g.Sum(s => s.Count));
        var gives = new SortedDictionary<string, string>(StringComparer.Ordinal)
        {
            [Rule] = KeptJson.Write(new KeepSpares(workshop).Rule()),
        };
        foreach (var sheets in workshop.Store.Shelf.Beginning(StockRole.StartedBegins).GroupBy(s => s.Role))
        {
            gives[sheets.Key] = Count(sheets.Sum(s => s.Count));
        }

        foreach (var (role, count) in chosen)
        {
            gives[role] = Count(Math.Min(count, there.GetValueOrDefault(role)));
        }

        return new(workshop, KeptJson.Write(gives));
    }

    /// <summary>What it gives otherwise than it did; null for nothing.</summary>
    /// <param name="before">The text of then.</param>
    public Fault? ChangedSince(string before)
    {
        if (before == Text)
        {
            return null;
        }

        var (then, now) = (Read(before), Read(Text));
        string[] roles =
        [
            .. then.Keys.Union(now.Keys).Where(r => r != Rule && then.GetValueOrDefault(r) != now.GetValueOrDefault(r)),
        ];
        var names = _workshop.Store.Shelf.Of(roles).ToLookup(s => s.Role, s => s.Name);
        var told = roles
            .Take(MostTold)
            .Select(r =>
                $"{names[r].FirstOrDefault() ?? r}: {then.GetValueOrDefault(r, "0")} → {now.GetValueOrDefault(r, "0")}"
            )
            .Concat(roles.Length is 0 or > MostTold ? ["…"] : []);
        return new(
            "The shelf",
            $"gives something else than when this was shown ({string.Join("; ", told)}): nothing is kept yet.",
            "Look at what it would be now, and press the button again."
        );
    }

    // What a form brings back may be anything.
    private static ImmutableDictionary<string, string> Read(string text)
    {
        try
        {
            return KeptJson.Read<ImmutableDictionary<string, string>>(text);
        }
        catch (System.Text.Json.JsonException)
        {
            return ImmutableDictionary<string, string>.Empty;
        }
    }

    private static string Count(decimal count) => count.ToString("0.###", CultureInfo.InvariantCulture);
}
