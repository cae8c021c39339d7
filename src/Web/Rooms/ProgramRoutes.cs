using System.Globalization;
using Coldpeel.Desk;
using Coldpeel.Desk.Rooms;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;

namespace Coldpeel.Web.Rooms;

/// <summary>What the owner is told once: a key, or what an address's messages are signed with.</summary>
/// <param name="Title">What it is.</param>
/// <param name="Secret">The secret.</param>
/// <param name="KeyId">Its name in signatures; null for a key.</param>
public sealed record ToldSecret(string Title, string Secret, string? KeyId);

/// <summary>Other programs: their keys, and the addresses that are told what happens; and what was changed by anybody.</summary>
internal static class ProgramRoutes
{
    private const string Here = "/workshop/programs";

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet(Here, (HttpContext c, IAntiforgery f, OpenedWorkshop w) => Show(c, f, w, null, null));
        app.MapGet("/workshop/history", History);
        app.MapPost(Here + "/keys", Key);
        app.MapPost(Here + "/out", Out);
        app.MapPost(Here + "/hooks", Hook);
        app.MapPost(Here + "/end", End);
    }

    private static RazorComponentResult History(HttpContext context, OpenedWorkshop workshop)
    {
        var of = context.Request.Query["of"].ToString() is { Length: > 0 and <= 20 } kind ? kind : null;
        var (changes, next) = new LookBack(workshop).Page(of, null, context.Request.Query["before"]);
        return Pages.Of<HistoryPage>(
            new
            {
                Changes = (IReadOnlyList<PastChange>)changes,
                Next = next,
                Of = of,
            }
        );
    }

    private static RazorComponentResult Show(
        HttpContext context,
        IAntiforgery forms,
        OpenedWorkshop workshop,
        string? fault,
        ToldSecret? told
    )
    {
        var tokens = forms.GetAndStoreTokens(context);
        context.Response.Headers.CacheControl = "no-store";
        return Pages.Of<ProgramsPage>(
            new
            {
                Programs = (IReadOnlyList<Device>)[.. new Devices(workshop).All().Where(d => d.Role == Role.Program)],
                Hooks = (IReadOnlyList<WebHook>)new WebHooks(workshop).All(),
                Told = told,
                Fault = fault,
                Token = tokens.RequestToken ?? "",
                TokenField = tokens.FormFieldName,
            },
            fault is not null
        );
    }

    private static async Task<IResult> Key(HttpContext context, IAntiforgery forms, OpenedWorkshop workshop)
    {
        if (await Forms.Read(context, forms) is not { } form)
        {
            return Show(context, forms, workshop, Forms.Stale, null);
        }

        var name = form["name"].ToString();
        var key = new Devices(workshop).AddProgram(name, Visitor.Of(context).Name);
        return Show(context, forms, workshop, null, new(Say.With(ProgramWords.KeyOf, name), key, null));
    }

    private static async Task<IResult> Out(HttpContext context, IAntiforgery forms, OpenedWorkshop workshop)
    {
        if (await Number(context, forms, "device") is not { } device)
        {
            return Show(context, forms, workshop, Forms.Stale, null);
        }

        new Devices(workshop).ThrowOut(device, Visitor.Of(context).Name);
        return Results.Redirect(Here);
    }

    private static async Task<IResult> Hook(HttpContext context, IAntiforgery forms, OpenedWorkshop workshop)
    {
        if (await Forms.Read(context, forms) is not { } form)
        {
            return Show(context, forms, workshop, Forms.Stale, null);
        }

        var added = new WebHooks(workshop).Add(form["address"].ToString(), Visitor.Of(context).Name);
        return added.Ok
            ? Show(
                context,
                forms,
                workshop,
                null,
                new(
                    Say.With(ProgramWords.SignedWith, form["address"].ToString()),
                    added.Value.Secret,
                    added.Value.KeyId
                )
            )
            : Show(context, forms, workshop, Say.Fault(added.Fault), null);
    }

    private static async Task<IResult> End(HttpContext context, IAntiforgery forms, OpenedWorkshop workshop)
    {
        if (await Number(context, forms, "hook") is not { } hook)
        {
            return Show(context, forms, workshop, Forms.Stale, null);
        }

        new WebHooks(workshop).End(hook, Visitor.Of(context).Name);
        return Results.Redirect(Here);
    }

    private static async Task<int?> Number(HttpContext context, IAntiforgery forms, string field) =>
        await Forms.Read(context, forms) is { } form
        && int.TryParse(form[field], CultureInfo.InvariantCulture, out var number)
            ? number
            : null;
}
