using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Paper;

/// <summary>A cursor that runs down the pages of a section and starts a new one when the room ends.</summary>
internal sealed class Flow
{
    private readonly Book _book;
    private readonly int _section;
    private readonly string _foot;
    private readonly Action<Flow>? _continued;

    /// <summary>Starts on a new page.</summary>
    /// <param name="book">The paper.</param>
    /// <param name="section">Its pages count together.</param>
    /// <param name="foot">Stands at the foot of every page.</param>
    /// <param name="continued">Draws the head of every page after the first.</param>
    public Flow(Book book, int section, string foot, Action<Flow>? continued = null)
    {
        (_book, _section, _foot, _continued) = (book, section, foot, continued);
        Page = book.Add(section, foot);
        Y = Book.MarginMm;
    }

    /// <summary>How the paper is worded.</summary>
    public Wording Words => _book.Words;

    public Page Page { get; private set; }

    /// <summary>Where the next thing begins, in mm from the top.</summary>
    public double Y { get; set; }

    public double Left { get; } = Book.MarginMm;

    public double Width => Page.WidthMm - (2 * Book.MarginMm);

    /// <summary>The last place for content: above the foot.</summary>
    public double Bottom => Page.HeightMm - Book.MarginMm - 6.5;

    public double Room => Bottom - Y;

    public void NewPage()
    {
        Page = _book.Add(_section, _foot);
        Y = Book.MarginMm;
        _continued?.Invoke(this);
    }

    /// <summary>Keeps the next <paramref name="heightMm"/> together.</summary>
    public void Keep(double heightMm)
    {
        if (Room < heightMm)
        {
            NewPage();
        }
    }

    public void Gap(double mm) => Y += mm;

    /// <summary>Wrapped text over the whole width, line by line over page ends.</summary>
    public void Text(string text, TextStyle style, double indentMm = 0)
    {
        foreach (var line in TextLines.Wrap(text, style, Width - indentMm))
        {
            Keep(style.LineMm);
            Page.Text(Left + indentMm, Y + style.BaselineMm, line, style);
            Y += style.LineMm;
        }
    }

    /// <summary>A heading that stays with at least <paramref name="withMm"/> of what follows.</summary>
    public void Heading(string text, double withMm = 20)
    {
        var style = TextStyle.Strong.At(12);
        Keep(style.LineMm + 3 + withMm);
        Gap(2);
        Text(text, style);
        Gap(1);
    }
}
