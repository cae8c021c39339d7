using System.Collections.Immutable;
using System.Security.Cryptography;
using Coldpeel.Craft.Artwork;
using Coldpeel.Files.Paper;
using Coldpeel.Files.Press;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Press;
using Coldpeel.Workshop.Quotes;

namespace Coldpeel.Files.Orders;

/// <summary>What a customer is asked to approve.</summary>
/// <param name="Workshop">Who asks.</param>
/// <param name="Job">The job.</param>
/// <param name="Customer">Who is asked.</param>
/// <param name="Items">Its items.</param>
/// <param name="Price">What it costs; null to leave the price out.</param>
public sealed record ProofPaper(
    string Workshop,
    string Job,
    string Customer,
    ImmutableArray<ProofItem> Items,
    Quote? Price
)
{
    /// <summary>How it is worded.</summary>
    public Wording Words { get; init; } = Wording.English;
}

/// <summary>Equal items of a proof.</summary>
/// <param name="Title">"12 × gilet".</param>
/// <param name="Material">What it is made of.</param>
/// <param name="ColourWord">Its colour as the order writes it.</param>
/// <param name="Fabric">Its colour.</param>
/// <param name="Places">What goes where.</param>
public sealed record ProofItem(
    string Title,
    string Material,
    string ColourWord,
    Rgb Fabric,
    ImmutableArray<ProofPlace> Places
);

/// <summary>A place with everything that is printed there.</summary>
/// <param name="Place">The place, with its distances.</param>
/// <param name="Pieces">Each piece that differs from the others, in the order of the items.</param>
public sealed record ProofPlace(TicketPlace Place, ImmutableArray<ProofPiece> Pieces);

/// <summary>One piece.</summary>
/// <param name="Whose">Whose it is: "3, Åsa"; empty where all items carry it.</param>
/// <param name="Count">On how many items it goes.</param>
/// <param name="Design">What is printed.</param>
public sealed record ProofPiece(string Whose, int Count, Design Design);

/// <summary>The proof: every design at true size on its fabric, where it goes, every name as it will be, and a place for the customer's word.</summary>
public static class ProofPdf
{
    /// <summary>Fabric round a design.</summary>
    private const double AirMm = 6;

    /// <summary>Room for the words above and below a design of a page's height.</summary>
    private const double WordsMm = 44;

    private const double ApprovalMm = 58;

    // ISO 216.
    private static readonly (double Width, double Height)[] Papers = [(210, 297), (297, 420), (420, 594), (594, 841)];

    private static readonly Sentence[] Choices = [$"Make it as it stands here.", $"Please change:"];
    private static readonly Sentence[] Lines = [$"name", $"day", $"signature"];
    private static readonly TextStyle Caption = TextStyle.Strong.At(9.5);

    /// <summary>The PDF; the same paper gives the same bytes. Its foot names the version, which changes with anything that is shown.</summary>
    public static byte[] Write(ProofPaper paper)
    {
        ArgumentNullException.ThrowIfNull(paper);
        var plain = Write(paper, null);
        return Write(paper, Convert.ToHexString(SHA256.HashData(plain))[..8]);
    }

    private static byte[] Write(ProofPaper paper, string? version)
    {
        var (width, height) = PaperFor(paper);
        var words = paper.Words;
        var book = new Book(words[$"Proof {paper.Job}"], width, height, words);
        var foot = words[
            $"{paper.Workshop} · proof of {paper.Job}{(version is null ? Sentence.Nothing : $" · version {version}")}"
        ];
        var flow = new Flow(book, 0, foot);
        var (sketches, pictures) = (new DesignPictures(), new TrueSizePictures());
        Head(flow, paper);
        foreach (var item in paper.Items)
        {
            Item(flow, item, sketches, pictures);
        }

        Price(flow, paper.Price);
        Approval(flow);
        return book.Write();
    }

    // The smallest sheet on which every design stands whole; one of its own where none of them is enough.
    private static (double Width, double Height) PaperFor(ProofPaper paper)
    {
        var designs = paper.Items.SelectMany(i => i.Places).SelectMany(p => p.Pieces).Select(p => p.Design).ToArray();
        var wide = designs.Select(d => d.WidthMm).DefaultIfEmpty(0).Max() + (2 * (AirMm + Book.MarginMm));
        var tall = designs.Select(d => d.HeightMm).DefaultIfEmpty(0).Max() + WordsMm + (2 * (AirMm + Book.MarginMm));
        return Papers
            .Where(p => p.Width >= wide && p.Height >= tall)
            .DefaultIfEmpty((Math.Ceiling(Math.Max(210, wide)), Math.Ceiling(Math.Max(297, tall))))
            .First();
    }

    private static void Head(Flow flow, ProofPaper paper)
    {
        flow.Text(paper.Workshop, TextStyle.Strong.At(11));
        flow.Gap(3);
        flow.Page.Fill(flow.Left, flow.Y, 24, 1.4, Inks.Amber);
        flow.Gap(3);
        flow.Text(flow.Words[$"Proof, for you to approve"], TextStyle.Title.At(24));
        flow.Gap(1);
        flow.Text(flow.Words[$"{paper.Customer} · order {paper.Job}"], TextStyle.Strong.At(12));
        flow.Gap(2);
        flow.Text(
            flow.Words[
                $"Please look at every name and number, at size, place and colour: it is made as it stands here. What is drawn on a coloured ground is at true size "
                    + $"when this paper is printed at 100 %; the bar below is then 100 mm long. Paper and screens show colours a little differently from cloth."
            ],
            TextStyle.Body
        );
        flow.Gap(3);
        Bar(flow.Page, flow.Left, flow.Y);
        flow.Gap(9);
    }

    private static void Bar(Page page, double x, double y)
    {
        page.Rule(x, y, x + 100, y, 0.4, Inks.Black);
        for (var mm = 0; mm <= 100; mm += 10)
        {
            var reach = mm % 50 == 0 ? 2 : 1;
            page.Rule(x + mm, y - reach, x + mm, y + reach, 0.3, Inks.Black);
        }

        page.Text(x + 103, y + 1.2, "100 mm", TextStyle.Label);
    }

    private static void Item(Flow flow, ProofItem item, DesignPictures sketches, TrueSizePictures pictures)
    {
        flow.Keep(TextStyle.Title.LineMm + 90);
        flow.Gap(2);
        var style = TextStyle.Title.At(17);
        flow.Page.Fill(flow.Left, flow.Y + 1, 10, style.LineMm - 2, TrueSizePictures.Colour(item.Fabric));
        flow.Page.Box(flow.Left, flow.Y + 1, 10, style.LineMm - 2, 0.2, Inks.Grey);
        flow.Text(item.Title, style, 14);
        flow.Text($"{flow.Words.Data(item.Material)}, {item.ColourWord}", TextStyle.Body, 14);
        flow.Gap(2);
        foreach (var place in item.Places)
        {
            PlaceSketch.Draw(flow, place.Place, sketches, flow.Words[$"The outline shows where; the distances hold."]);
            Pieces(flow, item, place.Pieces, pictures);
            flow.Gap(3);
        }
    }

    // Side by side as long as the line has room: names are many and short.
    private static void Pieces(Flow flow, ProofItem item, ImmutableArray<ProofPiece> pieces, TrueSizePictures pictures)
    {
        var line = new List<(ProofPiece Piece, string Words, double Width, double Height)>();
        foreach (var piece in pieces)
        {
            var (w, h) = TrueSizePictures.SizeMm(piece.Design);
            var words = flow.Words[Words(piece)];
            var width = Math.Max(w + (2 * AirMm), Math.Min(flow.Width, TextLines.WidthMm(words, Caption)));
            if (line.Count > 0 && line.Sum(p => p.Width + AirMm) + width > flow.Width)
            {
                Line(flow, item, line, pictures);
                line.Clear();
            }

            line.Add((piece, words, width, h + (2 * AirMm)));
        }

        Line(flow, item, line, pictures);
    }

    private static void Line(
        Flow flow,
        ProofItem item,
        List<(ProofPiece Piece, string Words, double Width, double Height)> line,
        TrueSizePictures pictures
    )
    {
        if (line.Count == 0)
        {
            return;
        }

        var tall = line.Max(p => p.Height);
        flow.Keep(tall + Caption.LineMm + 3.5);
        var x = flow.Left;
        var y = flow.Y + Caption.LineMm + 0.8;
        foreach (var (piece, words, width, height) in line)
        {
            var (w, h) = TrueSizePictures.SizeMm(piece.Design);
            flow.Page.Text(x, flow.Y + Caption.BaselineMm, words, Caption.FitTo(words, width));
            flow.Page.Fill(x, y, w + (2 * AirMm), height, TrueSizePictures.Colour(item.Fabric));
            flow.Page.Picture(pictures.Of(piece.Design, item.Fabric), x + AirMm, y + AirMm, w, h);
            x += width + AirMm;
        }

        flow.Gap(Caption.LineMm + 0.8 + tall + 2.5);
    }

    private static Sentence Words(ProofPiece piece)
    {
        var size = new Part.Length(piece.Design.WidthMm, piece.Design.HeightMm, "0.#");
        return piece.Whose.Length > 0 ? (Sentence)$"{piece.Whose} · {size}"
            : piece.Count == 1 ? (Sentence)$"on one item · {size}"
            : $"on each of {piece.Count} items · {size}";
    }

    private static void Price(Flow flow, Quote? quote)
    {
        if (quote is null)
        {
            return;
        }

        flow.Keep(24 + ApprovalMm);
        flow.Gap(2);
        flow.Text(flow.Words[$"Price: {quote.Total}"], TextStyle.Title.At(15));
        flow.Text(
            flow.Words[
                $"net {quote.Net}, tax {quote.TaxPercent:0.##} % {quote.Tax}; the quote tells what it is made of."
            ],
            TextStyle.Body
        );
        flow.Gap(3);
    }

    private static void Approval(Flow flow)
    {
        flow.Keep(ApprovalMm);
        flow.Gap(3);
        flow.Page.Rule(flow.Left, flow.Y, flow.Left + flow.Width, flow.Y, 0.8, Inks.Black);
        flow.Gap(3);
        flow.Text(flow.Words[$"Your word"], TextStyle.Title.At(15));
        flow.Gap(2);
        foreach (var choice in Choices)
        {
            var style = TextStyle.Body.At(11);
            Marks.Tick(flow.Page, flow.Left, flow.Y + 0.6, 4);
            flow.Page.Text(flow.Left + 7, flow.Y + style.BaselineMm, flow.Words[choice], style);
            flow.Gap(8);
        }

        flow.Gap(12);
        var third = (flow.Width - 12) / 3;
        foreach (var (i, what) in Lines.Index())
        {
            var x = flow.Left + (i * (third + 6));
            flow.Page.Rule(x, flow.Y, x + third, flow.Y, 0.25, Inks.Black);
            flow.Page.Text(x, flow.Y + 4, flow.Words[what], TextStyle.Label);
        }

        flow.Gap(8);
    }
}
