using System.Text.Json.Nodes;
using Coldpeel.Desk.Shelf;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Http;

namespace Coldpeel.Web.Shelf.Book;

/// <summary>What the forms of the workshop file have in common.</summary>
internal static class BookPosts
{
    /// <summary>Whether the cautions were seen, of just this.</summary>
    public static bool IsSure(IFormCollection form, JsonObject wished) =>
        form["sure"] == "yes" && form["seen"] == EditBook.Seen(wished);

    /// <summary>The form as its page shows it.</summary>
    public static BookView View(
        HttpContext context,
        IAntiforgery forms,
        BookFields fields,
        string stand,
        BookEdit? edit,
        JsonObject? wished
    )
    {
        var tokens = forms.GetAndStoreTokens(context);
        return new()
        {
            Fields = fields,
            Stand = stand,
            Moved = edit?.Moved,
            HasFaults = edit is { Faults.IsEmpty: false },
            Cautions = edit is null ? [] : edit.Cautions,
            Seen = wished is null ? "" : EditBook.Seen(wished),
            Token = tokens.RequestToken ?? "",
            TokenField = tokens.FormFieldName,
        };
    }
}
