using UglyToad.PdfPig;
using UglyToad.PdfPig.Core;

namespace Coldpeel.Desk.Tests.Orders;

/// <summary>care.pdf of the demo: in words, in the order of ISO 3758, and without its symbols.</summary>
[Collection(nameof(Regatta))]
[Trait("Speed", "slow")]
public sealed class RegattaCareTests(MadeRegatta regatta)
{
    // ISO 3758:2012: the symbols, and so the advice, stand in this order.
    private static readonly string[] Terms = ["Washing", "Bleaching", "Drying", "Ironing", "Professional care"];

    [Fact]
    public async Task Every_item_has_a_slip_with_the_five_terms_in_the_order_of_the_standard()
    {
        var text = await Outside.Says("pdftotext", "-raw", regatta.PathOf("care.pdf"), "-");
        var slips = text.Split("HOW TO CARE FOR IT")[1..];
        string[] items = ["12 × gilet", "18 × long-sleeve shirt", "16 × tote", "8 × pennant", "1 × fob", "5 × plaque"];
        Assert.Equal(items, slips.Select(s => s.Trim().Split('\n')[0].Trim()));
        foreach (var lines in slips.Select(s => s.Split('\n').Select(l => l.Trim()).ToArray()))
        {
            var at = Terms.Select(term => Array.IndexOf(lines, term)).ToArray();
            // What is no textile (leather, wood) has no care label and may leave all of them out, never some.
            Assert.True(at.All(i => i > 0) || (at.All(i => i < 0) && IsHard(lines)), string.Join('\n', lines));
            Assert.Equal(at.Order(), at);
        }
    }

    [Fact]
    public void No_symbol_is_drawn_where_no_licence_is_held()
    {
        using var paper = PdfDocument.Open(regatta.PathOf("care.pdf"));
        foreach (var page in paper.GetPages())
        {
            Assert.Empty(page.GetImages());
            // A symbol (tub, triangle, circle, iron) has curves or slanting lines; frames and cutting lines have neither.
            var drawn = page.Paths.SelectMany(p => p).SelectMany(p => p.Commands).ToArray();
            Assert.DoesNotContain(drawn, c => c is PdfSubpath.CubicBezierCurve or PdfSubpath.QuadraticBezierCurve);
            Assert.All(
                drawn.OfType<PdfSubpath.Line>(),
                l => Assert.True(Math.Abs(l.From.X - l.To.X) < 0.01 || Math.Abs(l.From.Y - l.To.Y) < 0.01)
            );
            Assert.All(page.Letters, l => Assert.True(l.Value.All(c => c < '\u2190'), $"{l.Value} is no letter"));
        }
    }

    private static bool IsHard(string[] lines) => lines.Any(l => l is "1 × fob" or "5 × plaque");
}
