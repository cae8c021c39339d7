using System.Globalization;
using Coldpeel.Files.Paper;
using Coldpeel.Workshop.Press;
using SkiaSharp;

namespace Coldpeel.Files.Press;

/// <summary>The head of a ticket: job, customer, due day, item, count, material, whose blanks, and the code that opens it.</summary>
internal static class TicketHead
{
    private const double QrMm = 31; // quiet zone and all: even the smallest code of 21 modules is then 22 mm wide
    private const double TextMm = 112;

    public static void Draw(Flow flow, Ticket ticket)
    {
        var page = flow.Page;
        var (left, right, top) = (flow.Left, flow.Left + flow.Width, flow.Y);
        page.Fill(left, top, flow.Width, 1.6, Inks.Amber);
        var code = Code(page, ticket.Url, right, top + 2.5);
        var y = top + 3.5;
        y +=
            Fitted(
                page,
                left,
                y,
                page.Words[$"TICKET {ticket.Number} · {ticket.Job}"],
                TextStyle.Label.At(9.5),
                TextMm,
                3
            ) + 0.5;
        y += Fitted(page, left, y, ticket.Title, TextStyle.Title.At(24), TextMm, 4) + 0.5;
        y += Fitted(page, left, y, page.Words[$"due {ticket.Due}"], TextStyle.Title.At(15), TextMm, 1) + 0.5;
        y += Fitted(page, left, y, ticket.Customer, TextStyle.Body.At(11), TextMm, 3);
        flow.Y = Math.Max(y, code) + 1;
        page.Rule(left, flow.Y, right, flow.Y, 0.5, Inks.Black);
        flow.Gap(1.5);
        Facts(flow, ticket);
        flow.Gap(2);
    }

    /// <summary>The code and, beside it, where it leads in words; tells where it ends.</summary>
    private static double Code(Page page, string url, double right, double top)
    {
        if (url.Length == 0)
        {
            return top;
        }

        var drawn = Marks.Qr(page, right - QrMm, top, QrMm, url);
        var (x, width) = (right - 70, drawn ? 70 - QrMm - 1 : 70);
        var y =
            top
            + 3
            + page.Block(x, top + 3, page.Words[$"This ticket in the app:"], TextStyle.Label, width, Align.Right);
        y += page.Block(x, y + 0.5, url, TextStyle.Small.At(8).FitLines(url, width, 8), width, Align.Right);
        return Math.Max(y, drawn ? top + QrMm : top);
    }

    private static void Facts(Flow flow, Ticket ticket)
    {
        var (page, left, top) = (flow.Page, flow.Left, flow.Y);
        var count = ticket.Quantity.ToString(CultureInfo.InvariantCulture);
        page.Block(left, top, page.Words[$"QUANTITY"], TextStyle.Label, 30);
        page.Block(left, top + 3.6, count, TextStyle.Title.At(26).FitTo(count, 30), 31);
        var y1 = top + 3.6 + TextStyle.Title.At(26).LineMm;

        page.Block(left + 34, top, page.Words[$"MATERIAL"], TextStyle.Label, 50);
        var y2 =
            top
            + 3.6
            + Fitted(page, left + 34, top + 3.6, page.Words.Data(ticket.MaterialName), TextStyle.Strong.At(13), 62, 4);
        if (SKColor.TryParse(ticket.FabricColour, out var colour))
        {
            page.Fill(left + 34, y2 + 0.8, 8, 4, colour);
            page.Box(left + 34, y2 + 0.8, 8, 4, 0.3, Inks.Black);
            page.Text(left + 44, y2 + 4, page.Words[$"fabric {ticket.FabricColour}"], TextStyle.Small.At(8));
            y2 += 6;
        }

        var y3 = Blanks(page, left + 100, top, ticket.CustomersOwn);
        flow.Y = Math.Max(y1, Math.Max(y2, y3));
    }

    /// <summary>Text that may be as long as it likes, in as many lines as a head can spare.</summary>
    private static double Fitted(
        Page page,
        double x,
        double y,
        string text,
        TextStyle style,
        double width,
        int lines
    ) => page.Block(x, y, text, style.FitLines(text, width, lines), width);

    private static double Blanks(Page page, double x, double top, bool customersOwn)
    {
        page.Block(x, top, page.Words[$"BLANKS"], TextStyle.Label, 50);
        if (!customersOwn)
        {
            return top + 3.6 + page.Block(x, top + 3.6, page.Words[$"the workshop's"], TextStyle.Strong.At(13), 78);
        }

        page.Box(x, top + 4.4, 80, 12, 1, Inks.Black);
        page.Block(x, top + 5, page.Words[$"CUSTOMER'S OWN"], TextStyle.Title.At(13), 80, Align.Centre);
        page.Block(x, top + 10.6, page.Words[$"handle with care"], TextStyle.Strong.At(11), 80, Align.Centre);
        return top + 16.4;
    }
}
