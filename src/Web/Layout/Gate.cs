using System.Net;
using Coldpeel.Desk;
using Coldpeel.Desk.Rooms;
using Coldpeel.Web.Words;
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

    // What a helper may not change.
    private static bool IsForOwners(HttpRequest request) => request.Path.StartsWithSegments("/workshop");

    public static void Use(WebApplication app, OpenedWorkshop workshop) =>
        app.Use(
            async (context, next) =>
            {
                if (Decide(context, workshop) is { } no)
                {
                    await no.ExecuteAsync(context);
                    return;
                }

                await next(context);
            }
        );

    private static IResult? Decide(HttpContext context, OpenedWorkshop workshop)
    {
        if (ProgramDoor.Leads(context.Request))
        {
            return ProgramDoor.Decide(context, workshop);
        }

        if (context.Connection.RemoteIpAddress is null || IPAddress.IsLoopback(context.Connection.RemoteIpAddress))
        {
            Visitor.Note(context, new("this computer", Role.Owner));
            return null;
        }

        if (!new KeepSettings(workshop).Now().Network)
        {
            return Pages.Of<MessagePage>(
                new { Title = LayoutWords.ClosedTitle, Words = LayoutWords.ClosedWords },
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
        return device.Role == Role.Helper && IsForOwners(context.Request)
            ? Pages.Of<MessagePage>(
                new { Title = LayoutWords.OwnerTitle, Words = LayoutWords.OwnerWords },
                StatusCodes.Status403Forbidden
            )
            : null;
    }
}
