using Coldpeel.Files.Press;
using Coldpeel.Files.Tests.Paper;
using Coldpeel.Workshop.Press;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Core;
using UglyToad.PdfPig.Graphics;

namespace Coldpeel.Files.Tests.Press;

public sealed class PlaceSketchTests
{
    [Fact]
    public void The_design_stands_on_the_item_to_scale()
    {
        var place = new TicketPlace("oar", Regatta.Place("left chest", "gilet-front", 110, 95), 90, 60, null);
        using var pdf = PdfDocument.Open(TicketsPdf.Write([Regatta.Ticket(1, 1, place)]));
        var paths = pdf.GetPages().SelectMany(p => p.Paths).Where(p => p.IsFilled).ToList();
        // The outline is the pale shape (0xee), the design the white one that lies within it.
        var item = paths.Where(p => Grey(p, 0xee)).Select(Box).Single();
        var design = paths
            .Where(p => Grey(p, 0xff))
            .Select(Box)
            .Single(b => b.Left > item.Left && b.Right < item.Right && b.Top < item.Top && b.Bottom > item.Bottom);

        // The typical gilet drawn is 510 mm wide and reaches 45 mm above the line that distances are measured from.
        var mm = item.Width / 510;
        Assert.Equal(90, design.Width / mm, 0.5);
        Assert.Equal(60, design.Height / mm, 0.5);
        Assert.Equal(95, (design.Left + design.Right - item.Left - item.Right) / 2 / mm, 0.5);
        Assert.Equal(110 + 45, (item.Top - design.Top) / mm, 0.5);
    }

    private static bool Grey(PdfPath path, int level)
    {
        var (r, g, b) = path.FillColor!.ToRGBValues();
        return new[] { r, g, b }.All(c => Math.Abs(c - (level / 255.0)) < 0.003);
    }

    private static PdfRectangle Box(PdfPath path) => path.GetBoundingRectangle()!.Value;
}
