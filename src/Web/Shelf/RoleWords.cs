using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;
using Coldpeel.Workshop.Shelf;

namespace Coldpeel.Web.Shelf;

/// <summary>What an order's steps know a thing by, in words.</summary>
internal static class RoleWords
{
    /// <summary>"film A4", "blank: gilet".</summary>
    public static string Of(string role)
    {
        var cut = role.IndexOf(' ', StringComparison.Ordinal);
        var (kind, rest) = cut < 0 ? (role, "") : (role[..cut], role[(cut + 1)..]);
        return kind switch
        {
            "film" => Say.With(ShelfWords.RoleFilm, rest.Replace(" for ", ", ", StringComparison.Ordinal)),
            "adhesive" => Say.With(ShelfWords.RoleAdhesive, rest),
            StockRole.Toner => ShelfWords.RoleToner,
            "blank" => Say.With(ShelfWords.RoleBlank, rest),
            "started" => ShelfWords.RoleStarted,
            _ => ShelfWords.KindTransfer,
        };
    }
}
