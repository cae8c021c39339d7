using System.Globalization;
using Coldpeel.Desk;
using Coldpeel.Desk.Orders;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;
using Coldpeel.Workshop.Findings;
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
        app.MapPost("/orders/{name}/back", PutBack);
    }

    // What stood before the last change, as the page has shown it.
    private static async Task<IResult> PutBack(
        string name,
        HttpContext context,
        IAntiforgery forms,
        OpenedWorkshop workshop
    )
    {
        name = Pages.Name(name);
        if (
            await Forms.Read(context, forms) is not { } form
            || !long.TryParse(form["version"], NumberStyles.None, CultureInfo.InvariantCulture, out var number)
        )
        {
            return OrderRoutes.Show(name, workshop, context, Forms.Stale);
        }

        var (who, stop) = (Visitor.Of(context).Name, context.RequestAborted);
        var fault = await Task.Run(() => new PutBackVersion(workshop).Run(name, number, who, stop), stop);
        return fault is null
            ? Results.Redirect($"/orders/{Say.Step(name)}")
            : OrderRoutes.Show(name, workshop, context, Say.Fault(fault));
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
            faults.Count > 0
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

        if (form["edit"] == "yes")
        {
            return Show(name, context, forms, workshop, [], form);
        }

        var stands = new ChangeOrder(workshop).Form(name).Value;
        var typed = InMillimetres(form, stands);
        if (WrongLengths(form, typed, stands) is { Length: > 0 } wrong)
        {
            return Show(name, context, forms, workshop, [.. wrong], form);
        }

        return form["keep"] == "yes"
            ? await Keep(name, context, forms, workshop, form, typed)
            : await Offer(name, context, forms, workshop, form, typed, null);
    }

    // Nothing is changed before somebody has seen what it would be.
    private static async Task<IResult> Offer(
        string name,
        HttpContext context,
        IAntiforgery forms,
        OpenedWorkshop workshop,
        IFormCollection form,
        Dictionary<string, string> typed,
        Fault? told
    )
    {
        var (version, stop) = (form["version"].ToString(), context.RequestAborted);
        var offered = await Task.Run(
            () => new ChangeOrder(workshop).Offer(name, version, typed, MakeFromFolder.PatientSeconds, stop),
            stop
        );
        if (offered.Shown is not { } shown)
        {
            return Show(name, context, forms, workshop, [.. offered.Faults.Select(Say.Fault)], form);
        }

        var stands = new ChangeOrder(workshop).Form(name).Value;
        var tokens = forms.GetAndStoreTokens(context);
        return Pages.Of<ShownChangePage>(
            new
            {
                Shown = shown,
                Materials = (IReadOnlyList<(string Id, string Name)>)(stands?.Materials ?? []),
                Language = stands?.Language ?? "en",
                Told = told is null ? null : Say.Fault(told),
                Token = tokens.RequestToken ?? "",
                Typed = (IReadOnlyDictionary<string, string>)form.ToDictionary(f => f.Key, f => f.Value.ToString()),
                TokenField = tokens.FormFieldName,
            },
            told is null ? StatusCodes.Status200OK : StatusCodes.Status409Conflict
        );
    }

    private static async Task<IResult> Keep(
        string name,
        HttpContext context,
        IAntiforgery forms,
        OpenedWorkshop workshop,
        IFormCollection form,
        Dictionary<string, string> typed
    )
    {
        var (version, who, stop) = (form["version"].ToString(), Visitor.Of(context).Name, context.RequestAborted);
        bool? falls = form["falls"].ToString() switch
        {
            "yes" => true,
            "no" => false,
            _ => null,
        };
        var changed = await Task.Run(
            () =>
                new ChangeOrder(workshop).Run(
                    name,
                    version,
                    typed,
                    who,
                    MakeFromFolder.PatientSeconds,
                    stop,
                    falls,
                    form.TryGetValue("shelf", out var shelf) ? shelf.ToString() : null
                ),
            stop
        );
        return changed.ShowsAgain ? await Offer(name, context, forms, workshop, form, typed, changed.Faults[0])
            : changed.Made is not null ? Results.Redirect($"/orders/{Say.Step(name)}")
            : Show(name, context, forms, workshop, [.. changed.Faults.Select(Say.Fault)], form);
    }

    // What was shown says its millimetres: they are kept as they were shown, to the last digit.
    private static Dictionary<string, string> InMillimetres(IFormCollection form, OrderForm? stands)
    {
        var typed = form.ToDictionary(f => f.Key, f => f.Value.ToString());
        foreach (var field in stands?.Fields.Where(ChangeField.IsLength) ?? [])
        {
            if (typed.TryGetValue(field.Key, out var text))
            {
                typed[field.Key] = form.TryGetValue(ChangeField.ExactName(field), out var exact)
                    ? exact.ToString()
                    : LengthField.Millimetres(text, field.Value);
            }
        }

        return typed;
    }

    // A width may be left empty: the artwork has one of its own.
    private static string[] WrongLengths(IFormCollection form, Dictionary<string, string> typed, OrderForm? stands) =>
        [
            .. (stands?.Fields ?? [])
                .Where(ChangeField.IsLength)
                .Select(f => (Field: f, Mm: typed.GetValueOrDefault(f.Key, f.Value).Trim()))
                .Where(f => f.Mm != f.Field.Value && !(f.Mm.Length == 0 && f.Field.Kind == OrderFieldKind.Width))
                .Select(f =>
                    LengthField.Wrong(
                        $"{f.Field.About}, {OrderFieldWords.Of(f.Field)}",
                        form[f.Field.Key].ToString().Trim(),
                        f.Mm
                    )
                )
                .OfType<string>(),
        ];

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
