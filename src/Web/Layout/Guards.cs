using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;

namespace Coldpeel.Web.Layout;

/// <summary>Headers that keep other pages and odd content out of the app.</summary>
internal static class Guards
{
    // Nothing from elsewhere, no script or style inside a page, no page around ours.
    private const string Policy =
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; "
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

    private static void Add(IHeaderDictionary headers)
    {
        if (headers.ContentSecurityPolicy.Count == 0)
        {
            headers.ContentSecurityPolicy = Policy;
        }

        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "same-origin";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
    }
}
