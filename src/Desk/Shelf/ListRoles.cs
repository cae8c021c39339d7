using System.Collections.Immutable;
using Coldpeel.Workshop.Sheets;
using Coldpeel.Workshop.Shelf;

namespace Coldpeel.Desk.Shelf;

/// <summary>What of a workshop an order's steps can take from its shelf.</summary>
public sealed class ListRoles(OpenedWorkshop workshop)
{
    /// <summary>By what the steps know it: films and adhesive sheets of its sizes, toner, its blanks.</summary>
    public ImmutableArray<string> Run()
    {
        var book = new ReadBook(workshop).Run();
        var papers = book.Sheets.Select(s => PaperNames.Of(s.Width, s.Height)).Distinct().ToArray();
        return
        [
            .. papers.Select(StockRole.Film),
            // Where films differ, one process may have its own.
            .. book.Processes.Length > 1
                ? papers.SelectMany(p => book.Processes.Select(q => StockRole.Film(p, q.Id)))
                : [],
            .. papers.Select(StockRole.Adhesive),
            StockRole.Toner,
            .. book.Prices.Blanks.Keys.Order(StringComparer.CurrentCultureIgnoreCase).Select(StockRole.Blank),
        ];
    }
}
