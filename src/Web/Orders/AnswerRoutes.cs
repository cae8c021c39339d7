using Coldpeel.Desk;
using Coldpeel.Desk.Orders;
using Coldpeel.Web.Layout;
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
                Frame(Pages.Name(name), context, forms, workshop)
                    .Answer(
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
                Frame(Pages.Name(name), context, forms, workshop)
                    .Answer(
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

    private static MakingForm Frame(string name, HttpContext context, IAntiforgery forms, OpenedWorkshop workshop) =>
        new(
            context,
            forms,
            fault => OrderRoutes.Show(name, workshop, context, fault),
            _ => $"/orders/{Say.Step(name)}#findings"
        );
}
