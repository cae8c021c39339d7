using System.Net;
using System.Text.RegularExpressions;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Workshop.Press.Bench;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>A day with work left is closed only by whoever says so twice, and what the question says becomes true.</summary>
public sealed partial class BenchCloseTests(OpenApp app) : IClassFixture<OpenApp>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_day_with_work_left_asks_first_and_says_how_much()
    {
        var day = ApprovedDay.Start(app.Workshop, OpenApp.Order);
        var all = new OpenBench(app.Workshop).Left(day)!;
        Assert.True(all is { Items: 2, OfItems: 2, Spoilt: 0 } && all.Steps > 4, $"{all}");
        var first = new OpenBench(app.Workshop).Run(day)!.Plan.Tasks.First(t => t.Work != BenchWork.Air);
        Say(day, BenchSaying.Done, first.Id);
        var asked = await Close(day);
        Assert.Equal(HttpStatusCode.OK, asked.StatusCode);
        var page = WebUtility.HtmlDecode(await asked.Content.ReadAsStringAsync(Stop));
        Assert.Contains(
            $"2 of 2 items are not finished, and {all.Steps - 1} steps at the bench are left.",
            page,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain("Spoilt and not made again", page, StringComparison.Ordinal);
        Assert.False(new OpenBench(app.Workshop).IsClosed(day));
        Assert.Equal("/bench", (await Close(day, ("sure", "yes"))).Headers.Location!.ToString());
        Assert.True(new OpenBench(app.Workshop).IsClosed(day));

        // A new day begins with all of the work.
        var anew = new StartBench(app.Workshop).Run([OpenApp.Order], Stop).Value!.Day;
        Assert.Equal(all, new OpenBench(app.Workshop).Left(anew));
        // While the order stands there the first one stays closed; then it goes on where it stood.
        Assert.Equal(HttpStatusCode.BadRequest, (await Close(day, ("open", "again"))).StatusCode);
        await Close(anew, ("sure", "yes"));
        Assert.Equal($"/bench/{day}", (await Close(day, ("open", "again"))).Headers.Location!.ToString());
        Assert.Equal(all.Steps - 1, new OpenBench(app.Workshop).Left(day)!.Steps);
        await Close(day, ("sure", "yes"));
    }

    [Fact]
    public async Task A_day_with_nothing_left_is_closed_at_once_and_one_with_a_spoilt_item_asks()
    {
        var day = ApprovedDay.Start(app.Workshop, OpenApp.Order);
        var item = new OpenBench(app.Workshop).Run(day)!.Plan.Tasks.First(t => t.Op == "inspect").Item;
        Say(day, BenchSaying.Spoilt, item);
        DoAll(day);
        var left = new OpenBench(app.Workshop).Left(day)!;
        Assert.Equal((0, 0, 1), (left.Steps, left.Items, left.Spoilt));
        var asked = await Close(day);
        Assert.Contains(
            "Spoilt and not made again: 1.",
            await asked.Content.ReadAsStringAsync(Stop),
            StringComparison.Ordinal
        );
        Assert.False(new OpenBench(app.Workshop).IsClosed(day));
        Say(day, BenchSaying.Again, item);
        DoAll(day);
        Assert.Equal("/bench", (await Close(day)).Headers.Location!.ToString());
        Assert.True(new OpenBench(app.Workshop).IsClosed(day));
    }

    // Whatever the day takes, in the order of its plan, until nothing is left.
    private void DoAll(int day)
    {
        while (new OpenBench(app.Workshop).Left(day)!.Steps > 0)
        {
            Assert.Contains(
                new OpenBench(app.Workshop).Run(day)!.Plan.Tasks,
                t => Take(day, BenchSaying.Done, t.Id) is { Event: not null }
            );
        }
    }

    private void Say(int day, BenchSaying saying, string about)
    {
        var taken = Take(day, saying, about);
        Assert.True(taken.Event is not null, taken.Refusal?.English);
    }

    private TakenTap Take(int day, BenchSaying saying, string about) =>
        new TapBench(app.Workshop).Run(
            day,
            new(Guid.NewGuid().ToString("n"), saying, about, 0),
            app.Workshop.Now,
            "desk"
        )!;

    private async Task<HttpResponseMessage> Close(int day, params (string Name, string Value)[] more)
    {
        var page = await app.Client.GetStringAsync($"/bench/{day}", Stop);
        using var form = new FormUrlEncodedContent([
            new("__RequestVerificationToken", WebUtility.HtmlDecode(Token().Match(page).Groups[1].Value)),
            .. more.Select(f => KeyValuePair.Create(f.Name, f.Value)),
        ]);
        return await app.Client.PostAsync($"/bench/{day}/close", form, Stop);
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex Token();
}
