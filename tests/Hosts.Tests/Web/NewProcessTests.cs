using System.Net;
using Coldpeel.Desk.Shelf;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>A process that the workshop has not had before is entered over HTTP.</summary>
public sealed class NewProcessTests : BookDesk
{
    [Fact]
    public async Task A_new_process_asks_all_that_its_checks_need()
    {
        var fields = await Fields("/workshop/new-process");
        var page = await (await Send("/workshop/new-process", fields)).Content.ReadAsStringAsync();
        Assert.Contains("Tick at least one material", page, StringComparison.Ordinal);
        fields = Inputs(page);
        fields["/goes-on/cotton-canvas"] = "true";
        page = await (await Send("/workshop/new-process", fields)).Content.ReadAsStringAsync();
        foreach (
            var asked in new[]
            {
                "name",
                "limits-lineMm",
                "limits-gapMm",
                "limits-dotMm",
                "limits-tintPercent",
                "limits-pictureDpi",
                "limits-source",
                "steps-0-say",
                "steps-0-seconds",
                "steps-0-source",
            }
        )
        {
            Assert.Contains("Fill this in.", Wrong(page, $"process-{asked}"), StringComparison.Ordinal);
        }

        Assert.Equal("true", Inputs(page)["/goes-on/cotton-canvas"]);
        // Figures by figures: what has heat asks for its set-point.
        fields = Inputs(page);
        fields["/process/name"] = "Cold foil";
        foreach (var key in new[] { "lineMm", "gapMm", "dotMm", "tintPercent", "pictureDpi" })
        {
            fields[$"/process/limits/{key}"] = "1";
        }

        fields["/process/limits/source"] = "guess";
        for (var row = 0; row < 9; row++)
        {
            fields[$"/process/steps/{row}/say"] = "Do it.";
            fields[$"/process/steps/{row}/seconds"] = "20";
            fields[$"/process/steps/{row}/source"] = "guess";
        }

        page = await (await Send("/workshop/new-process", fields)).Content.ReadAsStringAsync();
        Assert.Contains("Fill this in.", Wrong(page, "process-steps-1-celsius"), StringComparison.Ordinal);
        Assert.False(new ReadBook(Workshop).IsOwn);
    }

    [Fact]
    public async Task A_process_like_another_is_german_in_a_german_workshop_and_what_nobody_touched_stays_in_the_file()
    {
        Desk.DefaultRequestHeaders.Add("Accept-Language", "de");
        const string Address = "/workshop/new-process?like=two-part-film";
        var fields = await Fields(Address);
        Assert.StartsWith(
            "übernommen von „Zweiteilige Folie",
            fields["/process/steps/4/source"],
            StringComparison.Ordinal
        );
        var words = fields.Where(f => f.Key.StartsWith("/process/", StringComparison.Ordinal)).Select(f => f.Value);
        Assert.All(words, w => Assert.DoesNotMatch(@"\b(the|with|and|taken over|practice|of)\b", w));
        fields["/process/name"] = "Samtfilm";
        fields["/process/steps/4/source"] = "eigener Versuch";
        fields["/goes-on/cotton-canvas"] = "true";
        var page = await (await Send(Address, fields)).Content.ReadAsStringAsync();
        // What is shown before it is kept names the material in German.
        Assert.DoesNotContain("cotton canvas", page, StringComparison.Ordinal);
        var again = new Dictionary<string, string>(fields) { ["sure"] = "yes", ["seen"] = Inputs(page)["seen"] };
        Assert.Equal(HttpStatusCode.Redirect, (await Send(Address, again)).StatusCode);

        var book = new ReadBook(Workshop).Run();
        var (process, like) = (
            book.Processes.Single(p => p.Id == "samtfilm"),
            book.Processes.Single(p => p.Id == "two-part-film")
        );
        Assert.Equal("eigener Versuch", process.Steps[4].Source);
        Assert.Equal(like.Steps.Select(s => s.Say), process.Steps.Select(s => s.Say));
        Assert.StartsWith("taken over from \"Two-part film", process.Steps[0].Source, StringComparison.Ordinal);
        var canvas = book.Materials.Single(m => m.Process == "samtfilm");
        Assert.EndsWith(" · Samtfilm", canvas.Name, StringComparison.Ordinal);
        var recipe = await Desk.GetStringAsync($"/recipes/{canvas.Id}");
        Assert.Empty(EnglishWords.In(recipe));
        Assert.Contains("Laut Wärmemodell", WebUtility.HtmlDecode(recipe), StringComparison.Ordinal);
        Assert.DoesNotContain("lang=\"en\">By", recipe, StringComparison.Ordinal);
        Assert.Contains("eigener Versuch", recipe, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_new_process_is_not_tried_and_says_so_until_a_trial_stands_behind_it()
    {
        const string Address = "/workshop/new-process?like=two-part-film";
        var fields = await Fields(Address);
        fields["/process/name"] = "Velvet film";
        fields["/process/steps/4/celsius"] = "155";
        fields["/goes-on/cotton-canvas"] = "true";
        fields["/goes-on/wool-felt"] = "true";
        var page = await (await Send(Address, fields)).Content.ReadAsStringAsync();
        Assert.Contains("Velvet film: nobody has tried this process here", page, StringComparison.Ordinal);
        Assert.Contains("sold as protective equipment", page, StringComparison.Ordinal);
        Assert.False(new ReadBook(Workshop).IsOwn);
        Assert.Equal(HttpStatusCode.Redirect, (await Confirmed(Address, fields)).StatusCode);

        var book = new ReadBook(Workshop).Run();
        var process = book.Processes.Single(p => p.Id == "velvet-film");
        Assert.True(process.Untried);
        Assert.Null(process.GlueSoftensC);
        Assert.All(process.Steps, s => Assert.Equal(Evidence.CommonPractice, s.Evidence));
        var canvas = book.Materials.Single(m =>
            m.Process == "velvet-film" && m.Name.Contains("canvas", StringComparison.Ordinal)
        );
        // The material that was there keeps its process.
        Assert.Equal("two-part-film", book.Materials.Single(m => m.Id == "cotton-canvas").Process);
        var felt = book.Materials.Single(m => m.Process == "velvet-film" && m.Id != canvas.Id);
        Assert.True(Trials.IsUntried(book, Pressings.For(book, canvas.Id)));
        Assert.Contains("Not tried yet: trial first.", await Desk.GetStringAsync("/recipes"), StringComparison.Ordinal);
        Assert.Contains(
            "Not tried yet: trial first.",
            await Desk.GetStringAsync($"/recipes/{canvas.Id}"),
            StringComparison.Ordinal
        );

        var trial = await Fields($"/workshop/trials/{canvas.Id}");
        (trial["/trial/washes"], trial["/trial/pieces"], trial["/trial/survived"]) = ("5", "2", "2");
        (trial["/trial/on"], trial["/trial/source"]) = ("2026-05-04", "own trial");
        Assert.Equal(HttpStatusCode.Redirect, (await Send($"/workshop/trials/{canvas.Id}", trial)).StatusCode);
        book = new ReadBook(Workshop).Run();
        Assert.False(Trials.IsUntried(book, Pressings.For(book, canvas.Id)));
        // Felt is another thing.
        Assert.True(Trials.IsUntried(book, Pressings.For(book, felt.Id)));
        Assert.DoesNotContain(
            "Not tried yet: trial first.",
            await Desk.GetStringAsync($"/recipes/{canvas.Id}"),
            StringComparison.Ordinal
        );
    }
}
