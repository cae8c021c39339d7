using Coldpeel.Craft.Geometry;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Sheets;

namespace Coldpeel.Files.Sheets;

/// <summary>Head and legend of a page of the trim map: in the waste where it fits, else over the top edge.</summary>
internal sealed class TrimMapHead
{
    private const double SmallestMm = 1.6;

    private readonly List<PieceWords.Line> _words = [];
    private PointMm? _dashes;
    private PointMm? _swatch;
    private bool _overPieces;
    private double _width;
    private double _height;
    private BoxMm _box;

    private readonly Wording _wording;

    private TrimMapHead(Wording wording) => _wording = wording;

    private string HowToLie => _wording[$"Lay the film print side down, as it reads here."];

    /// <summary>The fullest head that finds room in the waste.</summary>
    public static TrimMapHead Place(PrintSheet sheet, string jobName, int pages, WasteGrid waste, Wording wording)
    {
        var name = jobName.ReplaceLineEndings(" ").Trim();
        var count = sheet.Pieces.Length;
        var facts = wording[
            count == 1
                ? (Sentence)$"Trim map, page {sheet.Page} of {pages}, 1 piece"
                : $"Trim map, page {sheet.Page} of {pages}, {count} pieces"
        ];
        TrimMapHead[] settings =
        [
            Wide(name, facts, 3.6, wording),
            Wide(name, facts, 2.8, wording),
            Stacked(name, facts, 3.6, wording),
            Stacked(name, facts, 2.8, wording),
            InOneLine(name, facts, 2.4, wording),
            InOneLine(name, facts, SmallestMm, wording),
        ];
        foreach (var head in settings)
        {
            var at = waste.Cheapest(
                head._width,
                head._height,
                waste.Area,
                b => b.Top - waste.Area.Top + (0.1 * (b.Left - waste.Area.Left)),
                step: 3
            );
            if (at is { } box)
            {
                waste.Take(box, 1.5);
                head._box = box;
                return head;
            }
        }

        return OverTheTopEdge(name, facts, waste.Area, wording);
    }

    public void Draw(InkLines lines)
    {
        if (_overPieces)
        {
            lines.Fill(1).Box(_box).FillNonZero();
        }

        var corner = new PointMm(_box.Left, _box.Top);
        if (_dashes is { } dashes)
        {
            var from = dashes + corner;
            lines.Pen(0, 0.25, 1.8, 1.3).Line(from, from + new PointMm(8, 0));
        }

        if (_swatch is { } swatch)
        {
            var at = swatch + corner;
            lines.Fill(TrimMapPdf.TonerGrey).Box(new(at.X, at.Y - SmallestMm, at.X + 5, at.Y)).FillNonZero();
        }

        foreach (var line in _words)
        {
            TrimMapPdf.Write(lines, line.Words, line.CapMm, line.Baseline + corner, line.Light);
        }
    }

    // Nowhere free: one line on white over whatever lies at the top edge; the job's name gives way, the page does not.
    private static TrimMapHead OverTheTopEdge(string name, string facts, BoxMm area, Wording wording)
    {
        var longest = area.Width - OutlineText.Width(facts, SmallestMm, true) - (3 * SmallestMm);
        while (name.Length > 2 && OutlineText.Width(name, SmallestMm) > longest)
        {
            name = name[..^2].TrimEnd() + "…";
        }

        var head = InOneLine(name, facts, SmallestMm, wording);
        head._overPieces = true;
        head._box = new(area.Left, area.Top, area.Left + head._width, area.Top + head._height);
        return head;
    }

    private static TrimMapHead Wide(string name, string facts, double cap, Wording wording)
    {
        var (head, small) = (new TrimMapHead(wording), Math.Max(SmallestMm, cap * 0.6));
        var x = head.Say(name, cap, false, 0, cap * 1.05) + (name.Length > 0 ? cap : 0);
        head.Say(facts, small, true, x, cap * 1.05);
        var y = (cap * 1.05) + (small * 2.2);
        head.Explain(head.Say(head.HowToLie, SmallestMm, true, 0, y) + (SmallestMm * 2), y);
        return head;
    }

    private static TrimMapHead Stacked(string name, string facts, double cap, Wording wording)
    {
        var (head, small) = (new TrimMapHead(wording), Math.Max(SmallestMm, cap * 0.6));
        head.Say(name, cap, false, 0, cap * 1.05);
        head.Say(facts, small, true, 0, (cap * 1.05) + (small * 2.1));
        head.Say(head.HowToLie, SmallestMm, true, 0, (cap * 1.05) + (small * 4));
        head.Explain(0, (cap * 1.05) + (small * 5.8));
        return head;
    }

    private static TrimMapHead InOneLine(string name, string facts, double cap, Wording wording)
    {
        var head = new TrimMapHead(wording);
        var x = head.Say(name, cap, false, 0.3, cap * 1.1) + (name.Length > 0 ? cap : 0);
        head.Say(facts, cap, true, x, cap * 1.1);
        return head;
    }

    private double Say(string words, double cap, bool light, double x, double y)
    {
        var end = x;
        if (words.Length > 0)
        {
            _words.Add(new(words, cap, light, new(x, y)));
            end += OutlineText.Width(words, cap, light) + 0.4;
        }

        (_width, _height) = (Math.Max(_width, end), Math.Max(_height, y + (cap * 0.35)));
        return end;
    }

    private void Explain(double x, double y)
    {
        _dashes = new PointMm(x, y - (SmallestMm / 2));
        var end = Say(_wording[$"cut here"], SmallestMm, true, x + 9, y) + (SmallestMm * 2);
        _swatch = new PointMm(end, y);
        Say(_wording[$"white toner"], SmallestMm, true, end + 6, y);
    }
}
