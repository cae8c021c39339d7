using Coldpeel.Desk;
using Coldpeel.Desk.Artwork;
using Coldpeel.Desk.Orders;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Orders;
using Coldpeel.Web.Words;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;

namespace Coldpeel.Web.Artwork;

/// <summary>The designs of an order and their mends: shown, taken, taken back.</summary>
internal static class ArtworkRoutes
{
    // More words than there are mends are no question of ours.
    private const int MostMends = 12;

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet(
            "/orders/{name}/artwork",
            (string name, OpenedWorkshop workshop, HttpContext context, IAntiforgery forms) =>
                Artwork(Pages.Name(name), workshop, context, forms, null)
        );
        app.MapGet("/orders/{name}/artwork/{design}", Mends);
        app.MapGet("/orders/{name}/artwork/{design}/preview.png", Preview);
        app.MapPost("/orders/{name}/artwork/{design}", Take);
        app.MapPost("/orders/{name}/artwork/{design}/back", TakeBack);
    }

    private static RazorComponentResult Artwork(
        string name,
        OpenedWorkshop workshop,
        HttpContext context,
        IAntiforgery forms,
        string? fault
    )
    {
        var tokens = forms.GetAndStoreTokens(context);
        return new OpenArtwork(workshop).Run(name) is { } artwork
            ? Pages.Of<ArtworkPage>(
                new
                {
                    Artwork = artwork,
                    Fault = fault,
                    Token = tokens.RequestToken ?? "",
                    TokenField = tokens.FormFieldName,
                },
                fault is not null
            )
            : Pages.Missing(Say.With(OrderWords.NoSuchOrder, name));
    }

    private static async Task<IResult> Mends(
        string name,
        string design,
        OpenedWorkshop workshop,
        HttpContext context,
        IAntiforgery forms
    )
    {
        var (order, asked) = (Pages.Name(name), Asked(context.Request.Query["mend"]));
        var stop = context.RequestAborted;
        var shown = await Task.Run(() => new OfferMends(workshop).Run(order, Pages.Name(design), asked, stop), stop);
        var tokens = forms.GetAndStoreTokens(context);
        return shown.Ok
            ? Pages.Of<MendsPage>(
                new
                {
                    Shown = shown.Value,
                    Token = tokens.RequestToken ?? "",
                    TokenField = tokens.FormFieldName,
                }
            )
            : Artwork(order, workshop, context, forms, Say.Fault(shown.Fault));
    }

    private static async Task<IResult> Preview(string name, string design, OpenedWorkshop workshop, HttpContext context)
    {
        var asked = Asked(context.Request.Query["mend"]);
        var stop = context.RequestAborted;
        var picture = await Task.Run(
            () => new OfferMends(workshop).Picture(Pages.Name(name), Pages.Name(design), asked, stop),
            stop
        );
        context.Response.Headers.CacheControl = "no-cache";
        return picture is null ? Results.NotFound() : Results.Bytes(picture, "image/png");
    }

    private static Task<IResult> Take(
        string name,
        string design,
        OpenedWorkshop workshop,
        HttpContext context,
        IAntiforgery forms
    ) =>
        Frame(Pages.Name(name), workshop, context, forms)
            .Answer(
                (form, who) =>
                    new TakeMends(workshop).Run(
                        Pages.Name(name),
                        Pages.Name(design),
                        Asked(form["mend"]),
                        form["version"].ToString(),
                        who,
                        MakeFromFolder.PatientSeconds,
                        context.RequestAborted
                    )
            );

    private static Task<IResult> TakeBack(
        string name,
        string design,
        OpenedWorkshop workshop,
        HttpContext context,
        IAntiforgery forms
    ) =>
        Frame(Pages.Name(name), workshop, context, forms)
            .Answer(
                (_, who) =>
                    new TakeMends(workshop).TakeBack(
                        Pages.Name(name),
                        Pages.Name(design),
                        who,
                        MakeFromFolder.PatientSeconds,
                        context.RequestAborted
                    )
            );

    private static MakingForm Frame(string name, OpenedWorkshop workshop, HttpContext context, IAntiforgery forms) =>
        new(
            context,
            forms,
            fault => Artwork(name, workshop, context, forms, fault),
            _ => $"/orders/{Say.Step(name)}/artwork"
        );

    private static string[] Asked(IEnumerable<string?> mends) =>
        [.. mends.OfType<string>().Where(m => m.Length > 0).Take(MostMends)];
}
