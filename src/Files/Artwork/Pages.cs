using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Artwork;

/// <summary>Which page of a file is meant.</summary>
internal static class Pages
{
    /// <summary>Why the asked page cannot be given; null when it can.</summary>
    public static Fault? Fault(string shownName, int? page, int count) =>
        page is null || (page >= 1 && page <= count) ? null
        : count == 1 ? new Fault(shownName, $"has one page, and page {page} is asked for.", "Leave the page out.")
        : new Fault(
            shownName,
            $"has {count} pages, and page {page} is asked for.",
            $"Ask for a page from 1 to {count}."
        );

    /// <summary>What to say when nobody said which of several pages is meant.</summary>
    public static Sentence? Note(int? page, int count) =>
        page is null && count > 1
            ? (Sentence)$"The file has {count} pages; the first is taken: give a page for another."
            : null;
}
