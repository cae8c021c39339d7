using System.Collections.Immutable;
using Coldpeel.Files.Paper;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Quotes;

namespace Coldpeel.Files.Quotes;

/// <summary>What a customer gets, in one line of a quote.</summary>
/// <param name="What">The items, with how many: "12 × gilet".</param>
/// <param name="Material">What they are of.</param>
/// <param name="Places">Where something is pressed on them, with its size in mm.</param>
public sealed record QuoteItem(
    string What,
    string Material,
    ImmutableArray<(string Name, double WidthMm, double HeightMm)> Places
);

/// <summary>A quote for the customer, with who asks and who offers.</summary>
/// <param name="Workshop">Who offers.</param>
/// <param name="Job">The job.</param>
/// <param name="Customer">Who asked.</param>
/// <param name="Due">The day it is due.</param>
/// <param name="Made">The day of the quote.</param>
/// <param name="Quote">The price.</param>
public sealed record QuotePaper(string Workshop, string Job, string Customer, DateOnly Due, DateOnly Made, Quote Quote)
{
    /// <summary>How it is worded.</summary>
    public Wording Words { get; init; } = Wording.English;

    /// <summary>What the customer gets.</summary>
    public ImmutableArray<QuoteItem> Items { get; init; } = [];
}

/// <summary>
/// The quote as a paper. First what the customer gets, net, tax and total; then, on a page that the workshop need not hand on, every line of
/// the price with what it is made of, and the way of rounding.
/// </summary>
public static class QuotePdf
{
    private const double DatesMm = 112;

    private static readonly TextStyle Money = TextStyle.Strong.At(10);

    /// <summary>The PDF, A4; the same quote gives the same bytes.</summary>
    public static byte[] Write(QuotePaper paper)
    {
        ArgumentNullException.ThrowIfNull(paper);
        var words = paper.Words;
        var book = new Book(words[$"Quote {paper.Job}"], words: words);
        var flow = new Flow(book, 0, words[$"{paper.Workshop} · quote of {paper.Made} · {paper.Job}"], f => f.Gap(2));
        Head(flow, paper);
        Items(flow, paper.Items);
        Sums(flow, paper.Quote);
        flow.NewPage();
        flow.Text(words[$"How the price is made"], TextStyle.Title.At(20));
        flow.Gap(1);
        flow.Text(words[$"For the workshop: the customer need not have this page."], TextStyle.Body);
        flow.Gap(3);
        Lines(flow, paper.Quote);
        flow.Gap(4);
        flow.Text(words[$"Rounding: {(Sentence)paper.Quote.Rounding}"], TextStyle.Body.At(8.5));
        flow.Gap(0.8);
        flow.Text(
            words[
                $"All prices are in {paper.Quote.Total.Currency} (ISO 4217) and come from the workshop's own price list."
            ],
            TextStyle.Body.At(8.5)
        );
        return book.Write();
    }

    private static void Head(Flow flow, QuotePaper paper)
    {
        var words = flow.Words;
        flow.Text(paper.Workshop, TextStyle.Strong.At(11));
        flow.Gap(4);
        flow.Page.Fill(flow.Left, flow.Y, 24, 1.4, Inks.Amber);
        flow.Gap(3);
        flow.Text(words[$"Quote"], TextStyle.Title.At(28));
        flow.Gap(2);
        var top = flow.Y;
        var left = Facts(flow, 0, top, (words[$"for"], paper.Customer), (words[$"job"], paper.Job));
        var right = Facts(
            flow,
            DatesMm,
            top,
            (words[$"quoted on"], words.Day(paper.Made)),
            (words[$"due"], words.Day(paper.Due))
        );
        flow.Y = Math.Max(left, right) + 4;
    }

    /// <summary>Names and values one under another; tells where they end.</summary>
    private static double Facts(Flow flow, double x, double y, params (string Name, string Value)[] facts)
    {
        var style = TextStyle.Body.At(11);
        var name =
            x > 0 ? 24 : 12 + Math.Max(0, facts.Max(f => TextLines.WidthMm(f.Name, TextStyle.Label.At(9))) - 10.5);
        foreach (var (fact, value) in facts)
        {
            flow.Page.Text(flow.Left + x, y + style.BaselineMm, fact, TextStyle.Label.At(9));
            y += flow.Page.Block(flow.Left + x + name, y, value, style, (x > 0 ? flow.Width - x : DatesMm - 4) - name);
            y += 0.8;
        }

        return y;
    }

    private static void Items(Flow flow, ImmutableArray<QuoteItem> items)
    {
        if (items.IsEmpty)
        {
            return;
        }

        var words = flow.Words;
        new Table([new(words[$"what you get"], 180)], airMm: 1.4).Draw(
            flow,
            [
                .. items.Select(
                    IReadOnlyList<Cell> (item) =>
                        [
                            new([
                                new($"{item.What}, {words.Data(item.Material)}", TextStyle.Strong.At(10.5)),
                                .. item.Places.Select(p => new CellText(
                                    $"{words.Data(p.Name)}, {words.Size(p.WidthMm, p.HeightMm)}",
                                    TextStyle.Body.At(9.5)
                                )),
                            ]),
                        ]
                ),
            ]
        );
    }

    private static void Lines(Flow flow, Quote quote)
    {
        var words = flow.Words;
        var currency = words.Sign(quote.Total.Currency);
        Column[] columns =
        [
            new(words[$"what, and what it is made of"], 104),
            new(words[$"quantity"], 24, Align.Right),
            new(words[$"price of one, {currency}"], 27, Align.Right),
            new(words[$"amount, {currency}"], 25, Align.Right),
        ];
        var rows = quote.Lines.IsDefault ? [] : quote.Lines;
        new Table(columns, airMm: 1).Draw(
            flow,
            [
                .. rows.Select(
                    IReadOnlyList<Cell> (l) =>
                        [
                            new([new(words[l.What], TextStyle.Strong), new(words[l.Explain], TextStyle.Small.At(8))]),
                            Cell.Figure(
                                $"{words.Number(l.Quantity, "0.####")} {words[Unit(l)]}",
                                TextStyle.Body,
                                columns[1].WidthMm
                            ),
                            // One per cent of a sum is no price that anybody asks for.
                            l.Unit == "%"
                                ? Cell.Of("", TextStyle.Body)
                                : Cell.Figure(Exact(l.UnitPrice, words), TextStyle.Body, columns[2].WidthMm),
                            Cell.Figure(words.Amount(l.Amount.InSentence), Money, columns[3].WidthMm),
                        ]
                ),
            ]
        );
        if (rows.Length == 0)
        {
            flow.Gap(2);
            flow.Text(words[$"No lines: nothing is charged."], TextStyle.Body);
        }
    }

    private static void Sums(Flow flow, Quote quote)
    {
        flow.Keep(34);
        flow.Gap(3);
        Sum(flow, $"net", quote.Net, Money.At(12));
        Sum(flow, $"tax {quote.TaxPercent:0.####} % on the net sum", quote.Tax, Money.At(12));
        flow.Gap(1);
        flow.Page.Rule(flow.Left + 80, flow.Y, flow.Left + flow.Width, flow.Y, 0.8, Inks.Black);
        flow.Gap(2);
        Sum(flow, $"total", quote.Total, TextStyle.Title);
    }

    private static void Sum(Flow flow, Sentence name, Money amount, TextStyle style)
    {
        var price = flow.Words.Price(amount.InSentence);
        var right = flow.Left + flow.Width - Table.AirMm;
        var fit = style.FitTo(price, 88);
        var baseline = flow.Y + style.BaselineMm;
        flow.Page.Text(flow.Left + 80 + Table.AirMm, baseline, flow.Words[name], TextStyle.Body.At(10.5));
        flow.Page.Text(right, baseline, price, fit, Align.Right);
        flow.Gap(style.LineMm + 0.6);
    }

    /// <summary>"1 sheet", "6 sheets"; measures such as h and g have no plural.</summary>
    private static Sentence Unit(QuoteLine line) =>
        line.Unit switch
        {
            "sheet" when line.Quantity != 1 => (Sentence)$"sheets",
            "piece" when line.Quantity != 1 => $"pieces",
            _ => line.Unit,
        };

    /// <summary>A unit price as exact as the list has it, but never with fewer digits than its money.</summary>
    private static string Exact(Money price, Wording words)
    {
        var digits = Currencies.MinorUnits(price.Currency) ?? 2;
        var form = digits == 0 ? "0.####" : "0." + new string('0', digits) + "####";
        return words.Number(price.Amount, form);
    }
}
