using Coldpeel.Desk;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Shelf;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;
using Coldpeel.Workshop.Findings;
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
                Change(
                    Pages.Name(name),
                    context,
                    forms,
                    workshop,
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
                Change(
                    Pages.Name(name),
                    context,
                    forms,
                    workshop,
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

    private static async Task<IResult> Change(
        string name,
        HttpContext context,
        IAntiforgery forms,
        OpenedWorkshop workshop,
        Func<IFormCollection, string, Outcome<MadeJob>> change
    )
    {
        if (await Forms.Read(context, forms) is not { } form)
        {
            return OrderRoutes.Show(name, workshop, context, Forms.Stale);
        }

        var who = Visitor.Of(context).Name;
        var made = await Task.Run(() => change(form, who), context.RequestAborted);
        return made.Ok
            ? Results.Redirect($"/orders/{Say.Step(made.Value.Job.Name)}")
            : OrderRoutes.Show(name, workshop, context, Say.Fault(made.Fault));
    }
}
