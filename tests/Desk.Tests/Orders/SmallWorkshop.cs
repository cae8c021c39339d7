using System.Text;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Desk.Rooms;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Tests.Orders;

/// <summary>A workshop of its own over a real database, with small orders that are made in a second.</summary>
internal sealed class SmallWorkshop : IDisposable
{
    private readonly string _folder = Place.NewFolder();

    public SmallWorkshop()
    {
        var opened = OpenWorkshop.Run(_folder, TimeProvider.System);
        Assert.True(opened.Ok, opened.Fault?.ToString());
        Workshop = opened.Value;
    }

    public OpenedWorkshop Workshop { get; }

    /// <summary>Two strokes of 0.2 mm, which no toner holds, and a bold one: something to mend that is soon mended.</summary>
    public const string Fine =
        """<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20" width="40mm" height="20mm"><rect x="2" y="2" width="36" height="4"/><rect x="2" y="10" width="36" height="0.2"/><rect x="2" y="15" width="36" height="0.2"/></svg>""";

    /// <summary>One bold mark: 40 × 20 mm in a frame of 60 × 40.</summary>
    public const string Bold =
        """<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 60 40" width="60mm" height="40mm"><rect x="10" y="10" width="40" height="20"/></svg>""";

    /// <summary>The job file of two bags with one mark.</summary>
    public static string Job(string name, double widthMm, string material = "cotton-canvas", string use = "everyday") =>
        FormattableString.Invariant(
            $$"""
            {
              "job": "{{name}}", "customer": "Alder Reach Tea Tent", "due": "2027-05-21", "currency": "EUR",
              "designs": [{ "id": "mark", "file": "mark.svg", "widthMm": {{widthMm}}, "prints": "dark" }],
              "items": [{ "id": "bag", "what": "tote", "material": "{{material}}", "colour": "#2b2d31", "quantity": 2,
                "suppliedBy": "workshop", "use": "{{use}}", "placements": [{ "design": "mark", "at": "bag front" }] }]
            }
            """
        );

    /// <summary>Brings an order as a person would.</summary>
    public MadeJob Bring(params (string Name, string Text)[] files)
    {
        var made = Try(files);
        Assert.True(made.Ok, made.Fault?.ToString());
        return made.Value;
    }

    /// <summary>The same where it may be refused.</summary>
    public Outcome<MadeJob> Try(params (string Name, string Text)[] files) =>
        new MakeFromFolder(Workshop).Run(
            [.. files.Select(f => new HandedFile(f.Name, Encoding.UTF8.GetBytes(f.Text)))],
            [],
            2,
            null,
            TestContext.Current.CancellationToken,
            "Mira"
        );

    /// <summary>Keeps the customer's approval, where there is none yet.</summary>
    public void Approve(params string[] orders)
    {
        var steps = new StepOrder(Workshop);
        foreach (var order in orders.Where(o => steps.SoFar(o, stopped: false).Stage == OrderStage.Made))
        {
            Assert.Null(steps.Approve(order, new("Ada", "by letter", false, ""), null, "Mira"));
        }
    }

    /// <summary>A day at the bench over approved orders.</summary>
    public int StartDay(params string[] orders)
    {
        Approve(orders);
        var started = new StartBench(Workshop).Run(orders, TestContext.Current.CancellationToken);
        Assert.True(started.Ok, started.Fault?.ToString());
        return started.Value.Day;
    }

    /// <summary>A file of a kept order.</summary>
    public byte[] File(string order, string name) => new FetchFile(Workshop).Run(order, name)!.Content;

    /// <summary>What the history says of an order, newest first.</summary>
    public string[] History(string order) =>
        [.. new LookBack(Workshop).Newest("order", order, null, 200).Select(c => $"{c.Who}: {c.What}")];

    public void Dispose()
    {
        Workshop.Dispose();
        Directory.Delete(_folder, recursive: true);
    }
}
