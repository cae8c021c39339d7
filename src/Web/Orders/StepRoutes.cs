using System.Globalization;
using Coldpeel.Desk;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Desk.Rooms;
using Coldpeel.Desk.Shelf;
using Coldpeel.Web.Layout;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.WebUtilities;

namespace Coldpeel.Web.Orders;

/// <summary>The steps of an order from its page: what goes along with each, and what is asked before it is taken.</summary>
internal static class StepRoutes
{
    public static void Map(IEndpointRouteBuilder app) => app.MapPost("/orders/{name}/steps", Step);

    private static async Task<IResult> Step(
        string name,
        HttpContext context,
        IAntiforgery forms,
        OpenedWorkshop workshop
    )
    {
        if (
            await Forms.Read(context, forms) is not { } form
            || !Enum.TryParse<OrderStep>(form["step"], out var step)
            || !Enum.IsDefined(step)
        )
        {
            return OrderRoutes.Show(Pages.Name(name), workshop, context, Forms.Stale);
        }

        var (visitor, order) = (Visitor.Of(context), Pages.Name(name));
        int? seen = int.TryParse(form["seen"], NumberStyles.None, CultureInfo.InvariantCulture, out var count)
            ? count
            : null;
        var (who, steps) = (visitor.Name, new StepOrder(workshop));
        if (visitor.Role != Role.Owner)
        {
            OrderStep[] taken = [.. steps.SoFar(order, stopped: false).Steps.Select(s => s.Step)];
            if (!Rights.MayTake(visitor.Role, step, taken))
            {
                return Gate.OwnersOnly(context.Request);
            }

            // What was looked at here is what is taken back, and no step that comes in meanwhile.
            seen ??= taken.Length;
        }

        var sure = form["sure"] == "yes";
        var fault = step switch
        {
            OrderStep.Approve => Approve(order, form, workshop, who, seen),
            OrderStep.Inspect => steps.Inspect(order, Spoilt(form), form["spoiltWhy"].ToString(), who, seen, sure),
            OrderStep.HandOver => steps.HandOver(
                order,
                form["receiver"].ToString(),
                form["note"].ToString(),
                who,
                seen,
                sure
            ),
            _ => steps.Run(order, step, form["note"].ToString(), who, seen, sure),
        };
        return fault switch
        {
            null => Results.LocalRedirect(
                Pages.Back(form[Pages.BackField].ToString()) is { } list
                    ? QueryHelpers.AddQueryString(list, Pages.TakenField, order)
                    : $"/orders/{Say.Step(order)}"
            ),
            { Kind: FaultKind.Unsure } => AskSure(order, step, fault, form, context, forms, workshop),
            _ => OrderRoutes.Show(order, workshop, context, Say.Fault(fault), form),
        };
    }

    // A finger that slips says of no order that its work is over while it goes on: what was typed goes along, and is not typed again.
    private static RazorComponentResult AskSure(
        string order,
        OrderStep step,
        Fault fault,
        IFormCollection form,
        HttpContext context,
        IAntiforgery forms,
        OpenedWorkshop workshop
    )
    {
        var tokens = forms.GetAndStoreTokens(context);
        return Pages.Of<StepSurePage>(
            new
            {
                Order = order,
                Step = step,
                Ask = Say.Fault(fault),
                Day = new AskBench(workshop).Of(order)?.Day,
                Typed = (IReadOnlyList<KeyValuePair<string, string>>)
                    [
                        .. form.Where(f => f.Key != tokens.FormFieldName && f.Key != "sure")
                            .SelectMany(f => f.Value.Select(v => KeyValuePair.Create(f.Key, v ?? ""))),
                    ],
                Token = tokens.RequestToken ?? "",
                TokenField = tokens.FormFieldName,
            }
        );
    }

    // "spoilt-2" is how many of the second ticket's items, "spoilt-2-item" which of them; "spoilt" alone is of the only ticket.
    private static SpoiltSaid[] Spoilt(IFormCollection form) =>
        [
            .. form
                .Keys.Select(key => (Key: key, Parts: key.Split('-')))
                .Where(k => k.Parts is ["spoilt"] or ["spoilt", _] or ["spoilt", _, "item"])
                .Select(k =>
                    (
                        k.Key,
                        k.Parts,
                        Ticket: k.Parts.Length > 1
                        && int.TryParse(k.Parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var t)
                            ? t
                            : 0
                    )
                )
                .Select(k =>
                    k.Parts.Length == 3
                        ? new SpoiltSaid(
                            k.Ticket,
                            "",
                            [
                                .. form[k.Key]
                                    .Select(n =>
                                        int.TryParse(n, NumberStyles.None, CultureInfo.InvariantCulture, out var i)
                                            ? i
                                            : 0
                                    ),
                            ]
                        )
                        : new SpoiltSaid(k.Ticket, form[k.Key].ToString(), [])
                ),
        ];

    // Of the two proofs the one that was approved, as it was when the page was opened.
    private static Fault? Approve(string name, IFormCollection form, OpenedWorkshop workshop, string who, int? seen)
    {
        var priced = form["priced"] == "yes";
        return new StepOrder(workshop).Approve(
            name,
            new(form["by"].ToString(), form["how"].ToString(), priced, form["note"].ToString()),
            form[priced ? "pricedHash" : "plain"].ToString(),
            who,
            seen
        );
    }
}
