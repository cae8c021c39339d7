using System.Globalization;
using System.Text.Json;
using Coldpeel.Desk;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Desk.Rooms;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press.Bench;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;

namespace Coldpeel.Web.Press.Bench;

/// <summary>The bench: choosing a day, the screen at the press, the taps, and the news that keep screens in step.</summary>
internal static class BenchRoutes
{
    // A screen that hears nothing for this long knows that the network is gone.
    private static readonly TimeSpan Heartbeat = TimeSpan.FromSeconds(5);

    private const int MostTaps = 500;

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet(
            "/bench",
            (HttpContext context, IAntiforgery forms, OpenedWorkshop workshop) => List(context, forms, workshop, null)
        );
        app.MapPost("/bench", Start);
        app.MapPost("/bench/approved", Approve);
        app.MapGet("/bench/clock", Clock);
        app.MapGet("/bench/worker.js", Worker);
        app.MapGet("/bench/{day:int}/more", More);
        app.MapGet("/bench/{day:int}", Day);
        app.MapGet("/bench/{day:int}/day", Told);
        app.MapGet("/bench/{day:int}/news", News);
        app.MapGet("/bench/{day:int}/times.csv", Times);
        app.MapPost("/bench/{day:int}/taps", Taps);
        app.MapPost("/bench/{day:int}/close", Close);
    }

    private static RazorComponentResult List(
        HttpContext context,
        IAntiforgery forms,
        OpenedWorkshop workshop,
        string? fault,
        string? heading = null
    )
    {
        var tokens = forms.GetAndStoreTokens(context);
        var bench = new OpenBench(workshop);
        return Pages.Of<BenchListPage>(
            new
            {
                Days = (IReadOnlyList<BenchLine>)bench.Last(),
                Orders = (IReadOnlyList<KeptLine>)bench.ToStart(),
                Waiting = (IReadOnlyList<KeptLine>)new ListJobs(workshop).ToApprove(),
                IsOwner = Visitor.Of(context).Role == Role.Owner,
                Fault = fault,
                Heading = heading ?? PressWords.NotStarted,
                Token = tokens.RequestToken ?? "",
                TokenField = tokens.FormFieldName,
            },
            fault is not null
        );
    }

    private static async Task<IResult> Start(HttpContext context, IAntiforgery forms, OpenedWorkshop workshop)
    {
        if (await Forms.Read(context, forms) is not { } form)
        {
            return List(context, forms, workshop, Forms.Stale);
        }

        string[] orders = [.. form["order"].OfType<string>()];
        var started = await Task.Run(() => new StartBench(workshop).Run(orders, context.RequestAborted));
        return started.Ok
            ? Results.Redirect(string.Create(CultureInfo.InvariantCulture, $"/bench/{started.Value.Day}"))
            : List(context, forms, workshop, Say.Fault(started.Fault));
    }

    // One tap for an owner who knows that the customer has said yes; who said it is the customer of the order.
    private static async Task<IResult> Approve(HttpContext context, IAntiforgery forms, OpenedWorkshop workshop)
    {
        if (await Forms.Read(context, forms) is not { } form)
        {
            return List(context, forms, workshop, Forms.Stale);
        }

        var (visitor, name) = (Visitor.Of(context), form["order"].ToString());
        // Nobody approves here what was changed since the list was read.
        var kept = new OpenKeptJob(workshop).Run(name);
        if (kept is not null && form["made"] != $"{kept.Line.MadeAt.ToUnixTimeMilliseconds()}")
        {
            var changed = Say.With(PressWords.ChangedMeanwhile, name);
            return List(context, forms, workshop, changed, PressWords.NotApproved);
        }

        // A finger that taps twice, or two people who know the same: it is approved, as they said.
        if (kept is { SoFar.Stage: OrderStage.Approved or OrderStage.Printed })
        {
            return Results.Redirect("/bench");
        }

        var word = new CustomerWord(kept?.Line.Customer ?? "", CustomerWord.AtBench, false, "");
        return new StepOrder(workshop).Approve(name, word, null, visitor.Name, kept?.SoFar.Steps.Length) is { } fault
            ? List(context, forms, workshop, Say.Fault(fault), PressWords.NotApproved)
            : Results.Redirect("/bench");
    }

    private static IResult Clock(OpenedWorkshop workshop, HttpContext context)
    {
        context.Response.Headers.CacheControl = "no-store";
        return Results.Json(new { nowMs = workshop.Now.ToUnixTimeMilliseconds() }, BenchWire.Form);
    }

    // It answers for pages below its own address, and for no others.
    private static IResult Worker(HttpContext context) => AssetRoutes.Worker(context, "worker.js");

    private static IResult More(int day, OpenedWorkshop workshop, HttpContext context)
    {
        context.Response.Headers.CacheControl = "no-store";
        return new OpenBench(workshop).ToAdd(day) is { } orders
            ? Results.Json(
                orders.Select(o => new
                {
                    o.Name,
                    o.Customer,
                    Due = Say.Day(o.Due),
                    Sheets = BenchListPage.ToPrint(o),
                }),
                BenchWire.Form
            )
            : Results.NotFound();
    }

    private static RazorComponentResult Day(int day, HttpContext context, IAntiforgery forms, OpenedWorkshop workshop)
    {
        if (new OpenBench(workshop).Run(day) is not { } open)
        {
            return Pages.Missing(PressWords.NoSuchDay);
        }

        var tokens = forms.GetAndStoreTokens(context);
        return Pages.Of<BenchPage>(
            new
            {
                Day = open,
                Token = tokens.RequestToken ?? "",
                TokenField = tokens.FormFieldName,
            }
        );
    }

    private static IResult Told(int day, OpenedWorkshop workshop, HttpContext context)
    {
        context.Response.Headers.CacheControl = "no-store";
        return new OpenBench(workshop).Run(day) is { } open
            ? Results.Json(ToldDay.Of(open, workshop.BroughtBack), BenchWire.Form)
            : Results.NotFound();
    }

    private static async Task<IResult> Taps(int day, HttpContext context, OpenedWorkshop workshop)
    {
        if (!Guards.IsOwnPage(context.Request))
        {
            return Results.StatusCode(StatusCodes.Status403Forbidden);
        }

        if (!context.Request.HasJsonContentType())
        {
            return Results.StatusCode(StatusCodes.Status415UnsupportedMediaType);
        }

        SentTap[]? sent;
        try
        {
            sent = await context.Request.ReadFromJsonAsync<SentTap[]>(BenchWire.Form, context.RequestAborted);
        }
        catch (Exception wrong) when (wrong is JsonException or BadHttpRequestException)
        {
            return Results.BadRequest();
        }

        if (sent is null || sent.Length > MostTaps || !sent.All(s => s is { Sound: true }))
        {
            return Results.BadRequest();
        }

        var tap = new TapBench(workshop);
        var who = Visitor.Of(context).Name;
        var taken = new List<ToldTap>();
        foreach (var one in sent)
        {
            var said = new BenchTap(one.Key, one.Saying, one.About, one.Seconds);
            var at = DateTimeOffset.FromUnixTimeMilliseconds(one.AtMs);
            var answer = said.PlansAgain
                ? await Task.Run(() => tap.Run(day, said, at, who), context.RequestAborted)
                : tap.Run(day, said, at, who);
            if (answer is null)
            {
                return Results.NotFound();
            }

            taken.Add(
                new(
                    answer.Key,
                    answer.Event is { } e ? ToldEvent.Of(e) : null,
                    answer.Refusal is { } r ? Say.Sentence(r) : null
                )
            );
        }

        return Results.Json(taken, BenchWire.Form);
    }

    // Server-sent events (HTML Living Standard, 9.2): a screen that was away asks for what came after the last it has.
    private static async Task News(int day, HttpContext context, OpenedWorkshop workshop)
    {
        var open = new OpenBench(workshop);
        if (open.Run(day) is not { } first)
        {
            context.Response.StatusCode = StatusCodes.Status404NotFound;
            return;
        }

        context.Response.ContentType = "text/event-stream";
        context.Response.Headers.CacheControl = "no-store";
        context.Features.Get<IHttpResponseBodyFeature>()?.DisableBuffering();
        _ = long.TryParse(
            context.Request.Headers["Last-Event-ID"].FirstOrDefault() ?? context.Request.Query["after"],
            CultureInfo.InvariantCulture,
            out var after
        );
        var stop = context.RequestAborted;
        using var screen = workshop.Bench.Look(day);
        try
        {
            // A device that is thrown out, or a network that is turned off, hears no more.
            while (!stop.IsCancellationRequested && Gate.IsStillIn(context, workshop))
            {
                var events = open.Events(day, after);
                after = events.IsEmpty ? after : events[^1].Number;
                var news = new ToldNews(
                    [.. events.Select(ToldEvent.Of)],
                    open.IsClosed(day),
                    workshop.Now.ToUnixTimeMilliseconds(),
                    workshop.BroughtBack
                );
                await context.Response.WriteAsync(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"id: {after}\ndata: {JsonSerializer.Serialize(news, BenchWire.Form)}\n\n"
                    ),
                    stop
                );
                await context.Response.Body.FlushAsync(stop);
                await screen.Wait(Heartbeat, stop);
            }
        }
        catch (OperationCanceledException)
        {
            // The screen was closed.
        }
    }

    private static IResult Times(int day, OpenedWorkshop workshop) =>
        new OpenBench(workshop).TimesTable(day) is { } table
            ? Results.Bytes(table, "text/csv; charset=utf-8", $"bench-{day}-times.csv")
            : Results.NotFound();

    private static async Task<IResult> Close(int day, HttpContext context, IAntiforgery forms, OpenedWorkshop workshop)
    {
        if (await Forms.Read(context, forms) is not { } form)
        {
            return List(context, forms, workshop, Forms.Stale);
        }

        // A finger that slips closes no day on which work is left.
        var open = new OpenBench(workshop);
        if (form["open"] != "again" && form["sure"] != "yes" && open.Left(day) is { Any: true } left)
        {
            var tokens = forms.GetAndStoreTokens(context);
            return Pages.Of<CloseDayPage>(
                new
                {
                    Day = open.Line(day),
                    Left = left,
                    Token = tokens.RequestToken ?? "",
                    TokenField = tokens.FormFieldName,
                }
            );
        }

        if (new TapBench(workshop).Close(day, form["open"] != "again") is { } fault)
        {
            return List(context, forms, workshop, Say.Fault(fault));
        }

        return Results.Redirect(form["open"] == "again" ? $"/bench/{day}" : "/bench");
    }
}
