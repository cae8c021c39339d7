using Coldpeel.Files.Tests.Paper;
using Coldpeel.Files.Wash;
using UglyToad.PdfPig;

namespace Coldpeel.Files.Tests.Wash;

public sealed class CarePdfTests
{
    [Theory]
    [InlineData(1, 1)]
    [InlineData(4, 1)]
    [InlineData(5, 2)]
    public async Task Slips_stand_four_a_page_with_the_groups_in_the_order_of_the_standard(int slips, int pages)
    {
        var pdf = CarePdf.Write(
            [.. Enumerable.Range(1, slips).Select(i => Regatta.Slip($"{i} × gilet, navy"))],
            "Werkstatt am Kanal",
            false
        );
        using var paper = new Printed(pdf, $"care-{slips}");
        var text = await paper.Text();

        Assert.Equal(pages, paper.Pages);
        // ISO 3758: washing, bleaching, drying, ironing, professional care.
        string[] order = ["Washing", "Bleaching", "Drying", "Ironing", "Professional care"];
        var at = order.Select(g => text.IndexOf(g, StringComparison.Ordinal)).ToList();
        Assert.DoesNotContain(-1, at);
        Assert.Equal(at.Order(), at);
        Assert.All(Enumerable.Range(1, slips), i => Assert.Contains($"{i} × gilet", text, StringComparison.Ordinal));
        Assert.Empty(paper.Outside(15));
        Assert.Empty(paper.Overlapping());
    }

    [Fact]
    public void Symbols_are_drawn_only_where_the_workshop_holds_the_licence()
    {
        var words = CarePdf.Write([Regatta.Slip("gilet")], "Werkstatt", false);
        var symbols = CarePdf.Write([Regatta.Slip("gilet")], "Werkstatt", true);
        using var a = new Printed(symbols, "care-symbols");

        Assert.True(Paths(symbols) >= Paths(words) + 10);
        Assert.Equal(
            Paths(words),
            Paths(CarePdf.Write([Regatta.Slip("gilet") with { Limits = null }], "Werkstatt", true))
        );
    }

    [Fact]
    public async Task Advice_that_is_too_long_goes_on_to_another_slip_and_no_slip_is_still_a_paper()
    {
        var slip = Regatta.Slip("gilet") with
        {
            Tips = [.. Enumerable.Range(1, 40).Select(i => $"tip {i} {Regatta.LongName}")],
        };
        using var paper = new Printed(CarePdf.Write([slip], "Werkstatt", false), "care-long");
        using var none = new Printed(CarePdf.Write([], "Werkstatt", false), "care-none");
        var text = await paper.Text();

        Assert.All(Enumerable.Range(1, 40), i => Assert.Contains($"tip {i} ", text, StringComparison.Ordinal));
        Assert.Empty(paper.Outside(15));
        Assert.Empty(paper.Overlapping());
        Assert.Contains("no care slips", await none.Text(), StringComparison.Ordinal);
    }

    [Fact]
    public void The_same_slips_give_the_same_bytes() =>
        Assert.Equal(
            CarePdf.Write([Regatta.Slip("gilet")], "Werkstatt", true),
            CarePdf.Write([Regatta.Slip("gilet")], "Werkstatt", true)
        );

    private static int Paths(byte[] pdf)
    {
        using var document = PdfDocument.Open(pdf);
        return document.GetPage(1).Paths.Count;
    }
}
