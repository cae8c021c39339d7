using System.Globalization;
using System.Text.Json.Nodes;
using Coldpeel.Desk;
using Coldpeel.Desk.Shelf;
using Coldpeel.Desk.Shelf.Book;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;

namespace Coldpeel.Web.Shelf.Book;

/// <summary>A form of the workshop file: what it changes, and how its page looks.</summary>
internal sealed record FormOf
{
    /// <summary>The part that it changes.</summary>
    public required BookSection Section { get; init; }

    /// <summary>What stands in a field.</summary>
    public required Func<string, JsonNode?> Stands { get; init; }

    /// <summary>The file with what was filled in.</summary>
    public required Func<IReadOnlyDictionary<string, JsonNode?>, IFormCollection, BookForm> Fill { get; init; }

    /// <summary>Whether what was sent is of something else than what stands at the address now; null where an address is always of the same.</summary>
    public Func<IFormCollection, bool>? IsOther { get; init; }

    /// <summary>The page, with what was sent and not kept.</summary>
    public required Func<BookView, IFormCollection?, RazorComponentResult> Page { get; init; }

    /// <summary>The page's heading.</summary>
    public required string Title { get; init; }

    /// <summary>What the form is for.</summary>
    public required string Lead { get; init; }

    /// <summary>The place of the app that it belongs to.</summary>
    public required string Place { get; init; }

    /// <summary>Where it is sent.</summary>
    public required string Action { get; init; }

    /// <summary>Where it leads back to.</summary>
    public required string Back { get; init; }

    /// <summary>What is there.</summary>
    public required string BackWords { get; init; }

    /// <summary>Where it leads when it was kept; null for where it leads back to.</summary>
    public string? Done { get; init; }

    /// <summary>What the button says; null for the usual words.</summary>
    public string? KeepWords { get; init; }

    /// <summary>A form of a part, among the recipes unless it says otherwise; what it fills in and how its page looks is still to be said.</summary>
    public static FormOf Begun(BookSection section, string title, string action) =>
        new()
        {
            Section = section,
            Stands = _ => null,
            Fill = (_, _) => throw new InvalidOperationException($"{action} fills nothing in."),
            Page = (_, _) => throw new InvalidOperationException($"{action} has no page."),
            Title = title,
            Lead = ShelfWords.RecipesLead,
            Place = "recipes",
            Action = action,
            Back = "/recipes",
            BackWords = LayoutWords.Recipes,
        };
}

/// <summary>Who asks for a form, for what, and what stands while the answer is made.</summary>
internal sealed record Asked(HttpContext Context, IAntiforgery Forms, OpenedWorkshop Workshop)
{
    private WorkshopBook? _book;

    /// <summary>The workshop file as it stands.</summary>
    public JsonObject Whole { get; } = new EditBook(Workshop).Whole();

    /// <summary>The same, read.</summary>
    public WorkshopBook Book => _book ??= new ReadBook(Workshop).Run();

    /// <summary>The name in the address.</summary>
    public string Name => Pages.Name((string?)Context.Request.RouteValues["name"] ?? "");
}

/// <summary>Shows a form, takes what was sent, and keeps it or shows it again with what is wrong: the same for all forms of the workshop file.</summary>
internal static class FormFrame
{
    // Rows beyond these are not of our forms.
    private const int MostRows = 500;

    /// <summary>Lays a form under an address.</summary>
    /// <param name="app">The app.</param>
    /// <param name="way">The address, with <c>{name}</c> where it is of one of several.</param>
    /// <param name="of">The form; null where there is no such thing.</param>
    public static void Map(IEndpointRouteBuilder app, string way, Func<Asked, FormOf?> of)
    {
        app.MapGet(way, (HttpContext c, IAntiforgery f, OpenedWorkshop w) => Show(new(c, f, w), of));
        app.MapPost(way, (HttpContext c, IAntiforgery f, OpenedWorkshop w) => Take(new(c, f, w), of));
    }

    /// <summary>Rows that a list of a form has: those that are there and some for new ones, or as many as were sent.</summary>
    public static int Rows(int there, int more, IFormCollection? sent, string prefix) =>
        Math.Max(
            there + more,
            sent?.Keys.Where(k => k.StartsWith(prefix, StringComparison.Ordinal))
                .Select(k => k[prefix.Length..].Split('/')[0])
                .Select(k =>
                    int.TryParse(k, NumberStyles.None, CultureInfo.InvariantCulture, out var row) ? row + 1 : 0
                )
                .Where(r => r <= MostRows)
                .DefaultIfEmpty()
                .Max()
                ?? 0
        );

    private static RazorComponentResult Show(Asked asked, Func<Asked, FormOf?> of) =>
        of(asked) is { } form
            ? form.Page(View(asked, form, new BookFields(form.Stands), null, null, null), null)
            : Pages.Missing(LayoutWords.NoPage);

    private static async Task<IResult> Take(Asked asked, Func<Asked, FormOf?> of)
    {
        if (of(asked) is not { } form)
        {
            return Pages.Missing(LayoutWords.NoPage);
        }

        if (await Forms.Read(asked.Context, asked.Forms) is not { } sent)
        {
            var (empty, stale) = (new BookFields(form.Stands), new Fault(LayoutWords.NotHere, Forms.Stale, ""));
            empty.Tell([stale], _ => "");
            return Again(form, View(asked, form, empty, new([stale], [], null), null, null), null);
        }

        var fields = BookFields.Read(sent, form.Stands);
        if (form.IsOther?.Invoke(sent) == true)
        {
            fields.LeaveAllOut();
            return Again(form, View(asked, form, fields, null, null, null) with { IsOther = true }, null);
        }

        if (sent["look"] == "yes")
        {
            return form.Page(View(asked, form, fields, new([], [], null), null, sent), sent);
        }

        var filled = form.Fill(fields.Values(), sent);
        var (book, stand) = (new EditBook(asked.Workshop), sent["stand"].ToString());
        // A form that is late is told so first: what else is wrong may be of rows that are others by now.
        var edit =
            filled.Wrong is not { } wrong
                ? book.Keep(
                    form.Section,
                    filled.Wished,
                    stand,
                    BookPosts.IsSure(sent, filled.Wished),
                    Visitor.Of(asked.Context).Name
                )
            : book.MovedSince(form.Section, stand) is { } moved ? new BookEdit([], [], moved)
            : new BookEdit([wrong], [], null);
        if (edit.Kept)
        {
            return Results.Redirect(form.Done ?? form.Back);
        }

        fields.Tell(edit.Faults, filled.FieldOf);
        if (edit.Moved is not null)
        {
            fields.HasMoved();
        }

        return Again(form, View(asked, form, fields, edit, filled.Wished, sent), sent);
    }

    private static RazorComponentResult Again(FormOf form, BookView view, IFormCollection? sent)
    {
        var page = form.Page(view, sent);
        page.StatusCode = StatusCodes.Status400BadRequest;
        return page;
    }

    private static BookView View(
        Asked asked,
        FormOf form,
        BookFields fields,
        BookEdit? edit,
        JsonObject? wished,
        IFormCollection? sent
    )
    {
        // Who was late sees what stands now, and keeps on that.
        var stand =
            sent is not null && edit is { Moved: null }
                ? sent["stand"].ToString()
                : new EditBook(asked.Workshop).Stand(form.Section);
        return BookPosts.View(asked.Context, asked.Forms, fields, stand, edit, wished) with
        {
            Title = form.Title,
            Lead = form.Lead,
            Place = form.Place,
            Action = form.Action,
            Back = form.Back,
            BackWords = form.BackWords,
            KeepWords = form.KeepWords,
        };
    }
}
