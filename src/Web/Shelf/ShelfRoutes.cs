using System.Globalization;
using Coldpeel.Desk;
using Coldpeel.Desk.Rooms;
using Coldpeel.Desk.Shelf;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Shelf.Book;
using Coldpeel.Web.Words;
using Coldpeel.Workshop.Press;
using Coldpeel.Workshop.Shelf;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;

namespace Coldpeel.Web.Shelf;

/// <summary>The shelf and the pages of the workshop file.</summary>
internal static class ShelfRoutes
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/shelf", (HttpContext c, IAntiforgery f, OpenedWorkshop w) => Show(c, f, w, null));
        app.MapPost("/shelf", Put);
        app.MapPost("/shelf/{id:int}", Move);
        app.MapPost("/shelf/{id:int}/place", Lies);
        app.MapPost("/shelf/spares", Spares);
        app.MapGet("/recipes", (HttpContext c, OpenedWorkshop w) => Book<RecipesPage>(c, w));
        app.MapGet("/recipes/{material}", Recipe);
        app.MapGet("/prices", (HttpContext c, OpenedWorkshop w) => Book<PricesPage>(c, w));
        app.MapGet("/placements", (HttpContext c, OpenedWorkshop w) => Book<PlacementsPage>(c, w));
        app.MapGet("/care", (HttpContext c, OpenedWorkshop w) => Book<CarePage>(c, w));
        app.MapGet("/machines", (HttpContext c, OpenedWorkshop w) => Book<MachinesPage>(c, w));
    }

    private static RazorComponentResult Book<TPage>(HttpContext context, OpenedWorkshop workshop)
        where TPage : Microsoft.AspNetCore.Components.IComponent
    {
        var read = new ReadBook(workshop);
        return Pages.Of<TPage>(
            new
            {
                Book = read.Run(),
                read.IsOwn,
                IsOwner = Visitor.Of(context).Role == Role.Owner,
            }
        );
    }

    private static RazorComponentResult Recipe(string material, HttpContext context, OpenedWorkshop workshop) =>
        new LookAtRecipe(workshop).Run(material) is { } recipe
            ? Pages.Of<RecipePage>(
                new
                {
                    Recipe = recipe,
                    IsOwner = Visitor.Of(context).Role == Role.Owner,
                    Kept = context.Request.Query["kept"] == "yes",
                }
            )
            : Pages.Missing(LayoutWords.NoPage);

    private static RazorComponentResult Show(
        HttpContext context,
        IAntiforgery forms,
        OpenedWorkshop workshop,
        string? fault,
        bool putting = false
    )
    {
        var tokens = forms.GetAndStoreTokens(context);
        var words = Pages.Words(context);
        _ = int.TryParse(context.Request.Query["after"], CultureInfo.InvariantCulture, out var after);
        var (lines, next) = new TendShelf(workshop).Page(words, after);
        return Pages.Of<ShelfPage>(
            new
            {
                Lines = (IReadOnlyList<ShelfLine>)lines,
                Next = next,
                Words = words,
                Fault = fault,
                Putting = putting,
                Roles = (IReadOnlyList<string>)new ListRoles(workshop).Run(),
                Processes = (IReadOnlyList<Process>)new ReadBook(workshop).Run().Processes,
                Wish = new KeepSpares(workshop).Now(),
                Records = Records(workshop),
                IsOwner = Visitor.Of(context).Role == Role.Owner,
                Token = tokens.RequestToken ?? "",
                TokenField = tokens.FormFieldName,
            },
            fault is not null
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
            Number(form["count"]) ?? -1,
            form["least"].ToString().Length == 0 ? 0 : Number(form["least"]) ?? -1,
            // The page asks for it of transfers only: a day that stands in a hidden field says nothing.
            kind == StockKind.Transfer
                ? Day(form["bonded"])
                : null
        )
        {
            Role = new ListRoles(workshop).Run().Contains(form["role"].ToString()) ? form["role"].ToString() : "",
            KeepsRole = form["role"].ToString().Length == 0,
            KeepsLeast = form["least"].ToString().Length == 0,
        };
        return new TendShelf(workshop).Put(thing, form["key"].ToString(), Visitor.Of(context).Name) is { } fault
            ? Show(context, forms, workshop, Say.Fault(fault), putting: true)
            : Results.Redirect("/shelf");
    }

    private static async Task<IResult> Move(int id, HttpContext context, IAntiforgery forms, OpenedWorkshop workshop)
    {
        if (await Forms.Read(context, forms) is not { } form)
        {
            return Show(context, forms, workshop, Forms.Stale);
        }

        if (form["way"] == "count")
        {
            return
                new TendShelf(workshop).Count(
                    id,
                    form["key"].ToString(),
                    Number(form["counted"]) ?? -1,
                    Visitor.Of(context).Name
                )
                    is { } wrong
                ? Show(context, forms, workshop, Say.Fault(wrong))
                : Results.Redirect("/shelf");
        }

        // The button says the way: a sign of one's own would turn it round.
        var by = Number(form["by"]) is > 0 and { } number ? number * (form["way"] == "out" ? -1 : 1) : 0;
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

    private static async Task<IResult> Lies(int id, HttpContext context, IAntiforgery forms, OpenedWorkshop workshop) =>
        await Forms.Read(context, forms) is not { } form ? Show(context, forms, workshop, Forms.Stale)
        : new TendShelf(workshop).Lies(id, form["place"].ToString(), Day(form["bonded"]), Visitor.Of(context).Name)
            is { } fault
            ? Show(context, forms, workshop, Say.Fault(fault))
        : Results.Redirect("/shelf");

    private static async Task<IResult> Spares(HttpContext context, IAntiforgery forms, OpenedWorkshop workshop)
    {
        if (await Forms.Read(context, forms) is not { } form)
        {
            return Show(context, forms, workshop, Forms.Stale);
        }

        var percent = double.TryParse(form["percent"], CultureInfo.InvariantCulture, out var wished) ? wished : -1;
        return
            new KeepSpares(workshop).Run(new(percent, form["always"] == "yes"), Visitor.Of(context).Name) is { } fault
            ? Show(context, forms, workshop, Say.Fault(fault))
            : Results.Redirect("/shelf#spares");
    }

    private static RecordLine[] Records(OpenedWorkshop workshop)
    {
        var book = new ReadBook(workshop).Run();
        return
        [
            .. new KeepSpares(workshop)
                .Records()
                .Select(r => new RecordLine(
                    book.Processes.FirstOrDefault(p => p.Id == r.Process) is { } process
                        ? Say.Data(process.Name)
                        : r.Process,
                    book.Materials.FirstOrDefault(m => m.Id == r.Material) is { } material
                        ? Say.Data(material.Name)
                        : r.Material,
                    r.Spoilt,
                    r.Of
                )),
        ];
    }

    private static DateOnly? Day(string? text) => DateOnly.TryParseExact(text, "yyyy-MM-dd", out var day) ? day : null;

    // As a number field of HTML sends it (HTML Living Standard, "valid floating-point number"): no sign between thousands.
    private static decimal? Number(string? text) =>
        decimal.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) ? number : null;
}
