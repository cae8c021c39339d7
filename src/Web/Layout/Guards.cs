using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;

namespace Coldpeel.Web.Layout;

/// <summary>Headers that keep other pages and odd content out of the app.</summary>
internal static class Guards
{
    // Nothing from elsewhere, no script or style inside a page, no page around ours.
    private const string Policy =
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; connect-src 'self'; "
        + "form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

    /// <summary>Every answer gets the headers as it leaves, pages of a fault too; an answer with a policy of its own keeps it.</summary>
    public static void Use(WebApplication app) =>
        app.Use(
            (context, next) =>
            {
                context.Response.OnStarting(() =>
                {
                    Add(context.Response.Headers);
                    return Task.CompletedTask;
                });
                return next(context);
            }
        );

    /// <summary>Whether one of our own pages sent this: browsers name the page's origin with everything but a plain look (Fetch Standard, 3.2).</summary>
    public static bool IsOwnPage(HttpRequest request) =>
        request.Headers.Origin is [{ } origin]
        && string.Equals(origin, $"{request.Scheme}://{request.Host}", StringComparison.OrdinalIgnoreCase);

    private static void Add(IHeaderDictionary headers)
    {
        if (headers.ContentSecurityPolicy.Count == 0)
        {
            headers.ContentSecurityPolicy = Policy;
        }

        headers.XContentTypeOptions = "nosniff";
        // The same as frame-ancestors above, for what does not know that: our own forms' guard would allow frames of our own.
        headers.XFrameOptions = "DENY";
        headers["Referrer-Policy"] = "same-origin";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
    }
}
