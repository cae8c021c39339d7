using Coldpeel.Desk.Rooms;
using Microsoft.AspNetCore.Http;

namespace Coldpeel.Web.Layout;

/// <summary>Who is asking: this computer itself, or a device that was let in.</summary>
/// <param name="Name">For people and for the history.</param>
/// <param name="Role">What may be done.</param>
internal sealed record Visitor(string Name, Role Role)
{
    private static readonly object Key = new();

    /// <summary>Who asks this; nobody in particular on a page that is open to all.</summary>
    public static Visitor Of(HttpContext context) =>
        context.Items[Key] as Visitor ?? new Visitor("nobody", Role.Helper);

    /// <summary>Notes who asks this.</summary>
    public static void Note(HttpContext context, Visitor visitor) => context.Items[Key] = visitor;
}
