using System.Net;
using System.Text.RegularExpressions;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Desk.Rooms;
using Coldpeel.Web.Layout;
using Coldpeel.Workshop.Orders;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>A device that was let in as helper does what its owner was told it may, and nothing else.</summary>
public sealed partial class RightsTests : DoorOfNetwork
{
    private const string OwnerDecides = "is for the owner to decide";

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    // Other programs have a door and a description of their own.
    private string[] Routes() =>
        [
            .. ((IEndpointRouteBuilder)App)
                .DataSources.SelectMany(s => s.Endpoints)
                .OfType<RouteEndpoint>()
                .Where(e =>
                    e.Metadata.GetMetadata<IHttpMethodMetadata>() is not { HttpMethods: { Count: > 0 } methods }
                    || methods.Any(m => !HttpMethods.IsGet(m) && !HttpMethods.IsHead(m))
                )
                .Select(e => e.RoutePattern.RawText!)
                .Where(r => !r.StartsWith("/api/", StringComparison.Ordinal)),
        ];

    private static bool IsInRoom(string route) => route.StartsWith("/workshop/", StringComparison.Ordinal);

    [Fact]
    public void Every_route_that_takes_something_is_a_helpers_or_an_owners()
    {
        var routes = Routes();
        Assert.True(routes.Length > 40, $"{routes.Length}");
        Assert.Empty(
            routes
                .Where(r => !IsInRoom(r))
                .Where(r => Rights.Helpers.Contains(r) == Rights.Owners.Contains(r))
                .Select(r => $"{r}: put it into one of both groups of Rights")
        );
        Assert.Empty(Rights.Helpers.Concat(Rights.Owners).Except(routes));
    }

    [Fact]
    public async Task A_helper_is_told_whose_it_is_whatever_of_the_owners_is_sent()
    {
        await TurnOn();
        SmallDay();
        await Join(new Devices(Workshop).NewCode(Role.Helper).Code);
        var wrong = new List<string>();
        foreach (var route in Routes().Where(r => r != "/join"))
        {
            var answer = await Send(
                Numbered().Replace(route, "1").Replace("{design}", "mark").Replace("{name}", "AR-90"),
                []
            );
            var refused = (await answer.Content.ReadAsStringAsync(Stop)).Contains(
                OwnerDecides,
                StringComparison.Ordinal
            );
            if (refused != (IsInRoom(route) || Rights.Owners.Contains(route)))
            {
                wrong.Add($"{route}: {answer.StatusCode}");
            }

            Assert.True(!refused || answer.StatusCode == HttpStatusCode.Forbidden, route);
            Assert.True((int)answer.StatusCode < 500, $"{route}: {answer.StatusCode}");
        }

        Assert.Empty(wrong);
        // An owner's device is let through to the same forms.
        await Join(new Devices(Workshop).NewCode(Role.Owner).Code);
        Assert.NotEqual(HttpStatusCode.Forbidden, (await Send("/orders/new", [])).StatusCode);
    }

    [Fact]
    public async Task A_helper_takes_the_steps_of_the_work_and_takes_back_no_approval()
    {
        await TurnOn();
        SmallDay();
        await Join(new Devices(Workshop).NewCode(Role.Helper).Code);
        (OrderStep Step, HttpStatusCode Status, OrderStage Stands)[] way =
        [
            (OrderStep.SetAside, HttpStatusCode.Forbidden, OrderStage.Approved),
            (OrderStep.TakeBack, HttpStatusCode.Forbidden, OrderStage.Approved),
            (OrderStep.Print, HttpStatusCode.Redirect, OrderStage.Printed),
            (OrderStep.TakeBack, HttpStatusCode.Redirect, OrderStage.Approved),
            // What stood before the step that was taken back is the approval again.
            (OrderStep.TakeBack, HttpStatusCode.Forbidden, OrderStage.Approved),
            (OrderStep.Print, HttpStatusCode.Redirect, OrderStage.Printed),
            (OrderStep.Press, HttpStatusCode.Redirect, OrderStage.Pressed),
            (OrderStep.Inspect, HttpStatusCode.Redirect, OrderStage.Inspected),
            (OrderStep.SetAside, HttpStatusCode.Forbidden, OrderStage.Inspected),
            (OrderStep.HandOver, HttpStatusCode.Redirect, OrderStage.HandedOver),
        ];
        foreach (var (step, status, stands) in way)
        {
            var answer = await Send("/orders/AR-90/steps", [("step", $"{step}"), ("sure", "yes"), ("receiver", "Ada")]);
            Assert.True(
                status == answer.StatusCode,
                $"{step} at {stands}: {answer.StatusCode} {await answer.Content.ReadAsStringAsync(Stop)}"
            );
            Assert.Equal(stands, new StepOrder(Workshop).SoFar("AR-90", stopped: false).Stage);
        }
    }

    [Fact]
    public async Task A_helpers_pages_show_no_button_that_would_be_refused()
    {
        await TurnOn();
        var day = SmallDay();
        string[] pages =
        [
            "/",
            "/orders",
            "/orders/AR-90",
            "/orders/AR-90/artwork",
            "/bench",
            $"/bench/{day}",
            "/shelf",
        ];
        var (owners, helpers) = (new List<string>(), new List<string>());
        await Join(new Devices(Workshop).NewCode(Role.Owner).Code);
        foreach (var page in pages)
        {
            owners.Add(await Device.GetStringAsync(page, Stop));
        }

        await Join(new Devices(Workshop).NewCode(Role.Helper).Code);
        foreach (var page in pages)
        {
            helpers.Add(await Device.GetStringAsync(page, Stop));
        }

        foreach (
            var owned in new[]
            {
                "href=\"/workshop\"",
                "value=\"SetAside\"",
                "href=\"/orders/AR-90/change\"",
                "href=\"/orders/new\"",
                "action=\"/orders\" enctype",
                "action=\"/shelf\" class=\"grid\"",
                "action=\"/shelf/spares\"",
            }
        )
        {
            Assert.Contains(owners, p => p.Contains(owned, StringComparison.Ordinal));
            Assert.DoesNotContain(helpers, p => p.Contains(owned, StringComparison.Ordinal));
        }

        Assert.Contains("value=\"Print\"", helpers[2], StringComparison.Ordinal);
        // A page that is a form and nothing else is told before it is filled in.
        foreach (var form in new[] { "/orders/new", "/orders/AR-90/change" })
        {
            Assert.Equal(HttpStatusCode.Forbidden, (await Device.GetAsync(form, Stop)).StatusCode);
        }
    }

    [Fact]
    public async Task A_helper_begins_and_closes_a_day_and_counts_the_shelf()
    {
        await TurnOn();
        var day = SmallDay();
        Assert.Null(
            new Coldpeel.Desk.Shelf.TendShelf(Workshop).Put(
                new(Coldpeel.Workshop.Shelf.StockKind.Other, "pads", "B1", "pieces", 3, 0, null),
                "key-of-the-pads",
                "desk"
            )
        );
        await Join(new Devices(Workshop).NewCode(Role.Helper).Code);
        Assert.Equal(HttpStatusCode.Redirect, (await Send($"/bench/{day}/close", [("sure", "yes")])).StatusCode);
        var begun = await Send("/bench", [("order", "AR-90")]);
        Assert.Equal($"/bench/{day + 1}", begun.Headers.Location!.ToString());
        Assert.False(new OpenBench(Workshop).IsClosed(day + 1));
        var counted = await Send("/shelf/1", [("way", "count"), ("counted", "5"), ("key", "a key of a helper")]);
        Assert.Equal(HttpStatusCode.Redirect, counted.StatusCode);
        Assert.Equal(5, Assert.Single(new Coldpeel.Desk.Shelf.TendShelf(Workshop).Page("", 0).Lines).Thing.Count);
    }

    // As a form of the bench page is sent by its browser.
    private async Task<HttpResponseMessage> Send(string to, (string Name, string Value)[] fields)
    {
        var page = await Device.GetStringAsync("/orders/AR-90", Stop);
        using var sent = new HttpRequestMessage(HttpMethod.Post, to)
        {
            Content = new FormUrlEncodedContent([
                new("__RequestVerificationToken", WebUtility.HtmlDecode(Token().Match(page).Groups[1].Value)),
                .. fields.Select(f => KeyValuePair.Create(f.Name, f.Value)),
            ]),
        };
        sent.Headers.Add("Origin", $"https://{Own}:{Port}");
        return await Device.SendAsync(sent, Stop);
    }

    [GeneratedRegex(@"\{\w+:(int|long)\}")]
    private static partial Regex Numbered();
}
