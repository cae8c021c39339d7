using System.Collections.Concurrent;
using System.Globalization;
using System.Net;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Rooms;
using Coldpeel.Workshop.Orders;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>Another program is told what happens to orders.</summary>
public sealed partial class WebHookTests(OtherPrograms app) : IClassFixture<OtherPrograms>, IAsyncLifetime
{
    private readonly ConcurrentQueue<Heard> _heard = new();
    private WebApplication? _listener;
    private string _address = "";
    private volatile int _answer = StatusCodes.Status204NoContent;

    private sealed record Heard(string Body, IReadOnlyDictionary<string, string> Headers);

    public async ValueTask InitializeAsync()
    {
        var builder = WebApplication.CreateEmptyBuilder(new());
        builder.WebHost.UseKestrelCore().UseUrls("http://127.0.0.1:0");
        _listener = builder.Build();
        _listener.Run(async context =>
        {
            using var reader = new StreamReader(context.Request.Body);
            _heard.Enqueue(
                new(
                    await reader.ReadToEndAsync(),
                    context.Request.Headers.ToDictionary(
                        h => h.Key,
                        h => h.Value.ToString(),
                        StringComparer.OrdinalIgnoreCase
                    )
                )
            );
            context.Response.StatusCode = _answer;
            context.Response.Headers.Location = "/elsewhere";
        });
        await _listener.StartAsync();
        var addresses = _listener.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!;
        _address = addresses.Addresses.First() + "/told?by=coldpeel";
    }

    public async ValueTask DisposeAsync()
    {
        foreach (var hook in new WebHooks(app.Workshop).All())
        {
            new WebHooks(app.Workshop).End(hook.Id, "Mira");
        }

        await _listener!.DisposeAsync();
    }

    [Fact]
    public async Task What_happens_is_told_in_order_signed_and_once()
    {
        Assert.Equal(HttpStatusCode.Created, (await OtherPrograms.PutIn(app.Shop, "hook 1", "Before")).StatusCode);
        var added = new WebHooks(app.Workshop).Add(_address, "Mira").Value!;
        Assert.Equal(HttpStatusCode.Created, (await OtherPrograms.PutIn(app.Shop, "hook 2", "Told")).StatusCode);
        Take("Told", OrderStep.Approve, "by letter");
        Take("Told", OrderStep.TakeBack, "");
        await Until(() => _heard.Count >= 3);

        var told = _heard.ToArray();
        Assert.Equal(["made", "approve", "take-back"], told.Select(t => Word(t, "what")));
        Assert.All(told, t => Assert.Equal("Told", Word(t, "name")));
        Assert.Equal("by letter", Word(told[1], "note"));
        Assert.All(told, t => IsSigned(t, added));
        foreach (var one in told)
        {
            await DescriptionTests.Fits(app.Stranger, "Event", one.Body);
        }

        Assert.Equal(told.Length, told.Select(t => Number(t)).Distinct().Count());
        Assert.Equal(told.Select(Number).Order(), told.Select(Number));
        await Until(() => new WebHooks(app.Workshop).All()[0].Answer.StartsWith("204", StringComparison.Ordinal));
    }

    [Fact]
    public async Task What_is_not_taken_is_told_again_after_a_while_and_nothing_is_left_out()
    {
        _answer = StatusCodes.Status503ServiceUnavailable;
        new WebHooks(app.Workshop).Add(_address, "Mira");
        Assert.Equal(HttpStatusCode.Created, (await OtherPrograms.PutIn(app.Shop, "hook 3", "Late")).StatusCode);
        Take("Late", OrderStep.Approve, "");
        await Until(() => new WebHooks(app.Workshop).All()[0].Missed == 1);
        _answer = StatusCodes.Status200OK;
        var missed = Assert.Single(_heard);
        app.Clock.MoveOn(TimeSpan.FromSeconds(31));
        await Until(() => _heard.Count == 3);
        Assert.Equal(["made", "made", "approve"], _heard.Select(t => Word(t, "what")));
        // The same message again: whoever took it before knows it by its number.
        Assert.Equal(Number(missed), Number(_heard.ElementAt(1)));
    }

    [Theory]
    [InlineData(StatusCodes.Status302Found, 1, false)]
    [InlineData(StatusCodes.Status410Gone, 0, true)]
    public async Task An_answer_that_leads_elsewhere_is_not_followed_and_gone_is_for_good(
        int answer,
        int misses,
        bool ended
    )
    {
        _answer = answer;
        new WebHooks(app.Workshop).Add(_address, "Mira");
        Assert.Equal(
            HttpStatusCode.Created,
            (await OtherPrograms.PutIn(app.Shop, $"hook {answer}", $"Gone {answer}")).StatusCode
        );
        await Until(() => new WebHooks(app.Workshop).All()[0] is { Missed: > 0 } or { Ended: not null });
        var hook = new WebHooks(app.Workshop).All()[0];
        Assert.Equal((misses, ended), (hook.Missed, hook.Ended is not null));
        Assert.Single(_heard);
    }

    private void Take(string order, OrderStep step, string note) =>
        Assert.Null(new StepOrder(app.Workshop).Run(order, step, note, "Mira"));

    private static string? Word(Heard told, string field) =>
        JsonSerializer.Deserialize<JsonElement>(told.Body).GetProperty(field).GetString();

    private static long Number(Heard told) =>
        JsonSerializer.Deserialize<JsonElement>(told.Body).GetProperty("event").GetInt64();

    // What the other side does, by the standards and not by our own code: RFC 9421, section 3.2, and RFC 9530.
    private void IsSigned(Heard told, AddedHook added)
    {
        var digest = Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(told.Body)));
        Assert.Equal($"sha-256=:{digest}:", told.Headers["Content-Digest"]);
        var input = Input().Match(told.Headers["Signature-Input"]);
        Assert.True(input.Success, told.Headers["Signature-Input"]);
        Assert.Equal(added.KeyId, input.Groups["key"].Value);
        var said = DateTimeOffset.FromUnixTimeSeconds(
            long.Parse(input.Groups["created"].ValueSpan, CultureInfo.InvariantCulture)
        );
        Assert.InRange(said, app.Clock.GetUtcNow().AddMinutes(-3), app.Clock.GetUtcNow().AddMinutes(1));
        var lines = input
            .Groups["names"]
            .Value.Split(' ')
            .Select(n =>
                $"{n}: "
                + n.Trim('"') switch
                {
                    "@method" => "POST",
                    "@target-uri" => _address,
                    var field => told.Headers[field],
                }
            )
            .Append($"\"@signature-params\": {input.Groups["parameters"].Value}");
        var signed = HMACSHA256.HashData(
            Convert.FromBase64String(added.Secret),
            Encoding.ASCII.GetBytes(string.Join('\n', lines))
        );
        Assert.Equal($"coldpeel=:{Convert.ToBase64String(signed)}:", told.Headers["Signature"]);
    }

    private static async Task Until(Func<bool> done)
    {
        // A bound against waiting for ever, not a claim on speed.
        for (var i = 0; i < 600 && !done(); i++)
        {
            await Task.Delay(100, TestContext.Current.CancellationToken);
        }

        Assert.True(done());
    }

    [GeneratedRegex(
        "^coldpeel=(?<parameters>\\((?<names>[^)]*)\\);created=(?<created>[0-9]+);keyid=\"(?<key>[^\"]+)\")$"
    )]
    private static partial Regex Input();
}
