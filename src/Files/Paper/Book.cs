using Coldpeel.Workshop.Findings;
using SkiaSharp;

namespace Coldpeel.Files.Paper;

/// <summary>A paper of several pages; written at the end, because "page 1 of 3" is known only then.</summary>
/// <param name="title">For the reader's window.</param>
/// <param name="widthMm">Page across; A4 unless told.</param>
/// <param name="heightMm">Page down.</param>
internal sealed class Book(string title, double widthMm = 210, double heightMm = 297, Wording? words = null)
{
    /// <summary>Nothing but cut lines stands nearer to an edge: what every office printer reaches.</summary>
    public const double MarginMm = 15;

    private readonly List<Page> _pages = [];

    /// <summary>How the paper is worded.</summary>
    public Wording Words { get; } = words ?? Wording.English;

    public Page Add(int section = 0, string foot = "")
    {
        var page = new Page(widthMm, heightMm)
        {
            Section = section,
            Foot = foot,
            Words = Words,
        };
        _pages.Add(page);
        return page;
    }

    /// <summary>The PDF. It carries no date and no chance: the same pages give the same bytes.</summary>
    public byte[] Write()
    {
        using var memory = new MemoryStream();
        var about = new SKDocumentPdfMetadata(300) { Title = TextRuns.Clean(title), Creator = "Coldpeel" };
        _pages.ForEach(DrawFoot);
        using var faces = new SlimFaces(_pages.SelectMany(p => p.Texts));
        using (var document = SKDocument.CreatePdf(memory, about))
        {
            foreach (var page in _pages)
            {
                page.Play(document.BeginPage(Units.Pt(page.WidthMm), Units.Pt(page.HeightMm)), faces);
                document.EndPage();
            }

            document.Close();
        }

        return memory.ToArray();
    }

    private void DrawFoot(Page page)
    {
        if (page.Foot.Length == 0)
        {
            return;
        }

        var section = _pages.Where(p => p.Section == page.Section).ToList();
        var number = Words[$"page {section.IndexOf(page) + 1} of {section.Count}"];
        var y = page.HeightMm - MarginMm;
        var room = page.WidthMm - (2 * MarginMm) - 30;
        page.Rule(MarginMm, y - 4.6, page.WidthMm - MarginMm, y - 4.6, 0.2, Inks.Line);
        page.Text(MarginMm, y - 1, page.Foot, TextStyle.Small.FitTo(page.Foot, room));
        page.Text(page.WidthMm - MarginMm, y - 1, number, TextStyle.Small, Align.Right);
    }
}
