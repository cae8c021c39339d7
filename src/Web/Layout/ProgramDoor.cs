using System.Net;
using Coldpeel.Desk;
using Coldpeel.Desk.Rooms;
using Microsoft.AspNetCore.Http;

namespace Coldpeel.Web.Layout;

/// <summary>Who comes in by the interface for other programs: whoever has a key, on this computer too, because any page that is open here could ask as well.</summary>
internal static class ProgramDoor
{
    /// <summary>Where the interface begins.</summary>
    public const string Path = "/api/v1";

    /// <summary>Its description, which tells nothing of the workshop and is open to all who may ask at all.</summary>
    public const string Description = Path + "/openapi.json";

    private const string Scheme = "Bearer ";
    private static readonly object Key = new();

    /// <summary>Whether this is asked of the interface.</summary>
    public static bool Leads(HttpRequest request) => request.Path.StartsWithSegments("/api");

    /// <summary>The program that asks.</summary>
    /// <exception cref="InvalidOperationException">The door was not passed: a fault of ours.</exception>
    public static Device Program(HttpContext context) =>
        context.Items[Key] as Device ?? throw new InvalidOperationException("Nobody passed the door.");

    /// <summary>Why it may not come in; null when it may.</summary>
    public static IResult? Decide(HttpContext context, OpenedWorkshop workshop)
    {
        if (FromTheNetwork(context, workshop) is { } closed)
        {
            return closed;
        }

        if (context.Request.Path == Description)
        {
            return null;
        }

        // RFC 6750, section 2.1; the name of the scheme is compared without case (RFC 9110, 11.1).
        var said = context.Request.Headers.Authorization.ToString();
        var key = said.StartsWith(Scheme, StringComparison.OrdinalIgnoreCase) ? said[Scheme.Length..].Trim() : null;
        if (new Devices(workshop).KnownProgram(key) is not { } program)
        {
            context.Response.Headers.WWWAuthenticate = "Bearer realm=\"coldpeel\"";
            return Problems.Of(
                StatusCodes.Status401Unauthorized,
                "No key",
                "Send “Authorization: Bearer KEY” with a key that the owner has made under Workshop and not thrown out."
            );
        }

        context.Items[Key] = program;
        Visitor.Note(context, new(program.Name, program.Role));
        return null;
    }

    private static IResult? FromTheNetwork(HttpContext context, OpenedWorkshop workshop)
    {
        if (context.Connection.RemoteIpAddress is not { } from || IPAddress.IsLoopback(from))
        {
            return null;
        }

        var network = new KeepSettings(workshop).Now();
        return !network.Network
                ? Problems.Of(
                    StatusCodes.Status403Forbidden,
                    "Closed to the network",
                    "The owner has not let the network in: it is turned on under Workshop."
                )
            : context.Request.IsHttps ? null
            : Problems.Of(
                StatusCodes.Status403Forbidden,
                "Not encrypted",
                $"From the network the interface is asked at https://{context.Request.Host.Host}:{network.Port}{Path} only: a key that was sent to another address should be thrown out."
            );
    }
}
