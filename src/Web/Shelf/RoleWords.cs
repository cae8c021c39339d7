using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;
using Coldpeel.Workshop.Press;
using Coldpeel.Workshop.Shelf;

namespace Coldpeel.Web.Shelf;

/// <summary>What an order's steps know a thing by, in words.</summary>
internal static class RoleWords
{
    /// <summary>"film A4", "blank: gilet".</summary>
    public static string Of(string role) => Of(role, []);

    /// <summary>The same; what is of one process is told by the name that people know.</summary>
    public static string Of(string role, IReadOnlyList<Process> processes)
    {
        var cut = role.IndexOf(' ', StringComparison.Ordinal);
        var (kind, rest) = cut < 0 ? (role, "") : (role[..cut], role[(cut + 1)..]);
        return kind switch
        {
            "film" => Film(rest.Split(" for ", 2), processes),
            "adhesive" => Say.With(ShelfWords.RoleAdhesive, rest),
            StockRole.Toner => ShelfWords.RoleToner,
            "blank" => Say.With(ShelfWords.RoleBlank, rest),
            "started" => ShelfWords.RoleStarted,
            _ => ShelfWords.KindTransfer,
        };
    }

    // "A4", or "A4" and the process whose own film it is.
    private static string Film(string[] parts, IReadOnlyList<Process> processes) =>
        parts is [var paper, var id]
            ? Say.With(
                ShelfWords.RoleFilmOf,
                paper,
                processes.FirstOrDefault(p => p.Id == id) is { } process ? Say.Data(process.Name) : id
            )
            : Say.With(ShelfWords.RoleFilm, parts[0]);
}
