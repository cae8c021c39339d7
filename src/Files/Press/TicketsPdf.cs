using Coldpeel.Files.Paper;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Press;

/// <summary>The tickets that hang at the press, one an item group: big figures, sketch with dimensions, rows to tick, a code that opens it.</summary>
public static class TicketsPdf
{
    /// <summary>What every ticket says about its figures.</summary>
    public const string MakersFirst = "The media maker's sheet and your own trials come first.";

    /// <summary>The PDF, A4; the same tickets give the same bytes. No ticket gives one page that says so.</summary>
    /// <param name="tickets">One an item group.</param>
    /// <param name="words">How they are worded; null for English.</param>
    public static byte[] Write(IReadOnlyList<Ticket> tickets, Wording? words = null)
    {
        ArgumentNullException.ThrowIfNull(tickets);
        words ??= Wording.English;
        var book = new Book(
            words[tickets.Count > 0 ? (Sentence)$"Tickets {tickets[0].Job}" : $"Tickets"],
            words: words
        );
        for (var i = 0; i < tickets.Count; i++)
        {
            WriteOne(book, i, tickets[i]);
        }

        if (tickets.Count == 0)
        {
            new Flow(book, 0, words[$"Tickets"]).Text(
                words[$"There is nothing to press: the job has no items."],
                TextStyle.Body.At(14)
            );
        }

        return book.Write();
    }

    private static void WriteOne(Book book, int section, Ticket ticket)
    {
        var foot = book.Words[$"Ticket {ticket.Number} · {ticket.Job} · {ticket.Item}"];
        var flow = new Flow(book, section, foot, f => Continued(f, ticket));
        TicketHead.Draw(flow, ticket);
        Cautions(flow, ticket);
        TicketSteps.Draw(flow, ticket.Steps.IsDefault ? [] : ticket.Steps, ticket.HeatSay);
        var pictures = new DesignPictures();
        foreach (var place in ticket.Places.IsDefault ? [] : ticket.Places)
        {
            PlaceSketch.Draw(flow, place, pictures);
        }

        TicketRows.Draw(flow, ticket.Rows.IsDefault ? [] : ticket.Rows);
    }

    private static void Continued(Flow flow, Ticket ticket)
    {
        var due = flow.Words[$"due {ticket.Due}"];
        var style = TextStyle.Strong.At(11);
        var title = $"{ticket.Number} · {ticket.Title} · {ticket.Job}";
        flow.Page.Fill(flow.Left, flow.Y, flow.Width, 1.2, Inks.Amber);
        flow.Gap(2);
        flow.Page.Text(flow.Left + flow.Width, flow.Y + style.BaselineMm, due, style, Align.Right);
        var room = flow.Width - TextLines.WidthMm(due, style) - 6;
        flow.Y += flow.Page.Block(flow.Left, flow.Y, title, style.FitLines(title, room, 2), room);
        flow.Gap(3);
    }

    private static void Cautions(Flow flow, Ticket ticket)
    {
        string[] cautions = [.. (ticket.Cautions.IsDefault ? [] : ticket.Cautions).Select(c => flow.Words[c])];
        if (cautions.Length == 0)
        {
            return;
        }

        var (style, word) = (TextStyle.Strong.At(9.5), TextStyle.Title.At(12));
        const double text = 40;
        var lines = cautions.Select(c => TextLines.Wrap(c, style, flow.Width - text - 4)).ToList();
        var height = Math.Max(11, lines.Sum(l => l.Count * style.LineMm) + ((cautions.Length - 1) * 0.8) + 4);
        flow.Keep(height);
        flow.Page.Box(flow.Left, flow.Y, flow.Width, height, 0.7, Inks.Black);
        Marks.Caution(flow.Page, flow.Left + 2.5, flow.Y + 1.5, 8.4);
        flow.Page.Text(flow.Left + 13, flow.Y + 3 + word.BaselineMm, flow.Words[$"CAUTION"], word);
        var y = flow.Y + 2;
        foreach (var caution in cautions)
        {
            y += flow.Page.Block(flow.Left + text, y, caution, style, flow.Width - text - 4) + 0.8;
        }

        flow.Y += height + 3;
    }
}
