using System.Globalization;
using Coldpeel.Desk.Rooms;
using Coldpeel.Desk.Shelf;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Shelf;

namespace Coldpeel.Desk.Orders;

/// <summary>Fills a workshop with invented orders while people look at it already: one for the bench, one that must not be made, and a large one that waits for its customer.</summary>
public sealed class FillDemo(OpenedWorkshop workshop)
{
    // A look at the app should not wait for the last square centimetre of film, least of all for its first order.
    private const double FirstSeconds = 2;
    private const string Who = "demo";

    private static readonly string[] Orders = ["hi-vis", "regatta"];

    /// <summary>Ends the searches of the larger ones after so long.</summary>
    public double SearchSeconds { get; init; } = 16;

    /// <summary>Makes and keeps them; the smallest is there in seconds.</summary>
    public Fault? Run(IProgress<string>? say, CancellationToken stop)
    {
        // Nobody owns the demo: it asks nothing.
        new KeepAnswers(workshop).PutOff(Who);
        Stock();
        if (TeaTent(say, stop) is { } refused)
        {
            return refused;
        }

        foreach (var order in Orders)
        {
            say?.Report($"making the invented order {order}");
            var made = new MakeFromFolder(workshop).Run(Files(order), [], SearchSeconds, say, stop, Who);
            if (!made.Ok)
            {
                return made.Fault;
            }
        }

        return null;
    }

    // Due this week and approved: it can be pressed at once.
    private Fault? TeaTent(IProgress<string>? say, CancellationToken stop)
    {
        say?.Report("making the invented order tea-tent");
        var head = new OrderHead(
            "AR-2027-016",
            "Alder Reach Tea Tent",
            workshop.Today.AddDays(4).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            new KeepAnswers(workshop).Book().Prices.Currency
        );
        var entered = new EnterOrder(workshop).Run(head, Files("tea-tent"), [], Who, FirstSeconds, stop);
        return entered.Made is null
            ? entered.Faults[0]
            : new StepOrder(workshop).Approve(head.Name, new("Wren Halloway", "signed proof", false, ""), null, Who);
    }

    private void Stock()
    {
        (StockKind Kind, string Name, string Place, string Unit, decimal Count, decimal Least, string Role)[] things =
        [
            (StockKind.Sheet, "Film A4", "drawer 1", "sheets", 46, 20, StockRole.Film("A4")),
            (StockKind.Sheet, "Film A3", "drawer 2", "sheets", 18, 20, StockRole.Film("A3")),
            (StockKind.Sheet, "Adhesive sheet A4", "drawer 3", "sheets", 50, 20, StockRole.Adhesive("A4")),
            (StockKind.Sheet, "Adhesive sheet A3", "drawer 4", "sheets", 31, 20, StockRole.Adhesive("A3")),
            (StockKind.Toner, "White toner", "by the printer", "g", 140, 40, StockRole.Toner),
            (StockKind.Blank, "tote", "rack by the door", "pieces", 24, 10, StockRole.Blank("tote")),
            (StockKind.Blank, "gilet", "rack by the door", "pieces", 15, 6, StockRole.Blank("gilet")),
        ];
        foreach (var (kind, name, place, unit, count, least, role) in things)
        {
            new TendShelf(workshop).Put(
                new(kind, name, place, unit, count, least, null) { Role = role },
                $"demo-{role}",
                Who
            );
        }
    }

    /// <summary>The files of an invented order, as a person would hand them in.</summary>
    public static IReadOnlyList<HandedFile> Files(string order)
    {
        var prefix = $"demo/{order}/";
        var program = typeof(FillDemo).Assembly;
        return
        [
            .. program
                .GetManifestResourceNames()
                .Where(n => n.StartsWith(prefix, StringComparison.Ordinal))
                .Select(n =>
                {
                    using var stream = program.GetManifestResourceStream(n)!;
                    using var bytes = new MemoryStream();
                    stream.CopyTo(bytes);
                    return new HandedFile(n[prefix.Length..], bytes.ToArray());
                }),
        ];
    }
}
