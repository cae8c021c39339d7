using System.Globalization;
using Coldpeel.Files.Paper;
using Coldpeel.Workshop.Quotes;

namespace Coldpeel.Files.Quotes;

/// <summary>A quote for the customer, with who asks and who offers.</summary>
/// <param name="Workshop">Who offers.</param>
/// <param name="Job">The job.</param>
/// <param name="Customer">Who asked.</param>
/// <param name="Due">The day it is due.</param>
/// <param name="Made">The day of the quote.</param>
/// <param name="Quote">The price.</param>
public sealed record QuotePaper(string Workshop, string Job, string Customer, DateOnly Due, DateOnly Made, Quote Quote);

/// <summary>The quote as a paper: every line with what it is made of, net, tax, total and the way of rounding.</summary>
public static class QuotePdf
{
    private static readonly TextStyle Money = TextStyle.Strong.At(10.5);

    /// <summary>The PDF, A4; the same quote gives the same bytes.</summary>
    public static byte[] Write(QuotePaper paper)
    {
        ArgumentNullException.ThrowIfNull(paper);
        var book = new Book($"Quote {paper.Job}");
        var flow = new Flow(
            book,
            0,
            $"{paper.Workshop} · quote of {Days.Say(paper.Made)} · {paper.Job}",
            f => f.Gap(2)
        );
        Head(flow, paper);
        Lines(flow, paper.Quote);
        Sums(flow, paper.Quote);
        flow.Gap(6);
        flow.Text($"Rounding: {paper.Quote.Rounding}", TextStyle.Body.At(9));
        flow.Gap(1);
        flow.Text(
            "The figures come from the workshop's own price list. Prices are in "
                + $"{paper.Quote.Total.Currency} (ISO 4217).",
            TextStyle.Body.At(9)
        );
        return book.Write();
    }

    private static void Head(Flow flow, QuotePaper paper)
    {
        flow.Text(paper.Workshop, TextStyle.Strong.At(11));
        flow.Gap(10);
        flow.Page.Fill(flow.Left, flow.Y, 24, 1.4, Inks.Amber);
        flow.Gap(3);
        flow.Text("Quote", TextStyle.Title.At(30));
        flow.Gap(3);
        (string, string)[] facts =
        [
            ("for", paper.Customer),
            ("job", paper.Job),
            ("due", Days.Say(paper.Due)),
            ("made", Days.Say(paper.Made)),
        ];
        foreach (var (name, value) in facts)
        {
            flow.Page.Text(flow.Left, flow.Y + TextStyle.Body.At(11).BaselineMm, name, TextStyle.Label.At(9));
            flow.Text(value, TextStyle.Body.At(11), 18);
            flow.Gap(0.8);
        }

        flow.Gap(7);
    }

    private static void Lines(Flow flow, Quote quote)
    {
        Column[] columns =
        [
            new("what, and what it is made of", 88),
            new("quantity", 30, Align.Right),
            new("price of one", 31, Align.Right),
            new("amount", 31, Align.Right),
        ];
        var rows = quote.Lines.IsDefault ? [] : quote.Lines;
        new Table(columns).Draw(
            flow,
            [
                .. rows.Select(
                    IReadOnlyList<Cell> (l) =>
                        [
                            new([new(l.What, TextStyle.Strong.At(10.5)), new(l.Explain, TextStyle.Small.At(8.5))]),
                            Cell.Figure($"{Number(l.Quantity)} {l.Unit}", TextStyle.Body, columns[1].WidthMm),
                            Cell.Figure(Exact(l.UnitPrice), TextStyle.Body, columns[2].WidthMm),
                            Cell.Figure(l.Amount.ToString(), Money, columns[3].WidthMm),
                        ]
                ),
            ]
        );
        if (rows.Length == 0)
        {
            flow.Gap(2);
            flow.Text("No lines: nothing is charged.", TextStyle.Body);
        }
    }

    private static void Sums(Flow flow, Quote quote)
    {
        flow.Keep(40);
        flow.Gap(4);
        Sum(flow, "net", quote.Net, Money.At(12));
        Sum(flow, $"tax {Number(quote.TaxPercent)} % on the net sum", quote.Tax, Money.At(12));
        flow.Gap(1);
        flow.Page.Rule(flow.Left + 80, flow.Y, flow.Left + flow.Width, flow.Y, 0.8, Inks.Black);
        flow.Gap(2);
        Sum(flow, "total", quote.Total, TextStyle.Title);
    }

    private static void Sum(Flow flow, string name, Money amount, TextStyle style)
    {
        var right = flow.Left + flow.Width - Table.AirMm;
        var fit = style.FitTo(amount.ToString(), 88);
        var baseline = flow.Y + style.BaselineMm;
        flow.Page.Text(flow.Left + 80 + Table.AirMm, baseline, name, TextStyle.Body.At(10.5));
        flow.Page.Text(right, baseline, amount.ToString(), fit, Align.Right);
        flow.Gap(style.LineMm + 0.6);
    }

    /// <summary>A quantity as it is, without zeros at the end, at most four digits after the point.</summary>
    private static string Number(decimal value) => value.ToString("0.####", CultureInfo.InvariantCulture);

    /// <summary>A unit price as exact as the list has it, but never with fewer digits than its money.</summary>
    private static string Exact(Money price)
    {
        var digits = Currencies.MinorUnits(price.Currency) ?? 2;
        var form = digits == 0 ? "0.####" : "0." + new string('0', digits) + "####";
        return price.Amount.ToString(form, CultureInfo.InvariantCulture) + " " + price.Currency;
    }
}
