using Coldpeel.Desk;
using Coldpeel.Desk.Orders;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;

namespace Coldpeel.Web.Orders;

/// <summary>The form in which a kept order is changed.</summary>
internal static class ChangeRoutes
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet(
            "/orders/{name}/change",
            (string name, HttpContext context, IAntiforgery forms, OpenedWorkshop workshop) =>
                Show(Pages.Name(name), context, forms, workshop, [], null)
        );
        app.MapPost("/orders/{name}/change", Change);
    }

    private static RazorComponentResult Show(
        string name,
        HttpContext context,
        IAntiforgery forms,
        OpenedWorkshop workshop,
        IReadOnlyList<string> faults,
        IFormCollection? typed
    )
    {
        var form = new ChangeOrder(workshop).Form(name);
        if (!form.Ok)
        {
            return OrderRoutes.Show(name, workshop, context, Say.Fault(form.Fault));
        }

        var tokens = forms.GetAndStoreTokens(context);
        return Pages.Of<ChangePage>(
            new
            {
                Name = name,
                Form = form.Value,
                Faults = faults,
                Typed = (IReadOnlyDictionary<string, string>)(
                    typed?.ToDictionary(f => f.Key, f => f.Value.ToString()) ?? []
                ),
                Token = tokens.RequestToken ?? "",
                TokenField = tokens.FormFieldName,
            },
            faults.Count == 0 ? StatusCodes.Status200OK : StatusCodes.Status400BadRequest
        );
    }

    private static async Task<IResult> Change(
        string name,
        HttpContext context,
        IAntiforgery forms,
        OpenedWorkshop workshop
    )
    {
        name = Pages.Name(name);
        if (await Forms.Read(context, forms) is not { } form)
        {
            return Show(name, context, forms, workshop, [OrderWords.ChangeStale], await Sent(context.Request));
        }

        var typed = InMillimetres(form, new ChangeOrder(workshop).Form(name).Value);
        var who = Visitor.Of(context).Name;
        var stop = context.RequestAborted;
        var changed = await Task.Run(
            () =>
                new ChangeOrder(workshop).Run(
                    name,
                    form["version"].ToString(),
                    typed,
                    who,
                    MakeFromFolder.PatientSeconds,
                    stop
                ),
            stop
        );
        return changed.Made is not null
            ? Results.Redirect($"/orders/{Say.Step(name)}")
            : Show(name, context, forms, workshop, [.. changed.Faults.Select(Say.Fault)], form);
    }

    private static Dictionary<string, string> InMillimetres(IFormCollection form, OrderForm? stands)
    {
        var typed = form.ToDictionary(f => f.Key, f => f.Value.ToString());
        foreach (var field in stands?.Fields.Where(ChangeField.IsLength) ?? [])
        {
            if (typed.TryGetValue(field.Key, out var text))
            {
                typed[field.Key] = LengthField.Millimetres(text, field.Value);
            }
        }

        return typed;
    }

    // What was typed comes with the form even when its token is too old: nothing of it is lost.
    private static async Task<IFormCollection?> Sent(HttpRequest request)
    {
        try
        {
            return request.HasFormContentType ? await request.ReadFormAsync() : null;
        }
        catch (Exception cut) when (cut is BadHttpRequestException or InvalidDataException)
        {
            return null;
        }
    }
}
