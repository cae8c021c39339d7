using System.Net;
using System.Text.Json;

namespace Coldpeel.Hosts.Tests.Web;

public sealed class WorkshopAppTests(OpenApp app) : IClassFixture<OpenApp>
{
    [Fact]
    public async Task The_orders_are_listed_with_due_day_sheets_day_total_and_state()
    {
        var page = WebUtility.HtmlDecode(await app.Client.GetStringAsync("/orders"));
        Assert.Contains(OpenApp.Order, page, StringComparison.Ordinal);
        Assert.Contains($"/orders/{OpenApp.OrderStep}", page, StringComparison.Ordinal);
        // 21 May 2027 is a Friday (ISO 8601 week 20; any calendar).
        Assert.Contains("Fri 21 May 2027", page, StringComparison.Ordinal);
        Assert.Matches(@"\d+\.\d\d EUR", page);
    }

    [Fact]
    public async Task An_order_leads_to_all_its_files_and_they_come_as_they_were_made()
    {
        var page = WebUtility.HtmlDecode(await app.Client.GetStringAsync($"/orders/{OpenApp.OrderStep}"));
        string[] names =
        [
            "findings.json",
            "sheets.pdf",
            "sheets.json",
            "trim-map.pdf",
            "day.json",
            "day-plan.json",
            "day-plan.pdf",
            "tickets.pdf",
            "quote.json",
            "quote.pdf",
            "care.pdf",
            "sheet-001.png",
        ];
        foreach (var name in names)
        {
            var address = $"/orders/{OpenApp.OrderStep}/files/{name}";
            Assert.Contains(address, page, StringComparison.Ordinal);
            var file = await app.Client.GetAsync(address);
            Assert.Equal(HttpStatusCode.OK, file.StatusCode);
            Assert.Equal(Type(name), file.Content.Headers.ContentType!.MediaType);
            Assert.Equal("nosniff", file.Headers.GetValues("X-Content-Type-Options").Single());
            Assert.StartsWith("inline", file.Content.Headers.ContentDisposition!.ToString(), StringComparison.Ordinal);
            var content = await file.Content.ReadAsByteArrayAsync();
            Assert.True(IsKept(content), $"{name} is not what was kept");
        }
    }

    [Fact]
    public async Task A_ticket_opens_where_its_code_leads_and_has_a_clock_for_each_step_that_a_plate_times()
    {
        var page = WebUtility.HtmlDecode(await app.Client.GetStringAsync($"/tickets/{OpenApp.OrderStep}/1"));
        Assert.Contains("2 × tote", page, StringComparison.Ordinal);
        Assert.Contains("never reach in", page, StringComparison.Ordinal);
        Assert.Contains("class=\"clock\"", page, StringComparison.Ordinal);
        Assert.Contains("data-name=\"Press\"", page, StringComparison.Ordinal);
        Assert.DoesNotContain("data-name=\"Cold peel\"", page, StringComparison.Ordinal);
        Assert.Equal(2, page.Split("type=\"checkbox\"").Length - 1);
    }

    [Theory]
    [InlineData("/orders/nowhere", "No order “nowhere”")]
    [InlineData("/orders/nowhere/files/sheets.pdf", "no file")]
    [InlineData("/tickets/nowhere/1", "No ticket 1")]
    [InlineData("/elsewhere", "There is no page")]
    [InlineData("/assets/nothing.js", "There is no page")]
    public async Task What_is_not_there_is_said_kindly_with_a_way_back(string address, string words)
    {
        var answer = await app.Client.GetAsync(address);
        var page = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        Assert.Contains(words, page, StringComparison.Ordinal);
        Assert.Contains("href=\"/\"", page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("../workshop.db")]
    [InlineData("..%2Fworkshop.db")]
    [InlineData("..%2F..%2F..%2F..%2F..%2Fetc%2Fpasswd")]
    [InlineData("..%5Cworkshop.db")]
    [InlineData("%2Fetc%2Fpasswd")]
    [InlineData("sheets.pdf%00.png")]
    public async Task A_name_that_is_a_path_leads_nowhere(string name)
    {
        // The address is sent as it stands: no client tidies it up before.
        var address = new Uri(
            $"{app.Client.BaseAddress}orders/{OpenApp.OrderStep}/files/{name}",
            new UriCreationOptions { DangerousDisablePathAndQueryCanonicalization = true }
        );
        var answer = await app.Client.GetAsync(address);
        Assert.True(answer.StatusCode is HttpStatusCode.NotFound or HttpStatusCode.BadRequest, $"{answer.StatusCode}");
        var said = await answer.Content.ReadAsStringAsync();
        Assert.DoesNotContain("SQLite format", said, StringComparison.Ordinal);
        Assert.DoesNotContain("root:", said, StringComparison.Ordinal);
    }

    // Content Security Policy Level 3 (W3C): with script-src 'self' and no 'unsafe-inline' a page runs no script of its own text.
    [Theory]
    [InlineData("/")]
    [InlineData("/elsewhere")]
    [InlineData("/assets/ticket.js")]
    public async Task Every_answer_keeps_inline_scripts_and_foreign_frames_out(string address)
    {
        var answer = await app.Client.GetAsync(address);
        var policy = answer.Headers.GetValues("Content-Security-Policy").Single();
        Assert.Contains("default-src 'none'", policy, StringComparison.Ordinal);
        Assert.Contains("script-src 'self'", policy, StringComparison.Ordinal);
        Assert.Contains("frame-ancestors 'none'", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
        Assert.Equal("nosniff", answer.Headers.GetValues("X-Content-Type-Options").Single());
    }

    [Fact]
    public async Task No_page_has_a_script_or_style_in_its_own_text()
    {
        foreach (var address in new[] { "/", $"/orders/{OpenApp.OrderStep}", $"/tickets/{OpenApp.OrderStep}/1" })
        {
            var page = await app.Client.GetStringAsync(address);
            Assert.DoesNotMatch(@"<script(?![^>]*\ssrc=)", page);
            Assert.DoesNotMatch(@"\sstyle=|<style|\son\w+=", page);
        }
    }

    [Theory]
    [InlineData("app.css", "text/css")]
    [InlineData("ticket.js", "text/javascript")]
    [InlineData("upload.js", "text/javascript")]
    [InlineData("mark.svg", "image/svg+xml")]
    [InlineData("inter-Regular.ttf", "font/ttf")]
    [InlineData("inter-SemiBold.ttf", "font/ttf")]
    [InlineData("inter-Bold.ttf", "font/ttf")]
    public async Task Style_scripts_and_fonts_come_out_of_the_program_itself(string name, string type)
    {
        var answer = await app.Client.GetAsync($"/assets/{name}");
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal(type, answer.Content.Headers.ContentType!.MediaType);
        Assert.NotEmpty(await answer.Content.ReadAsByteArrayAsync());
    }

    [Fact]
    public async Task A_job_without_its_artwork_is_refused_with_one_line_that_names_the_file()
    {
        var answer = await app.Upload(("job.json", OpenApp.Job("AR-9", "cotton-canvas")));
        await Refused(answer, "mark.svg");
        Assert.Equal(HttpStatusCode.NotFound, (await app.Client.GetAsync("/orders/AR-9")).StatusCode);
    }

    [Theory]
    [InlineData("../../evil.svg")]
    [InlineData("..\\evil.svg")]
    [InlineData(".hidden")]
    [InlineData("con.svg")]
    public async Task A_handed_in_name_that_could_leave_its_folder_is_refused(string name)
    {
        var answer = await app.Upload(("job.json", OpenApp.Job("AR-9", "cotton-canvas")), (name, OpenApp.Mark));
        await Refused(answer, "is no name for a file of a job");
    }

    [Fact]
    public async Task Files_without_a_job_are_refused() =>
        await Refused(await app.Upload(("mark.svg", OpenApp.Mark)), "hold no job.json");

    [Fact]
    public async Task A_fault_never_tells_where_files_lay_for_a_moment()
    {
        var answer = await app.Upload(("job.json", "{ \"job\": 3 }"));
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.DoesNotContain("coldpeel-job-", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_stopped_order_is_kept_with_what_stands_in_the_way()
    {
        var answer = await app.Upload(("job.json", OpenApp.Job("AR-8", "unknown")), ("mark.svg", OpenApp.Mark));
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        var page = WebUtility.HtmlDecode(await app.Client.GetStringAsync(answer.Headers.Location));
        Assert.Contains("Not made.", page, StringComparison.Ordinal);
        Assert.Contains("unknown-fabric", page, StringComparison.Ordinal);
        Assert.DoesNotContain("sheets.pdf", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_form_from_another_page_is_refused()
    {
        using var form = new MultipartFormDataContent { { new StringContent("{}"), "files", "job.json" } };
        await Refused(await app.Client.PostAsync("/orders", form), "came from another page");
    }

    [Fact]
    public async Task More_than_60_MB_is_refused_before_it_is_read()
    {
        using var form = new MultipartFormDataContent
        {
            { new ByteArrayContent(new byte[61_000_000]), "files", "big.png" },
        };
        using var request = new HttpRequestMessage(HttpMethod.Post, "/orders") { Content = form };
        request.Headers.ExpectContinue = true;
        await Refused(await app.Client.SendAsync(request), "larger than 60 MB", HttpStatusCode.RequestEntityTooLarge);
    }

    [Fact]
    public async Task Another_name_for_our_address_is_refused()
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, "/");
        request.Headers.Host = "evil.example";
        Assert.Equal(HttpStatusCode.BadRequest, (await app.Client.SendAsync(request)).StatusCode);
    }

    [Fact]
    public async Task The_findings_file_is_the_json_it_says_it_is()
    {
        var text = await app.Client.GetStringAsync($"/orders/{OpenApp.OrderStep}/files/findings.json");
        using var findings = JsonDocument.Parse(text);
        Assert.Equal(JsonValueKind.Array, findings.RootElement.ValueKind);
    }

    private static async Task Refused(
        HttpResponseMessage answer,
        string words,
        HttpStatusCode status = HttpStatusCode.BadRequest
    )
    {
        var page = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
        Assert.Equal(status, answer.StatusCode);
        Assert.Contains("role=\"alert\"", page, StringComparison.Ordinal);
        Assert.Contains(words, page, StringComparison.Ordinal);
    }

    private bool IsKept(byte[] content) =>
        Directory
            .EnumerateFiles(Path.Combine(app.Folder, "files"), "*", SearchOption.AllDirectories)
            .Any(file => File.ReadAllBytes(file).AsSpan().SequenceEqual(content));

    private static string Type(string name) =>
        Path.GetExtension(name) switch
        {
            ".pdf" => "application/pdf",
            ".png" => "image/png",
            _ => "application/json",
        };
}
