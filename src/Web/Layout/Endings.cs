using Coldpeel.Desk;
using Coldpeel.Web.Words;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;

namespace Coldpeel.Web.Layout;

/// <summary>What is answered where nothing else answers: no such page, a disk that is full, a fault of ours.</summary>
internal static class Endings
{
    /// <summary>Whether the page says it all: a full disk is no fault of ours, and its stack helps nobody at the terminal.</summary>
    public static bool IsTold(ExceptionHandlerSuppressDiagnosticsContext context) =>
        TellTrouble.Run(context.Exception) is not null;

    /// <summary>The answer to an exception.</summary>
    public static Task Fault(HttpContext context)
    {
        var trouble = TellTrouble.Run(context.Features.Get<IExceptionHandlerFeature>()?.Error);
        var status = trouble switch
        {
            { Full: true } => StatusCodes.Status507InsufficientStorage,
            not null => StatusCodes.Status503ServiceUnavailable,
            null => StatusCodes.Status500InternalServerError,
        };
        if (ProgramDoor.Leads(context.Request))
        {
            return trouble is { } told
                ? Problems.Of(status, "Cannot be kept", told.Fault).ExecuteAsync(context)
                : Problems
                    .Of(
                        status,
                        "A fault of ours",
                        "Nothing of it was kept; ask again under the same key, and report what the terminal says if it stays."
                    )
                    .ExecuteAsync(context);
        }

        if (trouble is { } untold && SentForm(context) is { } form)
        {
            return Pages
                .Of<SendAgainPage>(
                    new
                    {
                        Title = LayoutWords.CannotKeep,
                        Words = Say.Fault(untold.Fault),
                        Action = Reader.Here(context.Request),
                        Form = form,
                    },
                    status
                )
                .ExecuteAsync(context);
        }

        var page = trouble is { } stands
            ? new { Title = LayoutWords.CannotKeep, Words = Say.Fault(stands.Fault) }
            : new { Title = LayoutWords.FaultTitle, Words = LayoutWords.FaultWords };
        return Pages.Of<MessagePage>(page, status).ExecuteAsync(context);
    }

    // What somebody has typed, as far as it was read.
    private static IFormCollection? SentForm(HttpContext context) =>
        HttpMethods.IsPost(context.Request.Method) ? context.Features.Get<IFormFeature>()?.Form : null;

    /// <summary>The answer where there is no page.</summary>
    public static Task Missing(StatusCodeContext status)
    {
        var context = status.HttpContext;
        return ProgramDoor.Leads(context.Request)
                ? Problems
                    .Of(
                        context.Response.StatusCode,
                        "Not here",
                        $"{ProgramDoor.Description} tells what can be asked, and how."
                    )
                    .ExecuteAsync(context)
            : context.Response.StatusCode == StatusCodes.Status404NotFound
                ? Pages.Missing(LayoutWords.NoPage).ExecuteAsync(context)
            : context.Response.StatusCode == StatusCodes.Status405MethodNotAllowed
                ? Pages
                    .Of<MessagePage>(
                        new { Title = LayoutWords.NotHere, Words = LayoutWords.NotThatWay },
                        StatusCodes.Status405MethodNotAllowed
                    )
                    .ExecuteAsync(context)
            : Task.CompletedTask;
    }
}
