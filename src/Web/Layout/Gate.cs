using System.Net;
using Coldpeel.Desk;
using Coldpeel.Desk.Rooms;
using Coldpeel.Web.Words;
using Coldpeel.Workshop.Findings;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;

namespace Coldpeel.Web.Layout;

/// <summary>Who comes in: this computer always; devices of the network when the owner has turned it on and let them in.</summary>
internal static class Gate
{
    /// <summary>The cookie with a device's secret.</summary>
    public const string Cookie = "coldpeel-device";

    // Where a device without a secret may go.
    private static bool IsOpen(PathString path) =>
        path.StartsWithSegments("/join") || path.StartsWithSegments("/assets") || path.StartsWithSegments("/language");

    public static void Use(WebApplication app, OpenedWorkshop workshop, KnownHosts hosts) =>
        app.Use(
            async (context, next) =>
            {
                if (Decide(context, workshop, hosts) is { } no)
                {
                    await no.ExecuteAsync(context);
                    return;
                }

                await next(context);
            }
        );

    /// <summary>Whether who was let in may still be here: asked by an answer that lasts.</summary>
    public static bool IsStillIn(HttpContext context, OpenedWorkshop workshop) =>
        IsHere(context)
        || (
            new KeepSettings(workshop).Now().Network
            && new Devices(workshop).Known(context.Request.Cookies[Cookie]) is not null
        );

    private static bool IsHere(HttpContext context) =>
        context.Connection.RemoteIpAddress is null || IPAddress.IsLoopback(context.Connection.RemoteIpAddress);

    private static IResult? Decide(HttpContext context, OpenedWorkshop workshop, KnownHosts hosts)
    {
        if (!hosts.Knows(context.Request.Host.Host, workshop.Now))
        {
            return Pages.Of<MessagePage>(
                new { Title = LayoutWords.HostTitle, Words = LayoutWords.HostWords },
                StatusCodes.Status400BadRequest
            );
        }

        if (ProgramDoor.Leads(context.Request))
        {
            return ProgramDoor.Decide(context, workshop);
        }

        if (IsHere(context))
        {
            Visitor.Note(context, new(OwnComputer.Name, Role.Owner));
            return null;
        }

        var network = new KeepSettings(workshop).Now();
        if (!network.Network)
        {
            return Pages.Of<MessagePage>(
                new { Title = LayoutWords.ClosedTitle, Words = LayoutWords.ClosedWords },
                StatusCodes.Status403Forbidden
            );
        }

        if (!context.Request.IsHttps)
        {
            var address = $"https://{context.Request.Host.Host}:{network.Port}";
            return Pages.Of<MessagePage>(
                new { Title = LayoutWords.PlainTitle, Words = Say.With(LayoutWords.PlainWords, address) },
                StatusCodes.Status403Forbidden
            );
        }

        if (new Devices(workshop).Known(context.Request.Cookies[Cookie]) is not { } device)
        {
            return IsOpen(context.Request.Path) ? null
                : HttpMethods.IsGet(context.Request.Method) ? Results.Redirect("/join")
                : Results.StatusCode(StatusCodes.Status401Unauthorized);
        }

        Visitor.Note(context, new(device.Name, device.Role));
        return Rights.MayAsk(device.Role, context.Request, context.GetEndpoint()) ? null : OwnersOnly(context.Request);
    }

    /// <summary>What a helper is told who asks for what is the owner's.</summary>
    public static IResult OwnersOnly(HttpRequest request) =>
        Pages.Of<MessagePage>(
            new
            {
                Title = LayoutWords.OwnerTitle,
                Words = HttpMethods.IsGet(request.Method) ? LayoutWords.OwnerWords : LayoutWords.OwnerDecides,
            },
            StatusCodes.Status403Forbidden
        );
}
