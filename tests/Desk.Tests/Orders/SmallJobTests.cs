using System.Collections.Immutable;
using Coldpeel.Desk.Orders;

namespace Coldpeel.Desk.Tests.Orders;

/// <summary>Equal input, seed and day give equal files: what was printed can be printed again.</summary>
public sealed class SmallJobTests
{
    private static readonly string Job = """
        {
          "job": "T-1", "customer": "Nobody", "due": "2027-05-21", "currency": "EUR",
          "designs": [
            { "id": "mark", "file": "mark.svg", "prints": "dark" },
            { "id": "name", "lettering": { "text": "{name}", "font": "Inter SemiBold", "heightMm": 20 } }
          ],
          "items": [
            { "id": "tote", "what": "tote", "material": "cotton-canvas", "colour": "navy", "quantity": 3, "roster": "names.csv",
              "suppliedBy": "workshop", "use": "everyday",
              "placements": [{ "design": "mark", "at": "left chest" }, { "design": "name", "at": "upper back" }] }
          ]
        }
        """;

    [Fact]
    public void The_same_job_and_seed_give_the_same_bytes_in_every_file()
    {
        var folder = Place.NewFolder();
        File.WriteAllText(Path.Combine(folder, "job.json"), Job);
        File.WriteAllText(Path.Combine(folder, "names.csv"), "name\nÅsa\nNía\nMei\n");
        File.Copy(MadeRegatta.Demo("mark.svg"), Path.Combine(folder, "mark.svg"));

        // Another hour of the same day, in another folder: neither may be seen in the files.
        var first = Make(folder, new(2027, 3, 1, 9, 0, 0, TimeSpan.Zero));
        var elsewhere = Path.Combine(Place.NewFolder(), "elsewhere");
        Directory.Move(folder, elsewhere);
        var second = Make(elsewhere, new(2027, 3, 1, 17, 30, 5, TimeSpan.Zero));

        Assert.Equal(11, first.Count);
        Assert.Equal(first.Keys, second.Keys);
        Assert.All(first, f => Assert.True(f.Value.AsSpan().SequenceEqual(second[f.Key]), f.Key));
        // Only the quote carries the day on which it was made: seen as well on first plans.
        var today = Make(elsewhere, new(2027, 3, 1, 9, 0, 0, TimeSpan.Zero), seconds: 1);
        var tomorrow = Make(elsewhere, new(2027, 3, 2, 9, 0, 0, TimeSpan.Zero), seconds: 1);
        Assert.Equal(11, today.Count);
        Assert.Equal(
            ["quote.pdf"],
            today.Where(f => !f.Value.AsSpan().SequenceEqual(tomorrow[f.Key])).Select(f => f.Key)
        );
    }

    private static ImmutableSortedDictionary<string, byte[]> Make(
        string folder,
        DateTimeOffset now,
        double? seconds = null
    )
    {
        // Without a limit the searches make all their trials.
        var made = new MakeJob(new StandingClock(now)).Run(
            Path.Combine(folder, "job.json"),
            new(seconds, 7, []),
            null,
            TestContext.Current.CancellationToken
        );
        Assert.True(made.Ok, made.Fault?.ToString());
        return made.Value.Files;
    }

    private sealed class StandingClock(DateTimeOffset now) : FirstPlanClock
    {
        public override DateTimeOffset GetUtcNow() => now;

        public override TimeZoneInfo LocalTimeZone => TimeZoneInfo.Utc;
    }
}
