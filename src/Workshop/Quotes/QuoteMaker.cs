using Coldpeel.Craft.Measures;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Workshop.Quotes;

/// <summary>Makes a price out of what a job uses up.</summary>
/// <remarks>
/// Exact decimal. Quantities are whole sheets and pieces, milligrams of toner, and hundredths of an hour begun (36 s); each line is rounded once to the minor
/// unit, half away from zero; spoilage, margin and tax are taken on sums of rounded lines, so every figure can be checked with pencil and paper.
/// </remarks>
public static class QuoteMaker
{
    /// <summary>Which way of rounding is used, in words.</summary>
    public const string Rounding =
        "Each line is rounded to the smallest coin, half upwards; tax is taken once, on the rounded net sum, and rounded the same way.";

    private static readonly string[] Spoils = ["film", "adhesive", "toner", "blanks"];

    /// <summary>The quote, or the fault of a price list that cannot price the job.</summary>
    /// <param name="basis">What the job uses up.</param>
    public static Outcome<Quote> Make(QuoteBasis basis)
    {
        ArgumentNullException.ThrowIfNull(basis);
        var prices = basis.Prices;
        if (Fault(basis) is { } fault)
        {
            return fault;
        }

        var lines = new List<QuoteLine>();
        Sheets(basis, lines);
        Toner(basis, lines);
        Time(
            lines,
            "press-time",
            $"Presses in use",
            basis.PressSeconds,
            prices.PressPerHour,
            prices.Currency,
            $"presses closed"
        );
        Time(
            lines,
            "hand-time",
            $"Hands at press and table",
            basis.HandSeconds,
            prices.HandPerHour,
            prices.Currency,
            $"handwork"
        );
        Time(
            lines,
            "set-up",
            $"Order, artwork and printing",
            prices.SetUpMinutes * 60,
            prices.HandPerHour,
            prices.Currency,
            $"set-up, once a job"
        );
        Blanks(basis, lines);
        Share(
            lines,
            "spoilage",
            $"Spoilage",
            prices.SpoilagePercent,
            Spoils,
            prices.Currency,
            $"film, adhesive, toner and our own blanks"
        );
        Share(
            lines,
            "margin",
            $"Margin",
            prices.MarginPercent,
            null,
            prices.Currency,
            $"all lines above; it makes {Figure(OfPrice(prices.MarginPercent))} % of the net sum"
        );
        lines.RemoveAll(l => l.Quantity == 0);

        var net = Sum(lines, prices.Currency);
        var tax = (net * (prices.TaxPercent / 100)).Rounded();
        return new Quote([.. lines], net, prices.TaxPercent, tax, net + tax, Rounding);
    }

    private static Fault? Fault(QuoteBasis basis)
    {
        var prices = basis.Prices;
        if (Currencies.MinorUnits(prices.Currency) is null)
        {
            return new(
                "prices.currency",
                $"\"{prices.Currency}\" is no currency we know.",
                "Write an ISO 4217 code, such as EUR."
            );
        }

        if (basis.Currency != prices.Currency)
        {
            return new(
                "currency",
                $"the job is quoted in {basis.Currency}, and the workshop's prices are in {prices.Currency}.",
                $"Write \"{prices.Currency}\" in the job, or use a workshop file with prices in {basis.Currency}: no rate of exchange is guessed."
            );
        }

        var missing = basis.Blanks.FirstOrDefault(b => b.Quantity > 0 && !prices.Blanks.ContainsKey(b.What));
        return missing is null
            ? null
            : new(
                $"The blank \"{missing.What}\"",
                "has no price.",
                $"Give it one under Prices, Blanks (in a workshop file: prices.blanks), or say that the customer brings it (in a job file: suppliedBy); priced are: {Closest.Listed(missing.What, prices.Blanks.Keys)}."
            );
    }

    private static void Sheets(QuoteBasis basis, List<QuoteLine> lines)
    {
        foreach (var use in basis.Sheets)
        {
            lines.Add(Sheet(use, use.Count, "film", $"{use.Name} film", basis.Prices.FilmPerM2, basis.Prices.Currency));
        }

        foreach (var use in basis.Sheets.Where(s => s.Adhesive))
        {
            lines.Add(
                Sheet(
                    use,
                    use.Count,
                    "adhesive",
                    $"{use.Name} adhesive sheet",
                    basis.Prices.AdhesivePerM2,
                    basis.Prices.Currency
                )
            );
        }
    }

    private static QuoteLine Sheet(SheetUse use, int count, string kind, Sentence what, decimal perM2, string currency)
    {
        var area = use.WidthMm * use.HeightMm / 1_000_000m;
        var each = new Money(Plain(area * perM2), currency);
        var size = new Part.Length((double)use.WidthMm, (double)use.HeightMm, "0.######");
        return Line(
            kind,
            what,
            count,
            "sheet",
            each,
            count == 1
                ? (Sentence)$"1 sheet of {size} ({Figure(area)} m² each) at {Figure(perM2)} {currency} a square metre."
                : $"{count} sheets of {size} ({Figure(area)} m² each) at {Figure(perM2)} {currency} a square metre."
        );
    }

    private static void Toner(QuoteBasis basis, List<QuoteLine> lines)
    {
        var prices = basis.Prices;
        var m2 = (decimal)Need.NotNegative(basis.InkMm2) / 1_000_000m;
        var grams = Math.Round(m2 * prices.TonerGramPerM2, 3, MidpointRounding.AwayFromZero);
        lines.Add(
            Line(
                "toner",
                $"White toner",
                Plain(grams),
                "g",
                new(prices.TonerPerGram, prices.Currency),
                $"{new Part.Area((double)(Math.Round(m2 * 10_000m, 1) * 100m), "0.#", InCm2: true)} of solid white at {Figure(prices.TonerGramPerM2)} g a square metre make {Figure(grams)} g, at {Figure(prices.TonerPerGram)} {prices.Currency} a gram."
            )
        );
    }

    private static void Time(
        List<QuoteLine> lines,
        string kind,
        Sentence what,
        decimal seconds,
        decimal perHour,
        string currency,
        Sentence of
    )
    {
        ArgumentOutOfRangeException.ThrowIfNegative(seconds);
        var hours = Math.Ceiling(seconds / 36m) / 100m;
        lines.Add(
            Line(
                kind,
                what,
                Plain(hours),
                "h",
                new(perHour, currency),
                $"{Minutes(seconds)} of {of}, counted as {Figure(hours)} h, at {Figure(perHour)} {currency} an hour."
            )
        );
    }

    private static void Blanks(QuoteBasis basis, List<QuoteLine> lines)
    {
        foreach (var kind in basis.Blanks.GroupBy(b => b.What))
        {
            var count = kind.Sum(b => b.Quantity);
            if (count == 0)
            {
                continue;
            }

            var price = basis.Prices.Blanks[kind.Key];
            lines.Add(
                Line(
                    "blanks",
                    $"Blank: {kind.Key}",
                    count,
                    "piece",
                    new(price, basis.Prices.Currency),
                    $"{count} × {kind.Key} from the workshop at {Figure(price)} {basis.Prices.Currency} each."
                )
            );
        }
    }

    // A share added on top of the cost is a smaller share of the price: 20 % on top is 16.7 % of it.
    private static decimal OfPrice(decimal percentOnTop) =>
        decimal.Round(100 * percentOnTop / (100 + percentOnTop), 1, MidpointRounding.AwayFromZero);

    private static void Share(
        List<QuoteLine> lines,
        string kind,
        Sentence what,
        decimal percent,
        string[]? of,
        string currency,
        Sentence ofSay
    )
    {
        var sum = Sum(lines.Where(l => of is null || of.Contains(l.Kind)), currency);
        lines.Add(Line(kind, what, percent, "%", sum * 0.01m, $"{Figure(percent)} % of {sum} ({ofSay})."));
    }

    private static QuoteLine Line(
        string kind,
        Sentence what,
        decimal quantity,
        string unit,
        Money each,
        Sentence explain
    ) =>
        new(
            kind,
            what,
            quantity,
            unit,
            each with
            {
                Amount = Plain(each.Amount),
            },
            (each * quantity).Rounded(),
            explain
        );

    private static Money Sum(IEnumerable<QuoteLine> lines, string currency) =>
        lines.Aggregate(new Money(0, currency), (sum, line) => sum + line.Amount);

    private static Sentence Minutes(decimal seconds) =>
        seconds < 90 ? (Sentence)$"{Figure(seconds)} s" : $"{Figure(Math.Round(seconds / 60, 1))} min";

    private static Part.Exact Figure(decimal value) => new(Plain(value), "0.############################");

    // Dividing by one written with all its digits drops the zeros at the end that decimal keeps.
    private static decimal Plain(decimal value) => value / 1.0000000000000000000000000000m;
}
