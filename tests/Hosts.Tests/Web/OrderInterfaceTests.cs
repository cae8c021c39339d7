using System.Collections.Immutable;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Rooms;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>Another program puts in orders and reads how they stand.</summary>
public sealed class OrderInterfaceTests(OtherPrograms app) : IClassFixture<OtherPrograms>
{
    [Fact]
    public async Task An_order_is_put_in_once_and_the_same_key_is_answered_the_same()
    {
        var first = await OtherPrograms.PutIn(app.Shop, "cart 1", "Shop 1/a");
        var body = await first.Content.ReadAsStringAsync();
        Assert.True(first.StatusCode == HttpStatusCode.Created, body);
        Assert.Equal("/api/v1/orders/Shop%201%2Fa", first.Headers.Location!.ToString());

        // A draft of the IETF has the key as a quoted string: the same key.
        var again = await OtherPrograms.PutIn(app.Shop, "\"cart 1\"", "Shop 1/a");
        Assert.Equal(HttpStatusCode.Created, again.StatusCode);
        Assert.Equal(body, await again.Content.ReadAsStringAsync());
        Assert.Single(Changes("Shop 1/a"));

        var order = await app.Shop.GetFromJsonAsync<JsonElement>(first.Headers.Location);
        Assert.Equal("Shop 1/a", order.GetProperty("name").GetString());
        Assert.Equal("made", order.GetProperty("stage").GetString());
        Assert.Equal(1, order.GetProperty("figures").GetProperty("sheets").GetInt32());
        Assert.Equal(2, order.GetProperty("figures").GetProperty("pieces").GetInt32());
        var pdf = await app.Shop.GetByteArrayAsync("/api/v1/orders/Shop%201%2Fa/files/sheets.pdf");
        Assert.Equal("%PDF"u8, pdf.AsSpan(0, 4));
    }

    [Fact]
    public async Task A_key_that_came_with_other_files_is_refused()
    {
        Assert.Equal(HttpStatusCode.Created, (await OtherPrograms.PutIn(app.Shop, "cart 2", "Shop 2")).StatusCode);
        var other = await OtherPrograms.PutIn(app.Shop, "cart 2", "Shop 2", "cotton-jersey");
        await IsProblem(other, HttpStatusCode.UnprocessableEntity, "a key of its own");
        // Another program may use the same word.
        using var till = app.Client(new Devices(app.Workshop).AddProgram("till", "Mira"));
        Assert.Equal(
            HttpStatusCode.Created,
            (await OtherPrograms.PutIn(till, "cart 2", "Shop 2b", "cotton-jersey")).StatusCode
        );
    }

    [Fact]
    public async Task The_same_key_sent_twice_at_once_makes_one_order()
    {
        var both = await Task.WhenAll(
            OtherPrograms.PutIn(app.Shop, "cart 3", "Shop 3"),
            OtherPrograms.PutIn(app.Shop, "cart 3", "Shop 3")
        );
        Assert.Contains(both, a => a.StatusCode == HttpStatusCode.Created);
        Assert.All(
            both,
            a => Assert.True(a.StatusCode is HttpStatusCode.Created or HttpStatusCode.Conflict, $"{a.StatusCode}")
        );
        Assert.Single(Changes("Shop 3"));
    }

    [Fact]
    public async Task What_cannot_be_pressed_is_kept_as_stopped_and_says_why()
    {
        var put = await OtherPrograms.PutIn(app.Shop, "cart 4", "Shop 4", "unknown");
        var order = await put.Content.ReadFromJsonAsync<JsonElement>();
        Assert.Equal(HttpStatusCode.Created, put.StatusCode);
        Assert.Equal("stopped", order.GetProperty("state").GetString());
        Assert.False(order.TryGetProperty("figures", out _));
        Assert.Contains(
            order.GetProperty("findings").EnumerateArray(),
            f => f.GetProperty("severity").GetString() == "stop" && f.GetProperty("say").GetString()!.Length > 20
        );
    }

    [Fact]
    public async Task An_approved_order_is_not_changed_by_another_program()
    {
        Assert.Equal(HttpStatusCode.Created, (await OtherPrograms.PutIn(app.Shop, "cart 5", "Shop 5")).StatusCode);
        Assert.Null(new StepOrder(app.Workshop).Run("Shop 5", OrderStep.Approve, "by letter", "Mira"));
        var again = await OtherPrograms.PutIn(app.Shop, "cart 5, better", "Shop 5", "cotton-jersey");
        await IsProblem(again, HttpStatusCode.Conflict, "approved already");
        Assert.Equal(2, Changes("Shop 5").Length);

        var order = await app.Shop.GetFromJsonAsync<JsonElement>("/api/v1/orders/Shop%205");
        Assert.Equal("approved", order.GetProperty("stage").GetString());
        var step = Assert.Single(order.GetProperty("steps").EnumerateArray());
        Assert.Equal(
            ("approve", "Mira", "by letter"),
            (
                step.GetProperty("step").GetString(),
                step.GetProperty("who").GetString(),
                step.GetProperty("note").GetString()
            )
        );
    }

    [Fact]
    public async Task The_orders_come_fifty_at_a_time_and_by_words()
    {
        Assert.Equal(HttpStatusCode.Created, (await OtherPrograms.PutIn(app.Shop, "cart 6", "Shop Ærø")).StatusCode);
        var found = await app.Shop.GetFromJsonAsync<JsonElement>("/api/v1/orders?q=%C3%A6r%C3%B8");
        Assert.Equal(
            "Shop Ærø",
            Assert.Single(found.GetProperty("orders").EnumerateArray()).GetProperty("name").GetString()
        );
        Assert.False(found.TryGetProperty("next", out _));
    }

    [Fact]
    public async Task Nobody_comes_in_without_a_key_not_even_from_this_computer()
    {
        await IsProblem(await app.Stranger.GetAsync("/api/v1/orders"), HttpStatusCode.Unauthorized, "Bearer KEY");
        Assert.Equal("Bearer", (await app.Stranger.GetAsync("/api/v1/orders")).Headers.WwwAuthenticate.Single().Scheme);
        await IsProblem(
            await OtherPrograms.PutIn(app.Stranger, "cart 7", "Shop 7"),
            HttpStatusCode.Unauthorized,
            "Bearer KEY"
        );
        using var guessed = app.Client(new string('0', 64));
        await IsProblem(await guessed.GetAsync("/api/v1/orders"), HttpStatusCode.Unauthorized, "Bearer KEY");
        Assert.Equal(HttpStatusCode.OK, (await app.Stranger.GetAsync("/api/v1/openapi.json")).StatusCode);
        await IsProblem(await app.Shop.GetAsync("/api/v1/nothing"), HttpStatusCode.NotFound, "openapi.json");
    }

    [Fact]
    public async Task A_key_that_was_thrown_out_is_answered_no_more_and_opens_no_page()
    {
        var devices = new Devices(app.Workshop);
        var key = devices.AddProgram("old till", "Mira");
        Assert.Null(devices.Known(key));
        using var till = app.Client(key);
        Assert.Equal(HttpStatusCode.OK, (await till.GetAsync("/api/v1/orders")).StatusCode);
        Assert.True(devices.ThrowOut(devices.All().First(d => d.Name == "old till").Id, "Mira"));
        await IsProblem(await till.GetAsync("/api/v1/orders"), HttpStatusCode.Unauthorized, "not thrown out");
        // The secret of a tablet is no key.
        var tablet = devices.Join(devices.NewCode(Role.Owner).Code, "tablet")!;
        Assert.NotNull(devices.Known(tablet));
        using var asProgram = app.Client(tablet);
        Assert.Equal(HttpStatusCode.Unauthorized, (await asProgram.GetAsync("/api/v1/orders")).StatusCode);
    }

    [Fact]
    public async Task What_is_no_order_is_refused_in_one_sentence_and_leaves_nothing()
    {
        await IsProblem(
            await OtherPrograms.PutIn(app.Shop, null, "Shop 8"),
            HttpStatusCode.BadRequest,
            "Idempotency-Key"
        );
        await IsProblem(
            await OtherPrograms.PutIn(app.Shop, new string('x', 201), "Shop 8"),
            HttpStatusCode.BadRequest,
            "Idempotency-Key"
        );
        await IsProblem(
            await OtherPrograms.PutIn(app.Shop, "cart 8", ("job.json", "{")),
            HttpStatusCode.UnprocessableEntity,
            "job.json"
        );
        await IsProblem(
            await OtherPrograms.PutIn(app.Shop, "cart 8", ("cart/../job.json", "{}")),
            HttpStatusCode.UnprocessableEntity,
            "no name for a file"
        );
        using var json = new HttpRequestMessage(HttpMethod.Post, "/api/v1/orders")
        {
            Content = new StringContent("{}", new MediaTypeHeaderValue("application/json")),
        };
        json.Headers.Add("Idempotency-Key", "cart 8");
        await IsProblem(await app.Shop.SendAsync(json), HttpStatusCode.UnsupportedMediaType, "multipart/form-data");
        using var cut = new HttpRequestMessage(HttpMethod.Post, "/api/v1/orders")
        {
            Content = new StringContent("--x\r\nno end", new MediaTypeHeaderValue("multipart/form-data")),
        };
        cut.Content.Headers.ContentType!.Parameters.Add(new("boundary", "x"));
        cut.Headers.Add("Idempotency-Key", "cart 8");
        await IsProblem(await app.Shop.SendAsync(cut), HttpStatusCode.BadRequest, "cut off");
        Assert.Empty(Changes("Shop 8"));
        // A refused try does not use the key up.
        Assert.Equal(HttpStatusCode.Created, (await OtherPrograms.PutIn(app.Shop, "cart 8", "Shop 8")).StatusCode);
    }

    private ImmutableArray<PastChange> Changes(string order) =>
        new LookBack(app.Workshop).Page("order", order, null).Changes;

    private static async Task IsProblem(HttpResponseMessage answer, HttpStatusCode status, string words)
    {
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.StatusCode == status, $"{answer.StatusCode}: {text}");
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType!.MediaType);
        var problem = JsonSerializer.Deserialize<JsonElement>(text);
        Assert.Equal((int)status, problem.GetProperty("status").GetInt32());
        Assert.Contains(words, problem.GetProperty("detail").GetString(), StringComparison.Ordinal);
    }
}
