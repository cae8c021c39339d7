using Coldpeel.Desk;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Desk.Rooms;
using Coldpeel.Desk.Shelf;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;
using Coldpeel.Workshop.Findings;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace Coldpeel.Web.Orders;

/// <summary>The orders: the list, one of them, its files, and the way to bring a new one.</summary>
internal static class OrderRoutes
{
    /// <summary>Most that may be handed in at once.</summary>
    public const long MostBytes = 60_000_000;

    private const int MostChanges = 200;

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/", Today);
        app.MapGet("/orders", (HttpContext context) => List(context, null, "", StatusCodes.Status200OK));
        StepRoutes.Map(app);
        app.MapPost("/orders", Make);
        app.MapGet("/orders/{name}", Order);
        app.MapGet("/orders/{name}/files/{file}", File);
        OrderShelfRoutes.Map(app);
        app.MapGet("/orders/{name}/proofs/{hash}", Proof);
    }

    private static RazorComponentResult Today(HttpContext context, IAntiforgery forms, OpenedWorkshop workshop)
    {
        // Only the owner answers for the workshop.
        var answers = new KeepAnswers(workshop);
        var asks = Visitor.Of(context).Role == Role.Owner && answers.IsOpen && !workshop.IsBeingFilled;
        var tokens = asks ? forms.GetAndStoreTokens(context) : null;
        return Pages.Of<TodayPage>(
            new
            {
                Day = new LookAtToday(workshop).Run(),
                Ask = asks ? answers.Now() : null,
                Filling = workshop.IsBeingFilled,
                Invented = Visitor.Of(context).Role == Role.Owner && !asks ? answers.InventedName : null,
                Token = tokens?.RequestToken ?? "",
                TokenField = tokens?.FormFieldName ?? "",
            }
        );
    }

    private static RazorComponentResult List(
        HttpContext context,
        string? fault,
        string accept,
        int status,
        bool asksPast = false
    )
    {
        var tokens = context.RequestServices.GetRequiredService<IAntiforgery>().GetAndStoreTokens(context);
        var query = context.Request.Query;
        var (words, all) = (Short(query["q"].ToString()), query["all"] == "yes");
        var (lines, next) = new ListJobs(Workshop(context)).Page(words, all, query["after"]);
        return Pages.Of<OrdersPage>(
            new
            {
                Lines = (IReadOnlyList<KeptLine>)lines,
                Next = next,
                Words = words,
                All = all,
                Fault = fault,
                Accept = accept,
                AsksPast = asksPast,
                Token = tokens.RequestToken ?? "",
                TokenField = tokens.FormFieldName,
            },
            status
        );
    }

    private static RazorComponentResult Order(string name, OpenedWorkshop workshop, HttpContext context) =>
        Show(Pages.Name(name), workshop, context, null);

    private static string Short(string words) => words.Length > 100 ? words[..100] : words;

    internal static RazorComponentResult Show(
        string name,
        OpenedWorkshop workshop,
        HttpContext context,
        string? fault,
        IFormCollection? typed = null
    )
    {
        var tokens = context.RequestServices.GetRequiredService<IAntiforgery>().GetAndStoreTokens(context);
        return new OpenKeptJob(workshop).Run(name) is { } order
            ? Pages.Of<OrderPage>(
                new
                {
                    Order = order,
                    Shelf = new OrderOnShelf(workshop).Run(order),
                    History = (IReadOnlyList<PastChange>)
                        new LookBack(workshop).Newest("order", name, null, MostChanges),
                    Fault = fault,
                    Typed = typed,
                    AtBench = AskBench.MayHold(order.SoFar.Stage) ? new AskBench(workshop).Of(name) : null,
                    Earlier = new PutBackVersion(workshop).Before(name),
                    Version = OrderVersion.All(workshop, name)[^1],
                    IsOwner = Visitor.Of(context).Role == Role.Owner,
                    Token = tokens.RequestToken ?? "",
                    TokenField = tokens.FormFieldName,
                },
                fault is not null
            )
            : Pages.Missing(Say.With(OrderWords.NoSuchOrder, name));
    }

    private static IResult File(string name, string file, OpenedWorkshop workshop, HttpContext context)
    {
        return Send(new FetchFile(workshop).Run(Pages.Name(name), Pages.Name(file)), name, file, context);
    }

    private static IResult Proof(string name, string hash, OpenedWorkshop workshop, HttpContext context) =>
        Send(new FetchFile(workshop).Proof(Pages.Name(name), hash), name, hash, context);

    private static IResult Send(FetchedFile? fetched, string name, string file, HttpContext context)
    {
        if (fetched is null)
        {
            return Pages.Missing(Say.With(OrderWords.NoSuchFile, Pages.Name(name), Pages.Name(file)));
        }

        // A browser's own viewer for PDF needs its own style and objects; the file itself is ours and holds no script.
        context.Response.Headers.ContentSecurityPolicy =
            "default-src 'none'; object-src 'self'; style-src 'unsafe-inline'; img-src 'self' data:; frame-ancestors 'none'";
        context.Response.Headers.CacheControl = "no-cache";
        context.Response.Headers.ContentDisposition = new System.Net.Mime.ContentDisposition
        {
            Inline = fetched.ContentType != "application/octet-stream",
            FileName = fetched.Name.Replace('/', '-'),
        }.ToString();
        return Results.Bytes(fetched.Content, fetched.ContentType);
    }

    private static async Task<IResult> Make(HttpContext context, IAntiforgery antiforgery)
    {
        if (!context.Request.HasFormContentType)
        {
            return List(context, OrderWords.WithoutFiles, "", StatusCodes.Status400BadRequest);
        }

        IFormCollection form;
        try
        {
            form = await context.Request.ReadFormAsync(context.RequestAborted);
            await antiforgery.ValidateRequestAsync(context);
        }
        catch (BadHttpRequestException refused) when (refused.StatusCode == StatusCodes.Status413PayloadTooLarge)
        {
            return List(context, OrderWords.TooLarge, "", refused.StatusCode);
        }
        catch (Exception refused) when (refused is BadHttpRequestException or InvalidDataException)
        {
            return List(context, OrderWords.CutOff, "", StatusCodes.Status400BadRequest);
        }
        catch (AntiforgeryValidationException)
        {
            return List(context, OrderWords.StaleFiles, "", StatusCodes.Status400BadRequest);
        }

        var accept = form["accept"].ToString();
        var files = await Forms.Files(form.Files, context.RequestAborted);
        if (form["past"] != "yes" && new AskDue(Workshop(context)).Of(files) is { } past)
        {
            return List(context, Say.Fault(past), accept, StatusCodes.Status400BadRequest, asksPast: true);
        }

        var made = await Run(Workshop(context), files, accept, Visitor.Of(context).Name, context.RequestAborted);
        return made.Ok
            ? Results.Redirect($"/orders/{Say.Step(made.Value.Job.Name)}")
            : List(context, Say.Fault(made.Fault), accept, StatusCodes.Status400BadRequest);
    }

    private static async Task<Outcome<MadeJob>> Run(
        OpenedWorkshop workshop,
        IReadOnlyList<HandedFile> files,
        string accept,
        string who,
        CancellationToken stop
    )
    {
        var accepted = accept.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        return await Task.Run(
            () => new MakeFromFolder(workshop).Run(files, accepted, MakeFromFolder.PatientSeconds, null, stop, who),
            stop
        );
    }

    private static OpenedWorkshop Workshop(HttpContext context) =>
        context.RequestServices.GetRequiredService<OpenedWorkshop>();
}
