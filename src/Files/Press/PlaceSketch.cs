using Coldpeel.Craft.Geometry;
using Coldpeel.Files.Paper;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Press;

/// <summary>Where a design goes: a line drawing of the item with the design to scale and dimension lines, and the same in words.</summary>
internal static class PlaceSketch
{
    private const double HeightMm = 70;
    private const double DrawingMm = 98;
    private const double SideMm = 17; // room for the figures left and right of the outline
    private const double EndMm = 7; // and above and below it

    private static readonly TextStyle Figure = TextStyle.Title.At(11);

    /// <summary>From mm on the item to mm on the paper.</summary>
    private readonly record struct Scale(double X, double Y, double PerMm)
    {
        public double Right(double x) => X + (x * PerMm);

        public double Down(double y) => Y + (y * PerMm);
    }

    /// <param name="flow">Where it is drawn.</param>
    /// <param name="place">The design and its place.</param>
    /// <param name="pictures">Pictures of designs.</param>
    /// <param name="small">The small sentence at the end; null for what somebody at the press wants to know.</param>
    public static void Draw(Flow flow, TicketPlace place, DesignPictures pictures, string? small = null)
    {
        var width = flow.Width - DrawingMm - 6;
        var words = Words(place, small, flow.Words)
            .Select(w => (w.Text, Style: w.Style.FitLines(w.Text, width, 4)))
            .ToArray();
        var tall = Math.Max(HeightMm, WordsHeight(words, place, width) + 6);
        flow.Keep(tall + 4);
        var (left, top) = (flow.Left, flow.Y);
        flow.Page.Rule(left, top, left + flow.Width, top, 0.5, Inks.Black);
        Drawing(flow.Page, left, top + 3, place, pictures);
        var y = top + 3;
        var x = left + DrawingMm + 6;
        foreach (var (text, style) in words)
        {
            y += flow.Page.Block(x, y, text, style, width) + 1;
        }

        if (place.Shown is { } shown)
        {
            var (w, h) = Fit(shown.WidthMm, shown.HeightMm, width, 24);
            flow.Page.Picture(pictures.Of(shown), x, y + 1, w, h);
        }

        flow.Y = top + tall + 3;
    }

    private static (string Text, TextStyle Style)[] Words(TicketPlace place, string? small, Wording words) =>
        [
            (words.Data(place.Rule.Name), TextStyle.Title.At(18)),
            (words.Size(Round(place.WidthMm), Round(place.HeightMm)), TextStyle.Title.At(15)),
            (words[$"design {place.Design}"], TextStyle.Body),
            (
                words[
                    $"{new Part.Length(Round(place.Rule.DownMm), null, "0.#")} down from {(Sentence)place.Rule.From}"
                ],
                TextStyle.Strong.At(11)
            ),
            (words.Data(place.Rule.Across), TextStyle.Strong.At(11)),
            (
                small
                    ?? words[
                        $"Needs {new Part.Length(place.Rule.PlateWidthMm, place.Rule.PlateHeightMm, "")} of flat plate. Source of the place: {(Sentence)place.Rule.Source}. The outline shows where; measure by the figures."
                    ],
                TextStyle.Small
            ),
        ];

    private static double WordsHeight((string Text, TextStyle Style)[] words, TicketPlace place, double width) =>
        words.Sum(w => (TextLines.Wrap(w.Text, w.Style, width).Count * w.Style.LineMm) + 1)
        + (place.Shown is { } d ? Fit(d.WidthMm, d.HeightMm, width, 24).H + 2 : 0);

    private static void Drawing(Page page, double left, double top, TicketPlace place, DesignPictures pictures)
    {
        var outline = ItemOutline.Of(place.Rule.Sketch);
        var (design, all) = outline.With(place);
        var (roomW, roomH) = (DrawingMm - (2 * SideMm), HeightMm - 6 - (2 * EndMm));
        var k = Math.Min(roomW / all.Width, roomH / all.Height);
        var s = new Scale(
            left + SideMm + ((roomW - (all.Width * k)) / 2) - (all.Left * k),
            top + EndMm - (all.Top * k),
            k
        );

        page.Shape(outline.Edge, s.X, s.Y, k, Inks.Pale, Inks.Black, 0.5);
        if (outline.Details.Length > 0)
        {
            page.Shape(outline.Details, s.X, s.Y, k, null, Inks.Grey, 0.25);
        }

        page.Rule(s.X, s.Down(all.Top) - 2, s.X, s.Down(all.Bottom) + 2, 0.2, Inks.Grey, 1.6); // centre line
        Design(page, s, design, place, pictures);
        Dimensions(page, s, all, design, place);
    }

    private static void Design(Page page, Scale s, BoxMm design, TicketPlace place, DesignPictures pictures)
    {
        var (x, y) = (s.Right(design.Left), s.Down(design.Top));
        var (w, h) = (design.Width * s.PerMm, design.Height * s.PerMm);
        page.Fill(x, y, w, h, Inks.White);
        if (place.Shown is { } shown)
        {
            var (inW, inH) = Fit(shown.WidthMm, shown.HeightMm, w, h);
            page.Picture(pictures.Of(shown), x + ((w - inW) / 2), y + ((h - inH) / 2), inW, inH);
        }

        page.Box(x, y, w, h, 0.35, Inks.Amber);
        page.Box(x, y, w, h, 0.15, Inks.Black);
    }

    /// <summary>Down on the left, height on the right, width above, across below: each on its own side, so that figures never meet.</summary>
    private static void Dimensions(Page page, Scale s, BoxMm all, BoxMm design, TicketPlace place)
    {
        var (left, right) = (s.Right(all.Left) - 3.5, s.Right(all.Right) + 3.5);
        var (above, below) = (s.Down(all.Top) - 3.5, s.Down(all.Bottom) + 3.5);
        Vertical(page, left, s.Down(0), s.Down(design.Top), s.Right(design.Left), place.Rule.DownMm, Align.Right);
        Vertical(
            page,
            right,
            s.Down(design.Top),
            s.Down(design.Bottom),
            s.Right(design.Right),
            place.HeightMm,
            Align.Left
        );
        Horizontal(page, above, s.Right(design.Left), s.Right(design.Right), s.Down(design.Top), place.WidthMm, true);
        var middle = (design.Left + design.Right) / 2;
        if (Math.Abs(place.Rule.AcrossMm) >= 0.5)
        {
            Horizontal(page, below, s.X, s.Right(middle), s.Down(design.Bottom), Math.Abs(place.Rule.AcrossMm), false);
        }
        else
        {
            page.Text(s.X, below + Figure.BaselineMm, page.Words[$"centred"], Figure.At(9), Align.Centre);
        }
    }

    private static void Vertical(Page page, double x, double from, double to, double edge, double value, Align side)
    {
        var reach = x < edge ? x - 1 : x + 1;
        page.Rule(reach, from, edge, from, 0.15, Inks.Grey);
        page.Rule(reach, to, edge, to, 0.15, Inks.Grey);
        page.Rule(x, from, x, to, 0.4, Inks.Black);
        Tick(page, x, from);
        Tick(page, x, to);
        var text = page.Words.LengthFigure(Round(value));
        var style = Figure.FitTo(text, SideMm - 6);
        var y = ((from + to) / 2) - (style.LineMm / 2) + style.BaselineMm - 0.4;
        page.Text(side == Align.Right ? x - 1.8 : x + 1.8, y, text, style, side);
    }

    private static void Horizontal(Page page, double y, double from, double to, double edge, double value, bool above)
    {
        var reach = y < edge ? y - 1 : y + 1;
        page.Rule(from, reach, from, edge, 0.15, Inks.Grey);
        page.Rule(to, reach, to, edge, 0.15, Inks.Grey);
        page.Rule(from, y, to, y, 0.4, Inks.Black);
        Tick(page, from, y);
        Tick(page, to, y);
        page.Text(
            (from + to) / 2,
            above ? y - 1.2 : y + 0.8 + Figure.BaselineMm,
            page.Words.LengthFigure(Round(value)),
            Figure,
            Align.Centre
        );
    }

    /// <summary>The slanted stroke that ends a dimension line on a workshop drawing.</summary>
    private static void Tick(Page page, double x, double y) =>
        page.Rule(x - 0.9, y + 0.9, x + 0.9, y - 0.9, 0.4, Inks.Black);

    private static (double W, double H) Fit(double w, double h, double roomW, double roomH)
    {
        var k = Math.Min(roomW / Math.Max(w, 0.1), roomH / Math.Max(h, 0.1));
        return (w * k, h * k);
    }

    private static double Round(double mm) => Math.Round(mm, 1);
}
