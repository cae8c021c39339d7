using Coldpeel.Desk;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Rooms;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;
using Coldpeel.Workshop.Findings;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Coldpeel.Web.Orders;

/// <summary>Answers to findings. Only an owner takes a finding on: what stops an order is there for somebody's safety.</summary>
internal static class AnswerRoutes
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapPost(
            "/orders/{name}/answers",
            (string name, HttpContext context, IAntiforgery forms, OpenedWorkshop workshop) =>
                Change(
                    Pages.Name(name),
                    context,
                    forms,
                    workshop,
                    (form, who) =>
                        new AnswerFinding(workshop).Run(
                            Pages.Name(name),
                            form["finding"].ToString(),
                            form["why"].ToString(),
                            who,
                            MakeFromFolder.PatientSeconds,
                            context.RequestAborted
                        )
                )
        );
        app.MapPost(
            "/orders/{name}/answers/back",
            (string name, HttpContext context, IAntiforgery forms, OpenedWorkshop workshop) =>
                Change(
                    Pages.Name(name),
                    context,
                    forms,
                    workshop,
                    (form, who) =>
                        new AnswerFinding(workshop).TakeBack(
                            Pages.Name(name),
                            form["finding"].ToString(),
                            who,
                            MakeFromFolder.PatientSeconds,
                            context.RequestAborted
                        )
                )
        );
    }

    private static async Task<IResult> Change(
        string name,
        HttpContext context,
        IAntiforgery forms,
        OpenedWorkshop workshop,
        Func<IFormCollection, string, Outcome<MadeJob>> change
    )
    {
        var visitor = Visitor.Of(context);
        if (visitor.Role != Role.Owner)
        {
            return OrderRoutes.Show(name, workshop, context, OrderWords.AnswerForOwner);
        }

        if (await Forms.Read(context, forms) is not { } form)
        {
            return OrderRoutes.Show(name, workshop, context, Forms.Stale);
        }

        var made = await Task.Run(() => change(form, visitor.Name), context.RequestAborted);
        return made.Ok
            ? Results.Redirect($"/orders/{Say.Step(name)}#findings")
            : OrderRoutes.Show(name, workshop, context, Say.Fault(made.Fault));
    }
}
