using System.Globalization;
using System.Text;
using Coldpeel.Files.Paper;
using Coldpeel.Workshop.Findings;
using SkiaSharp;

namespace Coldpeel.Files.Press;

/// <summary>The patterns and letters of the timeline, and the key that explains them.</summary>
internal static class DayKey
{
    private static readonly TextStyle Tag = TextStyle.Strong.At(7);
    private static readonly SKColor Dark = new(0x4a, 0x4a, 0x4a);

    private static readonly (string Op, string Letter)[] Letters =
    [
        ("bond.load", "B"),
        ("bond.peel", "H"),
        ("trim", "T"),
        ("load", "L"),
        ("lift", "U"),
        ("peel", "C"),
        ("finish.load", "F"),
        ("unload", "O"),
        ("inspect", "I"),
    ];

    /// <summary>The letter of a hand's work on the timeline.</summary>
    public static string Letter(string op) => Letters.FirstOrDefault(l => l.Op == op).Letter ?? "?";

    /// <summary>What the letters stand for.</summary>
    public static Part InWords =>
        new Part.Row([.. Letters.Select(l => (Sentence)$"{l.Letter} {DayWords.Verb(l.Op)}")], " · ");

    public static void Draw(Flow flow)
    {
        var (page, y) = (flow.Page, flow.Y);
        flow.Keep(22);
        (page, y) = (flow.Page, flow.Y);
        var x = flow.Left;
        foreach (
            var (op, sentence) in new (string, Sentence)[]
            {
                ("bond.press", $"bond"),
                ("press", $"press closed"),
                ("finish.press", $"finish press"),
                ("load", $"hands at the press"),
            }
        )
        {
            var say = flow.Words[sentence];
            Block(page, op, x, y, 10, 5);
            page.Text(x + 11.5, y + 3.6, say, TextStyle.Body.At(8.5));
            x += 13 + TextLines.WidthMm(say, TextStyle.Body.At(8.5)) + 5;
        }

        Waves(page, x, y, 10, 5);
        page.Text(x + 11.5, y + 3.6, flow.Words[$"set-point changes"], TextStyle.Body.At(8.5));
        flow.Gap(6.5);
        flow.Text(
            flow.Words[$"Hands: {InWords}. S1, S2 … are sheets, 1, 2 … pieces: the lists name them."],
            TextStyle.Body.At(8.5)
        );
        flow.Gap(2.5);
    }

    /// <summary>A step on a press.</summary>
    public static void Block(Page page, string op, double x, double y, double w, double h)
    {
        switch (op)
        {
            case "press":
                page.Fill(x, y, w, h, Dark);
                break;
            case "bond.press":
                page.Shape(Diagonals(w, h, 1.3), x, y, 1, null, Inks.Black, 0.22);
                break;
            case "finish.press":
                page.Shape(Levels(w, h, 1.1), x, y, 1, null, Inks.Black, 0.22);
                break;
            default:
                page.Box(x, y, w, h, 0.15, Inks.Grey);
                return;
        }

        page.Box(x, y, w, h, 0.3, Inks.Black);
    }

    /// <summary>A word in the middle of a pattern, on white so that it can be read; none where it finds no room.</summary>
    public static void Centred(Page page, string say, double x, double y, double w, double h)
    {
        if (Fit(say, w - 1) is not { } style)
        {
            return;
        }

        var width = TextLines.WidthMm(say, style);
        page.Fill(x + (w / 2) - (width / 2) - 0.5, y + (h / 2) - 1.7, width + 1, 3.4, Inks.White);
        page.Text(x + (w / 2), y + (h / 2) + 0.9, say, style, Align.Centre);
    }

    /// <summary>The largest of our two sizes in which a word fits a block; null for none.</summary>
    public static TextStyle? Fit(string say, double widthMm) =>
        new[] { Tag, Tag.At(5.8) }.FirstOrDefault(s => TextLines.WidthMm(say, s) <= widthMm);

    /// <summary>A press on its way to another set-point: a dashed frame with a zigzag.</summary>
    public static void Waves(Page page, double x, double y, double w, double h)
    {
        var data = new StringBuilder();
        data.Append(CultureInfo.InvariantCulture, $"M0 {h * 0.7:0.###}");
        for (double at = 1, i = 0; at <= w; at++, i++)
        {
            data.Append(CultureInfo.InvariantCulture, $"L{at:0.###} {h * (i % 2 == 0 ? 0.3 : 0.7):0.###}");
        }

        page.Shape(data.ToString(), x, y, 1, null, Inks.Grey, 0.25);
        foreach (var at in new[] { y, y + h })
        {
            page.Rule(x, at, x + w, at, 0.2, Inks.Grey, 0.8);
        }
    }

    private static string Levels(double w, double h, double step)
    {
        var data = new StringBuilder();
        for (var at = step; at < h; at += step)
        {
            data.Append(CultureInfo.InvariantCulture, $"M0 {at:0.###}H{w:0.###}");
        }

        return data.ToString();
    }

    /// <summary>Slanted lines, cut at the edges of the block.</summary>
    private static string Diagonals(double w, double h, double step)
    {
        var data = new StringBuilder();
        for (var c = step; c < w + h; c += step)
        {
            var (x1, x2) = (Math.Max(0, c - h), Math.Min(w, c));
            data.Append(CultureInfo.InvariantCulture, $"M{x1:0.###} {c - x1:0.###}L{x2:0.###} {c - x2:0.###}");
        }

        return data.ToString();
    }
}
