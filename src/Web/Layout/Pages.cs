using Coldpeel.Web.Words;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Coldpeel.Web.Layout;

/// <summary>Pages as answers.</summary>
internal static class Pages
{
    private const int LongestWords = 100;

    /// <summary>Field of a form with the page that is shown again once it is taken.</summary>
    public const string BackField = "back";

    /// <summary>What that page is told of by its address: the order whose step was taken on it.</summary>
    public const string TakenField = "taken";

    /// <summary>The page of ours that a form wants to come back to; null where it names none.</summary>
    public static string? Back(string address) => address is ['/', not ('/' or '\\'), ..] ? address : null;

    /// <summary>Words that are looked for, as a page's address has them.</summary>
    public static string Words(HttpContext context)
    {
        var words = context.Request.Query["q"].ToString().Trim();
        return words.Length > LongestWords ? words[..LongestWords] : words;
    }

    /// <summary>A page with its parameters.</summary>
    public static RazorComponentResult Of<TPage>(object parameters, int status = StatusCodes.Status200OK)
        where TPage : IComponent =>
        new(typeof(TPage), parameters) { StatusCode = status, PreventStreamingRendering = true };

    /// <summary>The page that a form stands on: it is a bad request when the form was sent and something is wrong with it.</summary>
    public static RazorComponentResult Of<TPage>(object parameters, bool refused)
        where TPage : IComponent =>
        Of<TPage>(parameters, refused ? StatusCodes.Status400BadRequest : StatusCodes.Status200OK);

    /// <summary>A page that says what is not there.</summary>
    public static RazorComponentResult Missing(string words) =>
        Of<MessagePage>(new { Title = LayoutWords.NotHere, Words = words }, StatusCodes.Status404NotFound);

    /// <summary>A step of the address as it was meant: the server leaves a slash inside a name undecoded.</summary>
    public static string Name(string step) => step.Replace("%2F", "/", StringComparison.OrdinalIgnoreCase);
}
