using System.Globalization;
using Coldpeel.Files.Paper;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Files.Orders;

/// <summary>The slip that goes along with an order: what it is, what was put on it, how to care for it, what to mind, who received it. No prices.</summary>
public static class HandOverPdf
{
    private const double NameMm = 26;

    /// <summary>The PDF, A4; the same slip in the same words gives the same bytes.</summary>
    /// <param name="slip">The slip.</param>
    /// <param name="words">How it is worded; null for English.</param>
    public static byte[] Write(HandOver slip, Wording? words = null)
    {
        ArgumentNullException.ThrowIfNull(slip);
        words ??= Wording.English;
        var book = new Book(words[$"Hand-over {slip.Job}"], words: words);
        var flow = new Flow(book, 0, words[$"{slip.Workshop} · hand-over of {slip.Job}"], f => f.Gap(2));
        Head(flow, slip, words);
        foreach (var group in slip.Groups)
        {
            Items(flow, group, words);
        }

        flow.Gap(3);
        flow.Text(
            words[$"Keep this slip. The garment maker's label and local rules come first where they ask for more."],
            TextStyle.Small.At(8.5)
        );
        Receipt(flow, slip.Received, words);
        return book.Write();
    }

    /// <summary>A caution in words for whoever receives the items.</summary>
    public static Sentence Say(HandOverCaution caution) =>
        caution switch
        {
            HandOverCaution.Protective => (Sentence)
                $"Sold as protective equipment: a print takes away from the area that must be visible (EN ISO 20471) and melts in flame. Wear it for protection only where the maker's written consent to this print is at hand.",
            HandOverCaution.ChildrenNightwear =>
                "Children's nightwear: a melted-on print changes how the fabric burns. Keep it away from fire and hot things; the flammability rules of your country come first.",
            HandOverCaution.ChildName =>
                "A child's name stands where strangers can read it: they can call the child by it.",
            HandOverCaution.Hot =>
                "Gets hot in use: the print slides or lifts where it gets hotter than its glue softens.",
            _ => "Keep the print away from food and mouth: toner and glue are not made for that.",
        };

    private static void Head(Flow flow, HandOver slip, Wording words)
    {
        flow.Text(words.Data(slip.Workshop), TextStyle.Strong.At(11));
        flow.Gap(4);
        flow.Page.Fill(flow.Left, flow.Y, 24, 1.4, Inks.Amber);
        flow.Gap(3);
        flow.Text(words[$"Hand-over"], TextStyle.Title.At(28));
        flow.Gap(2);
        Fact(flow, words[$"for"], slip.Customer);
        Fact(flow, words[$"order"], slip.Job);
        flow.Gap(3);
    }

    private static void Items(Flow flow, HandedItems group, Wording words)
    {
        flow.Heading(group.Title, 40);
        flow.Text(words.Data(group.Material), TextStyle.Body);
        flow.Gap(1);
        foreach (var place in group.Places)
        {
            flow.Text(
                $"– {place.Design}: {words.Data(place.At)}, {words.Size(place.WidthMm, place.HeightMm)}",
                TextStyle.Body,
                2
            );
        }

        if (!group.Who.IsEmpty)
        {
            flow.Gap(1);
            flow.Text(string.Join(" · ", group.Who), TextStyle.Body.At(9));
        }

        if (group.Follows is { } follows)
        {
            flow.Gap(1.5);
            flow.Text(words[follows], TextStyle.Strong.At(10));
        }

        foreach (var caution in group.Cautions)
        {
            flow.Gap(1.5);
            Boxed(flow, words[Say(caution)]);
        }

        if (group.Care is { } care)
        {
            flow.Gap(2);
            flow.Keep(12);
            flow.Text(words[$"HOW TO CARE FOR IT"], TextStyle.Label);
            flow.Gap(0.6);
            foreach (var line in care.Groups)
            {
                Fact(flow, words[line.Group], words[line.Advice], TextStyle.Strong.At(9.5));
            }

            foreach (var tip in care.Tips)
            {
                flow.Text($"– {words[tip]}", TextStyle.Body.At(9));
            }

            flow.Gap(0.8);
            flow.Text(words[care.Washes], TextStyle.Small.At(8));
        }

        flow.Gap(4);
    }

    // A bar at its left tells it apart without colour.
    private static void Boxed(Flow flow, string words)
    {
        var style = TextStyle.Strong.At(9.5);
        var lines = TextLines.Wrap(words, style, flow.Width - 5).Count;
        flow.Keep(lines * style.LineMm);
        flow.Page.Fill(flow.Left, flow.Y, 1.4, lines * style.LineMm, Inks.Black);
        flow.Text(words, style, 5);
    }

    private static void Receipt(Flow flow, Receipt? receipt, Wording words)
    {
        flow.Keep(34);
        flow.Gap(6);
        flow.Text(words[$"Received"], TextStyle.Strong.At(12));
        flow.Gap(1);
        if (receipt is not null)
        {
            Fact(flow, words[$"by"], receipt.By);
            Fact(
                flow,
                words[$"on"],
                $"{words.Day(DateOnly.FromDateTime(receipt.At.DateTime))}, {receipt.At.ToString("HH:mm", CultureInfo.InvariantCulture)}"
            );
            Fact(flow, words[$"from"], words.Data(receipt.From));
        }

        flow.Gap(9);
        flow.Page.Rule(flow.Left, flow.Y, flow.Left + 80, flow.Y, 0.3, Inks.Black);
        flow.Gap(0.6);
        flow.Text(words[$"signature"], TextStyle.Label.At(8));
    }

    private static void Fact(Flow flow, string name, string value, TextStyle? style = null)
    {
        var text = style ?? TextStyle.Body.At(11);
        var lines = TextLines.Wrap(value, text, flow.Width - NameMm);
        flow.Keep(text.LineMm * Math.Max(1, lines.Count));
        flow.Page.Text(flow.Left, flow.Y + text.BaselineMm, name, TextStyle.Label.At(8.5));
        if (lines.Count == 0)
        {
            flow.Page.Rule(
                flow.Left + NameMm,
                flow.Y + text.LineMm,
                flow.Left + 90,
                flow.Y + text.LineMm,
                0.2,
                Inks.Grey
            );
            flow.Gap(text.LineMm);
        }

        foreach (var line in lines)
        {
            flow.Page.Text(flow.Left + NameMm, flow.Y + text.BaselineMm, line, text);
            flow.Gap(text.LineMm);
        }

        flow.Gap(0.6);
    }
}
