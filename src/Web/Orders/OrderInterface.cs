using System.Text.Json;
using System.Text.Json.Serialization;
using Coldpeel.Desk;
using Coldpeel.Desk.Orders;
using Coldpeel.Web.Layout;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Coldpeel.Web.Orders;

/// <summary>Orders for other programs: put one in, read how they stand. What it says is described in <c>openapi.json</c>.</summary>
internal static class OrderInterface
{
    private const string Json = "application/json";
    private static readonly JsonSerializerOptions Form = new(JsonSerializerDefaults.Web)
    {
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower) },
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    };

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet(ProgramDoor.Description, () => Results.Bytes(AssetRoutes.Description(), Json));
        app.MapGet(ProgramDoor.Path + "/orders", List);
        app.MapPost(ProgramDoor.Path + "/orders", Put);
        app.MapGet(ProgramDoor.Path + "/orders/{name}", One);
        app.MapGet(ProgramDoor.Path + "/orders/{name}/files/{file}", File);
    }

    private static IResult List(HttpContext context, OpenedWorkshop workshop)
    {
        var query = context.Request.Query;
        var words = query["q"].ToString();
        var (lines, next) = new ListJobs(workshop).Page(
            words.Length > 100 ? words[..100] : words,
            query["all"] == "true",
            query["after"]
        );
        return Results.Json(new { orders = lines.Select(ToldOrder.Of), next }, Form);
    }

    private static IResult One(string name, OpenedWorkshop workshop) =>
        new OpenKeptJob(workshop).Run(Pages.Name(name)) is { } order
            ? Results.Json(ToldOrder.Of(order), Form)
            : Missing($"No order “{Pages.Name(name)}” is kept here.");

    private static IResult File(string name, string file, OpenedWorkshop workshop) =>
        new FetchFile(workshop).Run(Pages.Name(name), Pages.Name(file)) is { } fetched
            ? Results.Bytes(fetched.Content, fetched.ContentType)
            : Missing($"The order “{Pages.Name(name)}” has no file “{Pages.Name(file)}”.");

    private static async Task<IResult> Put(HttpContext context, OpenedWorkshop workshop)
    {
        if (Key(context.Request) is not { } key)
        {
            return Problems.Of(
                StatusCodes.Status400BadRequest,
                "No idempotency key",
                $"Send “Idempotency-Key” with a text of your own, the same when you ask again: up to {PutInOrder.LongestKey} printable ASCII characters."
            );
        }

        if (!context.Request.HasFormContentType)
        {
            return Problems.Of(
                StatusCodes.Status415UnsupportedMediaType,
                "No form",
                "Send the job file, its artwork and its rosters as multipart/form-data, each in a field “files”."
            );
        }

        IFormCollection form;
        try
        {
            form = await context.Request.ReadFormAsync(context.RequestAborted);
        }
        catch (BadHttpRequestException refused) when (refused.StatusCode == StatusCodes.Status413PayloadTooLarge)
        {
            return Problems.Of(refused.StatusCode, "Too large", "The files are larger than 60 MB together.");
        }
        catch (Exception refused) when (refused is BadHttpRequestException or InvalidDataException)
        {
            return Problems.Of(StatusCodes.Status400BadRequest, "Cut off", "The form was cut off on its way.");
        }

        var files = await Forms.Files(form.Files, context.RequestAborted);
        var accept = form["accept"]
            .SelectMany(a => (a ?? "").Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))
            .ToArray();
        var answer = await Task.Run(
            () =>
                new PutInOrder(workshop).Run(ProgramDoor.Program(context), key, files, accept, context.RequestAborted),
            context.RequestAborted
        );
        return Answer(context, answer);
    }

    private static IResult Answer(HttpContext context, PutInAnswer answer)
    {
        if (answer.OrderJson is { } order)
        {
            context.Response.Headers.Location = $"{ProgramDoor.Path}/orders/{Say.Step(answer.OrderName!)}";
            return Results.Text(order, Json, statusCode: StatusCodes.Status201Created);
        }

        var (status, title) = answer.How switch
        {
            PutIn.OnItsWay => (StatusCodes.Status409Conflict, "On its way"),
            PutIn.StillMaking => (StatusCodes.Status409Conflict, "Being answered"),
            PutIn.Busy => (StatusCodes.Status503ServiceUnavailable, "Busy"),
            PutIn.KeyOfAnother => (StatusCodes.Status422UnprocessableEntity, "Key of another order"),
            _ => (StatusCodes.Status422UnprocessableEntity, "Not an order"),
        };
        if (answer.How is PutIn.StillMaking or PutIn.Busy)
        {
            context.Response.Headers.RetryAfter = answer.How == PutIn.Busy ? "60" : "5";
        }

        return Problems.Of(status, title, answer.Fault!);
    }

    // A string of structured fields (RFC 9651, 3.3.3) as the draft on idempotency keys has it, or bare.
    private static string? Key(HttpRequest request)
    {
        if (request.Headers["Idempotency-Key"] is not [{ } said])
        {
            return null;
        }

        var key = said is ['"', .., '"'] && said.Length > 1 ? said[1..^1] : said;
        return key.Length is > 0 and <= PutInOrder.LongestKey && key.All(c => c is >= ' ' and <= '~') ? key : null;
    }

    private static IResult Missing(string words) => Problems.Of(StatusCodes.Status404NotFound, "Not here", words);
}
