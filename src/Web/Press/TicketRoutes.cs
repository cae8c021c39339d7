using Coldpeel.Desk;
using Coldpeel.Desk.Press;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;

namespace Coldpeel.Web.Press;

/// <summary>Where the codes on the tickets lead.</summary>
internal static class TicketRoutes
{
    public static void Map(IEndpointRouteBuilder app) => app.MapGet("/tickets/{name}/{number:int}", Ticket);

    private static RazorComponentResult Ticket(string name, int number, OpenedWorkshop workshop) =>
        new OpenTicket(workshop).Run(Pages.Name(name), number) is { } ticket
            ? Pages.Of<TicketPage>(new { Ticket = ticket })
            : Pages.Missing(Say.With(PressWords.NoSuchTicket, number, Pages.Name(name)));
}
