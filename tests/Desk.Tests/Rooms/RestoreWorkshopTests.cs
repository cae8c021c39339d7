using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Rooms;
using Coldpeel.Desk.Tests.Orders;

namespace Coldpeel.Desk.Tests.Rooms;

public sealed class RestoreWorkshopTests : IDisposable
{
    private readonly SmallWorkshop _small = new();
    private readonly string _folder = Directory.CreateTempSubdirectory("coldpeel-back-").FullName;

    public void Dispose()
    {
        _small.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public void Who_brought_a_backup_back_stands_in_the_history()
    {
        var file = Path.Combine(_folder, "b.zip");
        Assert.Null(new BackUpWorkshop(_small.Workshop).Run(file));
        Assert.Equal("", _small.Workshop.BroughtBack);
        Assert.Null(new RestoreWorkshop(_small.Workshop).Run(file, "Ida"));
        Assert.NotEqual("", _small.Workshop.BroughtBack);
        var told = new SettingHistory(_small.Workshop).Last()[0];
        Assert.Equal(("brought-back", "Ida"), (told.Key, told.Who));
    }

    [Fact]
    public void A_workshop_that_is_open_in_a_browser_is_not_put_in_another_place_from_outside()
    {
        var file = Path.Combine(_folder, "b.zip");
        Assert.Null(new BackUpWorkshop(_small.Workshop).Run(file));
        var restore = new RestoreWorkshop(_small.Workshop);
        using (_small.Workshop.MarkServed())
        using (_small.Workshop.MarkServed())
        {
            Assert.Contains(
                "is open in the browser",
                restore.RunFromOutside(file, "Ida")!.ToString(),
                StringComparison.Ordinal
            );
            Assert.Equal("", _small.Workshop.BroughtBack);
            // Its own screen may.
            Assert.Null(restore.Run(file, "Ida"));
        }

        Assert.Null(restore.RunFromOutside(file, "the command"));
    }

    [Fact]
    public void A_picture_is_no_backup_and_changes_nothing()
    {
        var file = Path.Combine(_folder, "picture.png");
        File.WriteAllBytes(file, [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 0]);
        Assert.Equal(
            $"{file} is no backup, or is damaged. Nothing was changed. Choose a backup file that this program wrote.",
            new RestoreWorkshop(_small.Workshop).Run(file, "Ida")!.ToString()
        );
        Assert.Equal("", _small.Workshop.BroughtBack);
    }

    [Fact]
    public void An_approval_from_a_page_that_is_out_of_date_is_told_and_the_first_one_stays()
    {
        _small.Bring(("job.json", SmallWorkshop.Job("AR-1", 60)), ("mark.svg", SmallWorkshop.Bold));
        var steps = new StepOrder(_small.Workshop);
        Assert.Null(steps.Approve("AR-1", new("Ada", "by letter", false, ""), null, "Tove", 0));
        // The same press of the button once more is done already.
        Assert.Null(steps.Approve("AR-1", new("Ada", "by letter", false, ""), null, "Tove", 0));
        Assert.Contains(
            "has gone on meanwhile",
            steps.Approve("AR-1", new("Bo", "by letter", false, ""), null, "Tove", 0)!.ToString(),
            StringComparison.Ordinal
        );
        Assert.Single(steps.SoFar("AR-1", false).Steps);
    }

    [Fact]
    public void Today_names_every_order_that_waits_for_its_customer_however_far_its_day()
    {
        _small.Bring(("job.json", SmallWorkshop.Job("AR-1", 60)), ("mark.svg", SmallWorkshop.Bold));
        Assert.Equal("AR-1", Assert.Single(new LookAtToday(_small.Workshop).Run().ToApprove).Name);
        Assert.Null(
            new StepOrder(_small.Workshop).Approve("AR-1", new("Ada", "by letter", false, ""), null, "Tove", 0)
        );
        Assert.Empty(new LookAtToday(_small.Workshop).Run().ToApprove);
    }
}
