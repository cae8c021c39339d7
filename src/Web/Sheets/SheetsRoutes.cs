using Coldpeel.Desk;
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
        var (lines, next) = queue.Page(asked, words, all, query["after"]);
        return Pages.Of<SheetsPage>(
            new
            {
                Lines = (IReadOnlyList<QueuedSheets>)lines,
                Next = next,
                Asked = asked,
                Words = words,
                All = all,
                There = (IReadOnlyList<ShelfLine>)queue.There(),
                Book = new ReadBook(workshop).Run(),
                MayPrint = Rights.MayTake(Visitor.Of(context).Role, OrderStep.Print, []),
                Here = Reader.Here(context.Request),
                Token = tokens.RequestToken ?? "",
                TokenField = tokens.FormFieldName,
            }
        );
    }
}
