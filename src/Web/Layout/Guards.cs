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

    public static void Use(WebApplication app) =>
        app.Use(
            (context, next) =>
            {
                var headers = context.Response.Headers;
                headers.ContentSecurityPolicy = Policy;
                headers.XContentTypeOptions = "nosniff";
                headers["Referrer-Policy"] = "same-origin";
                headers["Cross-Origin-Opener-Policy"] = "same-origin";
                headers["Cross-Origin-Resource-Policy"] = "same-origin";
                return next(context);
            }
        );
}
