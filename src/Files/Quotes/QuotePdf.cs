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
    private const double DatesMm = 112;

    private static readonly TextStyle Money = TextStyle.Strong.At(10);

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
        flow.Gap(4);
        flow.Text($"Rounding: {paper.Quote.Rounding}", TextStyle.Body.At(8.5));
        flow.Gap(0.8);
        flow.Text(
            $"All prices are in {paper.Quote.Total.Currency} (ISO 4217) and come from the workshop's own price list.",
            TextStyle.Body.At(8.5)
        );
        return book.Write();
    }

    private static void Head(Flow flow, QuotePaper paper)
    {
        flow.Text(paper.Workshop, TextStyle.Strong.At(11));
        flow.Gap(4);
        flow.Page.Fill(flow.Left, flow.Y, 24, 1.4, Inks.Amber);
        flow.Gap(3);
        flow.Text("Quote", TextStyle.Title.At(28));
        flow.Gap(2);
        var top = flow.Y;
        var left = Facts(flow, 0, top, ("for", paper.Customer), ("job", paper.Job));
        var right = Facts(flow, DatesMm, top, ("quoted on", Days.Say(paper.Made)), ("due", Days.Say(paper.Due)));
        flow.Y = Math.Max(left, right) + 4;
    }

    /// <summary>Names and values one under another; tells where they end.</summary>
    private static double Facts(Flow flow, double x, double y, params (string Name, string Value)[] facts)
    {
        var style = TextStyle.Body.At(11);
        var name = x > 0 ? 24 : 12;
        foreach (var (fact, value) in facts)
        {
            flow.Page.Text(flow.Left + x, y + style.BaselineMm, fact, TextStyle.Label.At(9));
            y += flow.Page.Block(flow.Left + x + name, y, value, style, (x > 0 ? flow.Width - x : DatesMm - 4) - name);
            y += 0.8;
        }

        return y;
    }

    private static void Lines(Flow flow, Quote quote)
    {
        var currency = quote.Total.Currency;
        Column[] columns =
        [
            new("what, and what it is made of", 104),
            new("quantity", 24, Align.Right),
            new($"price of one, {currency}", 27, Align.Right),
            new($"amount, {currency}", 25, Align.Right),
        ];
        var rows = quote.Lines.IsDefault ? [] : quote.Lines;
        new Table(columns, airMm: 1).Draw(
            flow,
            [
                .. rows.Select(
                    IReadOnlyList<Cell> (l) =>
                        [
                            new([new(l.What, TextStyle.Strong), new(l.Explain, TextStyle.Small.At(8))]),
                            Cell.Figure($"{Number(l.Quantity)} {Unit(l)}", TextStyle.Body, columns[1].WidthMm),
                            // One per cent of a sum is no price that anybody asks for.
                            l.Unit == "%"
                                ? Cell.Of("", TextStyle.Body)
                                : Cell.Figure(Exact(l.UnitPrice), TextStyle.Body, columns[2].WidthMm),
                            Cell.Figure(Plain(l.Amount), Money, columns[3].WidthMm),
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
        flow.Keep(34);
        flow.Gap(3);
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

    /// <summary>"1 sheet", "6 sheets"; measures such as h and g have no plural.</summary>
    private static string Unit(QuoteLine line) =>
        line.Quantity != 1 && line.Unit is ("sheet" or "piece") ? line.Unit + "s" : line.Unit;

    /// <summary>An amount without its currency, which the head of the column names.</summary>
    private static string Plain(Money amount) =>
        amount.ToString().Replace(" " + amount.Currency, "", StringComparison.Ordinal);

    /// <summary>A unit price as exact as the list has it, but never with fewer digits than its money.</summary>
    private static string Exact(Money price)
    {
        var digits = Currencies.MinorUnits(price.Currency) ?? 2;
        var form = digits == 0 ? "0.####" : "0." + new string('0', digits) + "####";
        return price.Amount.ToString(form, CultureInfo.InvariantCulture);
    }
}
