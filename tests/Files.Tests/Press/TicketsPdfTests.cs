using Coldpeel.Files.Press;
using Coldpeel.Files.Tests.Paper;
using Coldpeel.Workshop.Press;
using ZXing;
using ZXing.Common;

namespace Coldpeel.Files.Tests.Press;

public sealed class TicketsPdfTests
{
    private static readonly Ticket Two = Regatta.Ticket(
        1,
        8,
        new("oar", Regatta.Place("left chest", "gilet-front", 110, 95), 90, 60, Regatta.Oar),
        new("name", Regatta.Place("back", "gilet-back", 95, 0), 260, 62, null)
    );

    [Fact]
    public async Task A_ticket_tells_what_it_is_how_it_is_pressed_where_it_goes_and_for_whom()
    {
        using var paper = new Printed(TicketsPdf.Write([Two]), "ticket");
        var text = await paper.Text();

        string[] expected =
        [
            "Regatta crew kit, spring",
            "Ruderclub Blaue Möwe e. V.",
            "Fri 4 Dec 2026",
            "8 × gilet, navy",
            "CUSTOMER'S OWN",
            "handle with care",
            "Finish press",
            "130",
            "150",
            "120",
            "maker's sheet",
            "own trial of 3 March",
            TicketsPdf.MakersFirst,
            "CAUTION",
            "Hot plate: gloves on",
            "Fumes",
            "Once a sheet",
            "At the press, every item",
            "left chest",
            "90 × 60 mm",
            "110 mm down from the collar seam at the shoulder",
            "260 × 62 mm",
            "Łukasz Wiśniewski-Żółć",
            "Søren Ærøskøbing",
            "Þórdís Guðmundsdóttir",
            "A1-08",
            "http://workshop.local:5080/",
        ];
        Assert.All(expected, e => Assert.Contains(e, text, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(12)]
    [InlineData(13)]
    [InlineData(60)]
    public async Task Every_item_has_its_line_and_nothing_is_clipped_or_overlaps(int rows)
    {
        using var paper = new Printed(
            TicketsPdf.Write([Two with { Rows = Regatta.Ticket(1, rows).Rows }]),
            $"ticket-{rows}"
        );
        var text = await paper.Text();

        Assert.All(Enumerable.Range(1, rows), i => Assert.Contains($"B1-{i:00}", text, StringComparison.Ordinal));
        Assert.Empty(paper.Outside(15));
        Assert.Empty(paper.Overlapping());
        Assert.InRange(paper.Pages, 2, rows > 40 ? 4 : 3);
    }

    [Fact]
    public async Task The_hot_plate_is_named_once()
    {
        using var paper = new Printed(TicketsPdf.Write([Two]), "ticket-cautions");
        var text = await paper.Text();

        Assert.Single(System.Text.RegularExpressions.Regex.Matches(text, "Hot plate:"));
        Assert.Single(System.Text.RegularExpressions.Regex.Matches(text, "Fumes:"));
    }

    [Theory]
    [InlineData(8, 2)]
    [InlineData(18, 3)]
    public void Two_places_and_their_rows_follow_the_page_of_the_steps(int rows, int pages)
    {
        using var paper = new Printed(
            TicketsPdf.Write([Two with { Rows = Regatta.Ticket(1, rows).Rows }]),
            $"ticket-places-{rows}"
        );

        Assert.Equal(pages, paper.Pages);
    }

    [Fact]
    public async Task A_telephone_reads_the_code_from_a_print_at_150_per_inch()
    {
        // ZXing.Net, an independent reader, on poppler's rendering.
        using var paper = new Printed(TicketsPdf.Write([Two]), "ticket-code");
        using var page = await paper.Picture(1, 150);
        var grey = page.Pixels.Select(p => p.Red).ToArray();
        var source = new PlanarYUVLuminanceSource(grey, page.Width, page.Height, 0, 0, page.Width, page.Height, false);
        var read = new ZXing.QrCode.QRCodeReader().decode(
            new BinaryBitmap(new HybridBinarizer(source)),
            new Dictionary<DecodeHintType, object> { [DecodeHintType.TRY_HARDER] = true }
        );

        Assert.Equal(Two.Url, read.Text);
        // The three finder patterns' centres are 7 modules short of the code's side: at 22 mm and more they stand this far apart.
        var points = read.ResultPoints;
        var side = Math.Max(Math.Abs(points[0].X - points[2].X), Math.Abs(points[0].Y - points[2].Y)) / 150 * 25.4;
        Assert.InRange(side, 22 * 0.7, 30);
    }

    [Theory]
    [InlineData("shirt-front")]
    [InlineData("shirt-back")]
    [InlineData("gilet-front")]
    [InlineData("gilet-back")]
    [InlineData("sleeve")]
    [InlineData("bag")]
    [InlineData("flat")]
    [InlineData("tag")]
    [InlineData("a kind nobody knows")]
    public async Task Every_kind_of_sketch_shows_its_distances_and_no_figure_meets_another(string sketch)
    {
        var rule = Regatta.Place("place", sketch, 41, sketch == "tag" ? 7 : -53);
        var ticket = Regatta.Ticket(
            2,
            1,
            new TicketPlace("oar", rule, sketch == "tag" ? 31 : 97, sketch == "tag" ? 22 : 63, Regatta.Oar)
        );
        using var paper = new Printed(TicketsPdf.Write([ticket]), "sketch-" + sketch.Replace(' ', '-'));
        var text = await paper.Text();

        Assert.Contains("41", text, StringComparison.Ordinal);
        Assert.Contains(sketch == "tag" ? "31 × 22 mm" : "97 × 63 mm", text, StringComparison.Ordinal);
        Assert.Empty(paper.Outside(15));
        Assert.Empty(paper.Overlapping());
    }

    [Fact]
    public async Task Absurdly_long_words_stay_on_the_paper()
    {
        var endless = new string('W', 300);
        var ticket = Two with
        {
            Job = Regatta.LongName + " " + Regatta.LongName,
            Customer = endless,
            Title = "1200 × " + Regatta.LongName,
            MaterialName = endless,
            Cautions = [endless, Regatta.LongName],
            Rows =
            [
                new(1, endless + endless + endless + endless + endless + endless, [endless]),
                new(123456, Regatta.LongName, []),
            ],
        };
        using var paper = new Printed(TicketsPdf.Write([ticket]), "ticket-long");

        // 300 letters each: customer, material, a caution, six in the row's name, one label; and the W of "CUSTOMER'S OWN".
        Assert.Equal((300 * 10) + 1, (await paper.Text()).Count(c => c == 'W'));
        Assert.Empty(paper.Outside(15));
        Assert.Empty(paper.Overlapping());
    }

    [Fact]
    public async Task Each_group_has_its_own_pages_and_no_ticket_is_still_a_paper()
    {
        using var paper = new Printed(TicketsPdf.Write([Two, Regatta.Ticket(2, 3)]), "tickets-two");
        using var none = new Printed(TicketsPdf.Write([]), "tickets-none");

        Assert.Contains("Ticket 2 · Regatta", await paper.Text(), StringComparison.Ordinal);
        Assert.Equal(1, none.Pages);
        Assert.Contains("nothing to press", await none.Text(), StringComparison.Ordinal);
    }

    [Fact]
    public void The_same_tickets_give_the_same_bytes() =>
        Assert.Equal(TicketsPdf.Write([Two]), TicketsPdf.Write([Two]));
}
