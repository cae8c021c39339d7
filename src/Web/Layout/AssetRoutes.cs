using System.Collections.Concurrent;
using System.Security.Cryptography;
using Coldpeel.Desk.Artwork;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Coldpeel.Web.Layout;

/// <summary>Style, script, mark and typeface, out of the assemblies: nothing is looked up in a folder.</summary>
internal static class AssetRoutes
{
    private static readonly ConcurrentDictionary<string, Asset> Known = new(StringComparer.Ordinal);

    private sealed record Asset(byte[] Content, string ContentType, string Tag);

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/assets/{name}", Get);
        // A page asks whether anybody answers before it sends what was typed.
        app.MapMethods("/assets/here", [HttpMethods.Head], () => Results.NoContent());
        // It answers for all pages, so it has an address above them.
        app.MapGet("/gone-worker.js", (HttpContext context) => Worker(context, "gone-worker.js"));
        app.MapGet("/gone", () => Pages.Of<GonePage>(new { }));
    }

    /// <summary>A script that answers for pages at and below its own address; browsers ask anew for it each time.</summary>
    public static IResult Worker(HttpContext context, string name)
    {
        context.Response.Headers.CacheControl = "no-cache";
        return Results.Bytes(Content(name)!, "text/javascript; charset=utf-8");
    }

    /// <summary>Address of an asset; it changes with the content, so that no browser shows an old one.</summary>
    /// <remarks><c>words.js</c> is the script with the words of the reader's language.</remarks>
    public static string Address(string name)
    {
        var known = name == "words.js" ? ScreenScript.Name : name;
        return $"/assets/{known}?{Of(known)?.Tag}";
    }

    /// <summary>Content of an asset that is served at an address of its own; null for none of that name.</summary>
    public static byte[]? Content(string name) => Of(name)?.Content;

    private static IResult Get(string name, HttpContext context)
    {
        if (Of(name) is not { } asset)
        {
            return Results.NotFound();
        }

        // The style names the fonts without a tag: an hour is enough for both, and a changed tag is asked for at once.
        context.Response.Headers.CacheControl = "public, max-age=3600";
        return Results.Bytes(asset.Content, asset.ContentType, entityTag: new($"\"{asset.Tag}\""));
    }

    // Only what is there is remembered: asking for a million other names fills nothing.
    private static Asset? Of(string name) =>
        Known.TryGetValue(name, out var known) ? known
        : Load(name) is { } loaded ? Known.GetOrAdd(name, loaded)
        : null;

    private static Asset? Load(string name)
    {
        var content =
            name.StartsWith("inter-", StringComparison.Ordinal) && name.EndsWith(".ttf", StringComparison.Ordinal)
                ? FetchTypeface.Run(name[6..^4])
                : ScreenScript.Of(name) ?? Embedded($"assets/{name}");
        return content is null
            ? null
            : new(content, ContentType(name), Convert.ToHexStringLower(SHA256.HashData(content))[..12]);
    }

    /// <summary>The description of the interface for other programs.</summary>
    public static byte[] Description() => Embedded("schemas/openapi.json")!;

    private static byte[]? Embedded(string name)
    {
        using var stream = typeof(AssetRoutes).Assembly.GetManifestResourceStream(name);
        if (stream is null)
        {
            return null;
        }

        using var bytes = new MemoryStream();
        stream.CopyTo(bytes);
        return bytes.ToArray();
    }

    private static string ContentType(string name) =>
        Path.GetExtension(name) switch
        {
            ".css" => "text/css; charset=utf-8",
            ".js" => "text/javascript; charset=utf-8",
            ".svg" => "image/svg+xml",
            ".ttf" => "font/ttf",
            _ => "application/octet-stream",
        };
}
