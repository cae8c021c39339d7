using System.Globalization;
using Coldpeel.Desk;
using Coldpeel.Desk.Rooms;
using Coldpeel.Web.Words;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;

namespace Coldpeel.Web.Layout;

/// <summary>Whoever reads a page: the language and the unit of length it is written in.</summary>
internal static class Reader
{
    /// <summary>The cookie with a device's own language.</summary>
    public const string Cookie = "coldpeel-language";

    /// <summary>Field of a form with the unit its lengths were shown in: whoever keeps other settings meanwhile does not change what was typed.</summary>
    public const string UnitField = "in";

    private const string Inch = "inch";
    private const string Millimetre = "mm";

    private static readonly AsyncLocal<UnitOfAnswer> InUnit = new();

    // Held by reference: what a form says of its unit holds for the whole answer, whichever call has read the form.
    private sealed class UnitOfAnswer
    {
        public bool Inches { get; set; }
    }

    /// <summary>Whether lengths are shown in inches.</summary>
    public static bool Inches => InUnit.Value?.Inches ?? false;

    /// <summary>The unit that lengths are shown in, as a form sends it along.</summary>
    public static string Unit => Inches ? Inch : Millimetre;

    /// <summary>"en" or "de".</summary>
    public static string Language => CultureInfo.CurrentUICulture.TwoLetterISOLanguageName;

    /// <summary>Words what follows in that language, as a customer's paper on a page is; null changes nothing. Gives the language before.</summary>
    public static string In(string? language)
    {
        var before = Language;
        if (Known(language) is { } other)
        {
            CultureInfo.CurrentUICulture = CultureInfo.GetCultureInfo(other);
        }

        return before;
    }

    /// <summary>Reads and answers a form in the unit that it was shown in; one that does not say is in the settings' unit.</summary>
    public static void As(IFormCollection form)
    {
        if (InUnit.Value is { } unit && form[UnitField].ToString() is Inch or Millimetre)
        {
            unit.Inches = form[UnitField] == Inch;
        }
    }

    /// <summary>Every answer is written for its reader: the device's own choice, else the workshop's, else what the browser asks for.</summary>
    public static void Use(WebApplication app, OpenedWorkshop workshop)
    {
        app.Use(
            // Awaited, so that the culture ends with the answer.
            async (context, next) =>
            {
                // Addresses, forms, files and papers read the same everywhere; only what people read has a culture.
                CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
                var settings = new KeepSettings(workshop);
                CultureInfo.CurrentUICulture = CultureInfo.GetCultureInfo(LanguageFor(context.Request, settings));
                InUnit.Value = new() { Inches = new KeepAnswers(workshop).Unit == LengthUnit.Inch };
                await next(context);
            }
        );
        app.MapPost("/language", (Delegate)Choose);
    }

    /// <summary>Where a page with this address is read again.</summary>
    public static string Here(HttpRequest request) => request.Path + request.QueryString;

    private static string LanguageFor(HttpRequest request, KeepSettings settings) =>
        Known(request.Cookies[Cookie])
        ?? Known(settings.Language)
        ?? request
            .GetTypedHeaders()
            .AcceptLanguage.OrderByDescending(a => a.Quality ?? 1)
            .Select(a => Known(a.Value.Value?.Split('-')[0]))
            .FirstOrDefault(l => l is not null)
        ?? "en";

    private static string? Known(string? language) =>
        language is not null && KeepSettings.Languages.Contains(language) ? language : null;

    private static async Task<IResult> Choose(HttpContext context)
    {
        if (!Guards.IsOwnPage(context.Request) || !context.Request.HasFormContentType)
        {
            return Results.Text(LayoutWords.NotOurForm, statusCode: StatusCodes.Status403Forbidden);
        }

        var form = await context.Request.ReadFormAsync(context.RequestAborted);
        if (Known(form["language"]) is { } language)
        {
            context.Response.Cookies.Append(
                Cookie,
                language,
                new()
                {
                    SameSite = SameSiteMode.Strict,
                    HttpOnly = true,
                    Secure = context.Request.IsHttps,
                    MaxAge = TimeSpan.FromDays(400),
                    IsEssential = true,
                }
            );
        }

        return Results.LocalRedirect(Pages.Back(form[Pages.BackField].ToString()) ?? "/");
    }
}
