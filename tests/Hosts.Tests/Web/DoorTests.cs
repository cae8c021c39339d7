using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Coldpeel.Desk.Rooms;
using Coldpeel.Web;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>A device of the network: it asks by an address of this machine that is not its own.</summary>
public sealed class DoorTests : DoorOfNetwork
{
    [Fact]
    public async Task The_network_is_shut_until_the_owner_turns_it_on_and_opens_and_shuts_without_a_restart()
    {
        await Assert.ThrowsAsync<HttpRequestException>(() => Device.GetAsync("/"));
        await TurnOn();
        Assert.Equal("/join", (await Device.GetAsync("/")).Headers.Location!.ToString());
        // The desk itself goes on meanwhile, over the address it has.
        Assert.Equal(HttpStatusCode.OK, (await Desk.GetAsync("/")).StatusCode);
        await Network(Port, on: false);
        using var later = Client($"https://{Own}:{Port}");
        await Assert.ThrowsAsync<HttpRequestException>(() => later.GetAsync("/"));
    }

    [Fact]
    public async Task A_network_that_is_on_comes_in_again_after_a_restart()
    {
        await TurnOn();
        await App.DisposeAsync();
        App = WorkshopApp.Build(Workshop, "http://127.0.0.1:0");
        await App.StartAsync();
        using var device = Client($"https://{Own}:{Port}");
        for (var tries = 0; ; tries++)
        {
            try
            {
                // The same certificate: the device takes no other.
                Assert.Equal("/join", (await device.GetAsync("/")).Headers.Location!.ToString());
                return;
            }
            catch (HttpRequestException) when (tries < 100)
            {
                await Task.Delay(100);
            }
        }
    }

    [Fact]
    public async Task Plain_http_from_the_network_is_not_served()
    {
        using var plain = Client($"http://{Own}:{LocalPort}");
        await Refused(HttpStatusCode.Forbidden, "Closed to the network");
        await TurnOn();
        await Refused(HttpStatusCode.Forbidden, "Only over HTTPS");

        async Task Refused(HttpStatusCode status, string words)
        {
            foreach (var address in new[] { "/", "/join", "/assets/app.css", "/bench/clock" })
            {
                var answer = await plain.GetAsync(address);
                Assert.Equal(status, answer.StatusCode);
                Assert.Contains(words, await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
            }
        }
    }

    [Fact]
    public async Task Another_program_comes_in_from_the_network_encrypted_and_with_a_key()
    {
        var key = new Devices(Workshop).AddProgram("shop", "Mira");
        await TurnOn();
        using var plain = Client($"http://{Own}:{LocalPort}");
        using var asked = new HttpRequestMessage(HttpMethod.Get, "/api/v1/orders");
        asked.Headers.Authorization = new("Bearer", key);
        var refused = await plain.SendAsync(asked);
        Assert.Equal(HttpStatusCode.Forbidden, refused.StatusCode);
        Assert.Contains(
            $"https://{Own}:{Port}/api/v1 only",
            await refused.Content.ReadAsStringAsync(),
            StringComparison.Ordinal
        );
        Assert.Equal(HttpStatusCode.Unauthorized, (await Device.GetAsync("/api/v1/orders")).StatusCode);
        using var again = new HttpRequestMessage(HttpMethod.Get, "/api/v1/orders");
        again.Headers.Authorization = new("Bearer", key);
        Assert.Equal(HttpStatusCode.OK, (await Device.SendAsync(again)).StatusCode);
        // The key opens no page.
        using var page = new HttpRequestMessage(HttpMethod.Get, "/orders");
        page.Headers.Authorization = new("Bearer", key);
        Assert.Equal("/join", (await Device.SendAsync(page)).Headers.Location!.ToString());
    }

    [Fact]
    public async Task The_certificate_names_this_machine_and_the_desk_shows_its_fingerprint()
    {
        await TurnOn();
        X509Certificate2? seen = null;
        using var looking = new HttpClient(
            new HttpClientHandler
            {
                AllowAutoRedirect = false,
                ServerCertificateCustomValidationCallback = (_, certificate, _, _) =>
                {
                    seen = X509CertificateLoader.LoadCertificate(certificate!.RawData);
                    return true;
                },
            }
        );
        await looking.GetAsync($"https://{Own}:{Port}/join");
        Assert.Equal(Shown, Convert.ToHexString(seen!.GetCertHash(HashAlgorithmName.SHA256)));
        Assert.True(seen.MatchesHostname(Own.ToString(), allowCommonName: false));
        Assert.True(seen.MatchesHostname("localhost", allowCommonName: false));
        Assert.False(seen.MatchesHostname("evil.example", allowCommonName: false));
        Assert.InRange((seen.NotAfter - seen.NotBefore).TotalDays, 300, 398);
        if (!OperatingSystem.IsWindows())
        {
            var file = Path.Combine(Folder, "keys", "network.pfx");
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(file));
        }
    }

    [Fact]
    public async Task The_certificate_stays_over_a_restart_and_is_made_anew_before_it_ends()
    {
        using var first = new NetworkCertificate(Workshop);
        var made = first.Fingerprint;
        using var again = new NetworkCertificate(Workshop);
        Assert.Equal(made, again.Fingerprint);
        Clock.MoveOn(TimeSpan.FromDays(366));
        Assert.Equal(made, again.Fingerprint);
        Clock.MoveOn(TimeSpan.FromDays(2));
        Assert.NotEqual(made, again.Fingerprint);
        // A damaged file is no end: a new one is made.
        await File.WriteAllTextAsync(again.File, "nothing");
        using var mended = new NetworkCertificate(Workshop);
        Assert.NotEqual(again.Fingerprint, mended.Fingerprint);
    }

    [Fact]
    public async Task A_port_that_is_taken_is_told_and_the_network_stays_shut()
    {
        using var other = new TcpListener(IPAddress.Any, 0);
        other.Start();
        var taken = ((IPEndPoint)other.LocalEndpoint).Port;
        var answer = await Network(taken, on: true);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains(
            "another program answers there",
            await answer.Content.ReadAsStringAsync(),
            StringComparison.Ordinal
        );
        Assert.False(new KeepSettings(Workshop).Now().Network);
    }

    [Theory]
    [InlineData("evil.example")]
    [InlineData("evil.example:5080")]
    public async Task A_name_that_is_not_this_machine_is_refused(string host)
    {
        // DNS rebinding: a page from elsewhere lets its own name lead to 127.0.0.1.
        using var asked = new HttpRequestMessage(HttpMethod.Get, "/orders") { Headers = { Host = host } };
        Assert.Equal(HttpStatusCode.BadRequest, (await Desk.SendAsync(asked)).StatusCode);
    }

    [Fact]
    public async Task A_form_sent_from_another_page_changes_nothing()
    {
        await TurnOn();
        await Join(new Devices(Workshop).NewCode(Role.Owner).Code);
        foreach (
            var address in new[] { "/workshop/network", "/workshop/answers", "/workshop/code", "/shelf", "/language" }
        )
        {
            using var foreign = new HttpRequestMessage(HttpMethod.Post, address)
            {
                Content = new FormUrlEncodedContent([
                    new("network", "off"),
                    new("language", "de"),
                    new("later", "yes"),
                ]),
            };
            foreign.Headers.Add("Origin", "https://evil.example");
            var answer = await Device.SendAsync(foreign);
            Assert.True(
                answer.StatusCode is HttpStatusCode.BadRequest or HttpStatusCode.Forbidden,
                $"{address}: {answer.StatusCode}"
            );
            Assert.False(answer.Headers.Contains("Set-Cookie") && address == "/language");
        }

        Assert.True(new KeepSettings(Workshop).Now().Network);
        Assert.True(new KeepAnswers(Workshop).IsOpen);
        Assert.Null(new Devices(Workshop).Code);
    }

    [Fact]
    public async Task A_cookie_of_a_device_goes_over_https_only_and_to_no_script()
    {
        await TurnOn();
        var joined = await Join(new Devices(Workshop).NewCode(Role.Helper).Code);
        var cookie = joined
            .Headers.GetValues("Set-Cookie")
            .Single(c => c.StartsWith("coldpeel-device", StringComparison.Ordinal));
        Assert.Contains("secure", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
        // A name that only this network knows is no place for a promise to the whole web (RFC 6797).
        Assert.False(joined.Headers.Contains("Strict-Transport-Security"));
    }

    [Fact]
    public async Task A_screen_of_a_device_that_is_thrown_out_hears_no_more()
    {
        await TurnOn();
        await Join(new Devices(Workshop).NewCode(Role.Helper).Code);
        var day = SmallDay();
        using var news = await Device.GetAsync($"/bench/{day}/news", HttpCompletionOption.ResponseHeadersRead);
        using var lines = new StreamReader(await news.Content.ReadAsStreamAsync());
        Assert.StartsWith("id:", await lines.ReadLineAsync(), StringComparison.Ordinal);
        Assert.True(new Devices(Workshop).ThrowOut(new Devices(Workshop).All().Single().Id, "desk"));
        // The stream ends with the next heartbeat: what is left is read to its end.
        await lines.ReadToEndAsync().WaitAsync(TimeSpan.FromSeconds(60));
    }

    [Fact]
    public async Task A_device_comes_in_with_a_code_helps_and_is_thrown_out()
    {
        await TurnOn();
        var code = new Devices(Workshop).NewCode(Role.Helper).Code;
        Assert.Equal(HttpStatusCode.Redirect, (await Join($"{code[..4]} {code[4..]}")).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await Device.GetAsync("/bench")).StatusCode);
        // A helper reads and presses, and leaves the workshop itself to the owner.
        Assert.Equal(HttpStatusCode.Forbidden, (await Device.GetAsync("/workshop")).StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, (await Device.GetAsync("/workshop/backup")).StatusCode);
        // Recipes and prices are read, and not changed.
        Assert.DoesNotContain(
            "/workshop/recipes",
            await Device.GetStringAsync("/recipes/wool-felt"),
            StringComparison.Ordinal
        );
        foreach (var read in new[] { "/recipes", "/machines", "/placements", "/care" })
        {
            Assert.DoesNotContain(
                "href=\"/workshop/",
                (await Device.GetStringAsync(read)).Split("<main")[1],
                StringComparison.Ordinal
            );
        }
        Assert.DoesNotContain(
            "href=\"/workshop/prices",
            await Device.GetStringAsync("/prices"),
            StringComparison.Ordinal
        );
        foreach (
            var form in new[]
            {
                "prices",
                "machines",
                "laying",
                "care",
                "rest",
                "placements/full%20front",
                "new-placement",
                "new-process",
                "material/wool-felt",
                "washed/0",
                "processes/two-part-film",
                "recipes/wool-felt",
                "trials/wool-felt",
                "retire/wool-felt",
                "materials/new",
                "book",
                "book/take",
                "versions/prices/0",
                "orders/AR-1/book",
            }
        )
        {
            using var nothing = new FormUrlEncodedContent([]);
            Assert.Equal(HttpStatusCode.Forbidden, (await Device.PostAsync($"/workshop/{form}", nothing)).StatusCode);
        }
        Assert.True(new Devices(Workshop).ThrowOut(new Devices(Workshop).All().Single().Id, "desk"));
        Assert.Equal("/join", (await Device.GetAsync("/bench")).Headers.Location!.ToString());
        Assert.Equal(
            HttpStatusCode.Unauthorized,
            (await Device.PostAsync("/bench/1/taps", new StringContent("[]"))).StatusCode
        );
    }

    [Fact]
    public async Task A_code_lets_one_device_in_and_five_wrong_ones_end_it()
    {
        await TurnOn();
        var code = new Devices(Workshop).NewCode(Role.Owner).Code;
        for (var i = 0; i < 5; i++)
        {
            Assert.Equal(HttpStatusCode.BadRequest, (await Join("not it")).StatusCode);
        }

        // Now the right one is void too, and for a minute even a new one is not looked at.
        Assert.Equal(HttpStatusCode.BadRequest, (await Join(code)).StatusCode);
        Assert.Null(new Devices(Workshop).Code);
        var next = new Devices(Workshop).NewCode(Role.Owner).Code;
        Assert.Equal(HttpStatusCode.BadRequest, (await Join(next)).StatusCode);
        Assert.Empty(new Devices(Workshop).All());
        Clock.MoveOn(TimeSpan.FromSeconds(61));
        Assert.Equal(HttpStatusCode.Redirect, (await Join(next)).StatusCode);
    }

    [Fact]
    public async Task Taps_from_another_page_are_refused()
    {
        using var foreign = new HttpRequestMessage(HttpMethod.Post, "/bench/1/taps")
        {
            Content = new StringContent("[]"),
        };
        await TurnOn();
        await Join(new Devices(Workshop).NewCode(Role.Helper).Code);
        foreign.Headers.Add("Origin", "http://evil.example");
        Assert.Equal(HttpStatusCode.Forbidden, (await Device.SendAsync(foreign)).StatusCode);
    }
}
