using Coldpeel.Desk;
using Coldpeel.Web;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>The running program over a real database, with a clock that tests can move on, and a browser.</summary>
public sealed partial class RunningApp : IAsyncLifetime
{
    private WebApplication? _app;

    public Chromium Chromium { get; } = new();

    public MovableClock Clock { get; } = new();

    public string Folder { get; } = Place.NewFolder();

    public OpenedWorkshop Workshop { get; private set; } = null!;

    public string Address { get; private set; } = "";

    public async ValueTask InitializeAsync()
    {
        Workshop = OpenWorkshop.Run(Folder, Clock).Value!;
        _app = WorkshopApp.Build(Workshop, "http://127.0.0.1:0");
        await _app.StartAsync();
        Address = _app
            .Services.GetRequiredService<IServer>()
            .Features.Get<IServerAddressesFeature>()!
            .Addresses.First();
    }

    public async ValueTask DisposeAsync()
    {
        await Chromium.DisposeAsync();
        if (_app is not null)
        {
            await _app.DisposeAsync();
        }

        Workshop.Dispose();
        Directory.Delete(Folder, recursive: true);
    }

    /// <summary>An order of so many bags with one bold mark, made by the desk itself.</summary>
    public void Make(
        string name,
        int bags = 2,
        string material = "cotton-canvas",
        string due = "2027-05-21",
        string currency = "EUR",
        bool own = false
    )
    {
        var job = OpenApp
            .Job(name, material)
            .Replace("\"quantity\": 2", $"\"quantity\": {bags}", StringComparison.Ordinal)
            .Replace("2027-05-21", due, StringComparison.Ordinal)
            .Replace("\"EUR\"", $"\"{currency}\"", StringComparison.Ordinal)
            .Replace(
                "\"suppliedBy\": \"workshop\"",
                own ? "\"suppliedBy\": \"customer\"" : "\"suppliedBy\": \"workshop\"",
                StringComparison.Ordinal
            );
        var made = new Coldpeel.Desk.Orders.MakeFromFolder(Workshop).Run(
            [
                new("job.json", System.Text.Encoding.UTF8.GetBytes(job)),
                new("mark.svg", System.Text.Encoding.UTF8.GetBytes(OpenApp.Mark)),
            ],
            [],
            1,
            null,
            TestContext.Current.CancellationToken
        );
        Assert.True(made.Ok, made.Fault?.ToString());
    }

    /// <summary>An order of two bags with the demo's crest, drawn too small for its fine lines.</summary>
    /// <param name="name">The order.</param>
    /// <param name="design">What its design is called: findings name it.</param>
    public void MakeDemo(string name, string design = "mark")
    {
        var job = OpenApp
            .Job(name, "cotton-canvas")
            .Replace("\"id\": \"mark\"", $"\"id\": \"{design}\"", StringComparison.Ordinal)
            .Replace("\"design\": \"mark\"", $"\"design\": \"{design}\"", StringComparison.Ordinal)
            .Replace("\"widthMm\": 60", "\"widthMm\": 50", StringComparison.Ordinal);
        var made = new Coldpeel.Desk.Orders.MakeFromFolder(Workshop).Run(
            [
                new("job.json", System.Text.Encoding.UTF8.GetBytes(job)),
                new("mark.svg", File.ReadAllBytes(Path.Combine(Place.Root, "demo", "regatta", "crest.svg"))),
            ],
            [],
            1,
            null,
            TestContext.Current.CancellationToken
        );
        Assert.True(made.Ok, made.Fault?.ToString());
    }

    /// <summary>A new day at the bench over those orders, which the customer has approved.</summary>
    public int StartDay(params string[] orders) => ApprovedDay.Start(Workshop, orders);
}

/// <summary>The machine's clock, moved on by as much as a test wants; searches give their first plan.</summary>
public sealed class MovableClock : FirstPlanClock
{
    private TimeSpan _ahead;

    /// <summary>What searches wait for before they begin.</summary>
    public Task Held { get; set; } = Task.CompletedTask;

    public override DateTimeOffset GetUtcNow() => System.GetUtcNow() + _ahead;

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
    {
        if (dueTime != Timeout.InfiniteTimeSpan)
        {
            // A bound against waiting for ever after a test that failed.
            Held.Wait(TimeSpan.FromMinutes(1));
        }

        return base.CreateTimer(callback, state, dueTime, period);
    }

    public void MoveOn(TimeSpan by) => _ahead += by;
}
