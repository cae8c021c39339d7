using System.Text.Json.Nodes;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Shelf;
using Coldpeel.Desk.Shelf.Book;
using Coldpeel.Desk.Tests.Orders;

namespace Coldpeel.Desk.Tests.Shelf;

/// <summary>Placements, care and processes: each part has its versions, and an order keeps what it was made with.</summary>
public sealed class BookPartsTests : IDisposable
{
    private readonly SmallWorkshop _small = new();

    public void Dispose() => _small.Dispose();

    private EditBook Edit => new(_small.Workshop);

    [Fact]
    public void An_order_keeps_its_placement_and_is_told_of_the_one_that_it_uses_and_of_no_other()
    {
        _small.Bring(("job.json", SmallWorkshop.Job("AR-1", 60)), ("mark.svg", SmallWorkshop.Bold));
        var used = (string)JsonNode.Parse(SmallWorkshop.Job("AR-1", 60))!["items"]![0]!["placements"]![0]!["at"]!;
        var other = new ReadBook(_small.Workshop).Run().Placements.First(p => p.Name != used).Name;
        Assert.True(Place(other, "downMm", 33).Kept);
        Assert.Empty(new OpenKeptJob(_small.Workshop).Run("AR-1")!.SinceMade);
        Assert.True(Place(used, "downMm", 77).Kept);
        var told = Assert.Single(new OpenKeptJob(_small.Workshop).Run("AR-1")!.SinceMade);
        Assert.Equal($"placements.{used}.downMm", told.Field);
        Assert.Equal("77", told.After);
        Assert.True(
            new PresentBook(_small.Workshop).TakeUp("AR-1", "Ada", 2, TestContext.Current.CancellationToken).Ok
        );
        Assert.Empty(new OpenKeptJob(_small.Workshop).Run("AR-1")!.SinceMade);
    }

    [Fact]
    public void Placements_and_care_have_versions_of_their_own()
    {
        Assert.True(Place("full back", "downMm", 71).Kept);
        var care = Edit.Whole();
        care["printCare"]!["washC"] = 60;
        Assert.True(Edit.Keep(BookSection.Care, care, Edit.Stand(BookSection.Care), false, "Ben").Kept);
        var versions = new BookVersions(_small.Workshop);
        Assert.Equal("Ada", versions.List(BookSection.Placements)[0].Who);
        Assert.StartsWith(
            "placements.full back.downMm",
            versions.List(BookSection.Placements)[0].What,
            StringComparison.Ordinal
        );
        Assert.Equal("Ben", Assert.Single(versions.List(BookSection.Care), v => v.Number > 0).Who);
        Assert.Empty(versions.List(BookSection.Rest));
        Assert.True(versions.TakeUp(BookSection.Placements, 0, Edit.Stand(BookSection.Placements), false, "Ada")!.Kept);
        Assert.Equal(60, new ReadBook(_small.Workshop).Run().PrintCare.WashC);
        Assert.NotEqual(71, new ReadBook(_small.Workshop).Run().Placements.Single(p => p.Name == "full back").DownMm);
    }

    [Fact]
    public void What_an_earlier_program_kept_as_one_part_is_still_put_together()
    {
        var whole = Edit.Whole();
        var rest = BookParts.Of(whole, BookSection.Rest);
        foreach (var key in new[] { "placements", "printCare", "careTips" })
        {
            rest[key] = whole[key]!.DeepClone();
        }

        rest["appUrl"] = "http://then:1";
        var then = BookParts.With(whole, BookSection.Rest, rest);
        Assert.Equal("http://then:1", (string?)then["appUrl"]);
        Assert.Equal(whole.Count, then.Count);
    }

    [Fact]
    public void A_step_whose_figures_change_while_its_source_stays_is_no_trial_any_more_wherever_it_moves()
    {
        var whole = Edit.Whole();
        whole["processes"]![0]!["steps"]![4]!["evidence"] = "trial";
        var fields = ProcessFields.Of(whole, "two-part-film")!;
        var moved = fields.Fill(Values(("/process/steps/4/place", 1)));
        Assert.Equal("trial", (string?)moved.Wished["processes"]![0]!["steps"]![1]!["evidence"]);
        Assert.Equal("/process/steps/4/seconds", moved.FieldOf("/processes/0/steps/1/seconds"));
        var changed = fields.Fill(Values(("/process/steps/4/place", 1), ("/process/steps/4/seconds", 44)));
        Assert.Null(changed.Wished["processes"]![0]!["steps"]![1]!["evidence"]);
    }

    private BookEdit Place(string name, string key, double value)
    {
        var form = EntryFields.Placement(Edit.Whole(), name)!.Fill(Values(($"/placement/{key}", value)));
        return Edit.Keep(BookSection.Placements, form.Wished, Edit.Stand(BookSection.Placements), false, "Ada");
    }

    private static Dictionary<string, JsonNode?> Values(params (string Field, double Value)[] filled) =>
        filled.ToDictionary(f => f.Field, f => (JsonNode?)JsonValue.Create(f.Value));
}
