using Coldpeel.Desk;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Shelf;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;
using Coldpeel.Workshop.Orders;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;

namespace Coldpeel.Web.Orders;

/// <summary>What an order has to do with the shelf, and the slip that goes along with it.</summary>
internal static class OrderShelfRoutes
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/orders/{name}/hand-over", Slip);
        app.MapPost(
            "/orders/{name}/from-shelf",
            (string name, HttpContext context, IAntiforgery forms, OpenedWorkshop workshop) =>
                Frame(Pages.Name(name), context, forms, workshop)
                    .Answer(
                        (form, who) =>
                            new OrderOnShelf(workshop).Use(
                                Pages.Name(name),
                                form["use"] == "yes",
                                who,
                                MakeFromFolder.PatientSeconds,
                                context.RequestAborted
                            )
                    )
        );
        app.MapPost(
            "/orders/{name}/again",
            (string name, HttpContext context, IAntiforgery forms, OpenedWorkshop workshop) =>
                Frame(Pages.Name(name), context, forms, workshop)
                    .Answer(
                        (_, who) =>
                            new MakeSpoiltAgain(workshop).Run(
                                Pages.Name(name),
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
            made => $"/orders/{Say.Step(made.Job.Name)}"
        );

    private static RazorComponentResult Slip(string name, OpenedWorkshop workshop)
    {
        var order = Pages.Name(name);
        return new HandOverSlip(workshop).Run(order) is { } slip
            ? Pages.Of<HandOverPage>(
                new
                {
                    Slip = slip,
                    Paper = slip.Received is null
                        ? null
                        : new StepOrder(workshop)
                            .SoFar(order, false)
                            .Steps.LastOrDefault(s => s.Step == OrderStep.HandOver)
                            ?.Proof,
                }
            )
            : Pages.Missing(Say.With(OrderWords.NoSuchOrder, order));
    }
}
