using Coldpeel.Desk;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Rooms;
using Coldpeel.Desk.Sheets;
using Coldpeel.Desk.Shelf;
using Coldpeel.Web.Layout;
using Coldpeel.Workshop.Orders;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;

namespace Coldpeel.Web.Sheets;

/// <summary>The sheets of all orders: what waits for the printer, what does not yet, what is printed.</summary>
internal static class SheetsRoutes
{
    public static void Map(IEndpointRouteBuilder app) => app.MapGet("/sheets", Show);

    private static RazorComponentResult Show(HttpContext context, IAntiforgery forms, OpenedWorkshop workshop)
    {
        var tokens = forms.GetAndStoreTokens(context);
        var query = context.Request.Query;
        var (words, all, asked) = (Pages.Words(context), query["all"] == "yes", SheetsAskedWords.Read(query["show"]));
        var queue = new QueueSheets(workshop);
        var (there, more) = queue.There();
        var (lines, next) = queue.Page(asked, words, all, query["after"]);
        return Pages.Of<SheetsPage>(
            new
            {
                Lines = (IReadOnlyList<QueuedSheets>)lines,
                Next = next,
                Asked = asked,
                Words = words,
                All = all,
                There = (IReadOnlyList<ShelfLine>)there,
                More = more,
                Book = new ReadBook(workshop).Run(),
                Just = Just(query[Pages.TakenField].ToString(), Visitor.Of(context).Role, workshop),
                MayPrint = Rights.MayTake(Visitor.Of(context).Role, OrderStep.Print, []),
                Here = context.Request.Path + QueryString.Create(query.Where(part => part.Key != Pages.TakenField)),
                Token = tokens.RequestToken ?? "",
                TokenField = tokens.FormFieldName,
            }
        );
    }

    // What was printed a moment ago has left the queue: it is said, and a finger that slipped can take it back.
    private static JustPrinted? Just(string order, Role role, OpenedWorkshop workshop)
    {
        var so = new StepOrder(workshop).SoFar(order, stopped: false);
        return so.Stage == OrderStage.Printed
            ? new(order, so.Steps.Length, Rights.MayTake(role, OrderStep.TakeBack, [.. so.Steps.Select(s => s.Step)]))
            : null;
    }
}

/// <summary>An order whose sheets were printed a moment ago.</summary>
/// <param name="Order">The order.</param>
/// <param name="Steps">How many steps of its way were taken.</param>
/// <param name="MayTakeBack">Whether whoever looks may say that they were not.</param>
public sealed record JustPrinted(string Order, int Steps, bool MayTakeBack);
