using System.Globalization;
using Coldpeel.Desk;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Shelf;
using Coldpeel.Web.Layout;
using Coldpeel.Workshop.Shelf;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;

namespace Coldpeel.Web.Shelf;

/// <summary>The shelf, the pages of the workshop file, and the search over all of them.</summary>
internal static class ShelfRoutes
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/shelf", (HttpContext c, IAntiforgery f, OpenedWorkshop w) => Show(c, f, w, null));
        app.MapPost("/shelf", Put);
        app.MapPost("/shelf/{id:int}", Move);
        app.MapGet("/recipes", (OpenedWorkshop w) => Pages.Of<RecipesPage>(new { Book = new ReadBook(w).Run() }));
        app.MapGet("/prices", (OpenedWorkshop w) => Pages.Of<PricesPage>(new { Book = new ReadBook(w).Run() }));
        app.MapGet("/machines", (OpenedWorkshop w) => Pages.Of<MachinesPage>(new { Book = new ReadBook(w).Run() }));
        app.MapGet("/search", Search);
    }

    private static RazorComponentResult Show(
        HttpContext context,
        IAntiforgery forms,
        OpenedWorkshop workshop,
        string? fault
    )
    {
        var tokens = forms.GetAndStoreTokens(context);
        var words = Words(context);
        _ = int.TryParse(context.Request.Query["after"], CultureInfo.InvariantCulture, out var after);
        var (lines, next) = new TendShelf(workshop).Page(words, after);
        return Pages.Of<ShelfPage>(
            new
            {
                Lines = (IReadOnlyList<ShelfLine>)lines,
                Next = next,
                Words = words,
                Fault = fault,
                Token = tokens.RequestToken ?? "",
                TokenField = tokens.FormFieldName,
            },
            fault is null ? StatusCodes.Status200OK : StatusCodes.Status400BadRequest
        );
    }

    private static async Task<IResult> Put(HttpContext context, IAntiforgery forms, OpenedWorkshop workshop)
    {
        if (await Forms.Read(context, forms) is not { } form)
        {
            return Show(context, forms, workshop, Forms.Stale);
        }

        var thing = new StockThing(
            Enum.TryParse<StockKind>(form["kind"], out var kind) && Enum.IsDefined(kind) ? kind : StockKind.Other,
            form["name"].ToString(),
            form["place"].ToString(),
            form["unit"].ToString(),
            Number(form["count"]),
            Number(form["least"]),
            DateOnly.TryParseExact(form["bonded"], "yyyy-MM-dd", out var day) ? day : null
        );
        return new TendShelf(workshop).Put(thing, form["key"].ToString(), Visitor.Of(context).Name) is { } fault
            ? Show(context, forms, workshop, Say.Fault(fault))
            : Results.Redirect("/shelf");
    }

    private static async Task<IResult> Move(int id, HttpContext context, IAntiforgery forms, OpenedWorkshop workshop)
    {
        if (await Forms.Read(context, forms) is not { } form)
        {
            return Show(context, forms, workshop, Forms.Stale);
        }

        var by = Number(form["by"]) * (form["way"] == "out" ? -1 : 1);
        return
            new TendShelf(workshop).Move(
                id,
                form["key"].ToString(),
                by,
                form["why"].ToString(),
                Visitor.Of(context).Name
            )
                is { } fault
            ? Show(context, forms, workshop, Say.Fault(fault))
            : Results.Redirect("/shelf");
    }

    private static RazorComponentResult Search(HttpContext context, OpenedWorkshop workshop)
    {
        var words = Words(context);
        return Pages.Of<SearchPage>(
            new
            {
                Words = words,
                Orders = (IReadOnlyList<KeptLine>)new ListJobs(workshop).Page(words, true, null).Lines,
                Things = (IReadOnlyList<ShelfLine>)new TendShelf(workshop).Page(words, 0).Lines,
                Book = new ReadBook(workshop).Run(),
            }
        );
    }

    private static string Words(HttpContext context)
    {
        var words = context.Request.Query["q"].ToString().Trim();
        return words.Length > 100 ? words[..100] : words;
    }

    private static decimal Number(string? text) =>
        decimal.TryParse(text, NumberStyles.Number, CultureInfo.InvariantCulture, out var number) ? number : -1;
}
