using Microsoft.AspNetCore.Http;

namespace Coldpeel.Web.Layout;

/// <summary>Who is asking: this computer itself, or a device that was let in.</summary>
/// <param name="Name">For people and for the history.</param>
internal sealed record Visitor(string Name)
{
    private static readonly object Key = new();

    /// <summary>Who asks this.</summary>
    public static Visitor Of(HttpContext context) => context.Items[Key] as Visitor ?? new Visitor("this computer");

    /// <summary>Notes who asks this.</summary>
    public static void Note(HttpContext context, Visitor visitor) => context.Items[Key] = visitor;
}
