using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Coldpeel.Desk.Orders;
using Coldpeel.Storage.Press;
using Coldpeel.Workshop.Press.Bench;

namespace Coldpeel.Desk.Press.Bench;

/// <summary>A day at the bench in one line.</summary>
/// <param name="Id">Its number.</param>
/// <param name="Name">The orders in it.</param>
/// <param name="Start">When it was opened, local time.</param>
/// <param name="Closed">Whether it was closed.</param>
public sealed record BenchLine(int Id, string Name, DateTimeOffset Start, bool Closed);

/// <summary>A day at the bench with all that a screen needs to go on by itself.</summary>
/// <param name="Id">Its number.</param>
/// <param name="Name">The orders in it.</param>
/// <param name="Start">Second 0 of its plan.</param>
/// <param name="Closed">Whether it was closed.</param>
/// <param name="Plan">Its tasks, with those for what is made again.</param>
/// <param name="Cards">What is shown of each item and sheet.</param>
/// <param name="Events">All that was said.</param>
/// <param name="Now">The instant of this answer.</param>
public sealed record OpenedBench(
    int Id,
    string Name,
    DateTimeOffset Start,
    bool Closed,
    BenchPlan Plan,
    ImmutableArray<BenchCard> Cards,
    ImmutableArray<BenchEvent> Events,
    DateTimeOffset Now
);

/// <summary>What a day has left to do.</summary>
/// <param name="Steps">Steps of hands and plates still to be done.</param>
/// <param name="Items">Items with such a step.</param>
/// <param name="OfItems">Items in all, without those that fell away.</param>
/// <param name="Spoilt">Items and sheets that are spoilt and not made again.</param>
/// <param name="Asked">Presses opened far over their time of which nobody has said whether what lay in them is good.</param>
public sealed record LeftAtBench(int Steps, int Items, int OfItems, int Spoilt, int Asked)
{
    /// <summary>Whether anything is left.</summary>
    public bool Any => Steps > 0 || Spoilt > 0 || Asked > 0;
}

/// <summary>Opens days at the bench.</summary>
public sealed class OpenBench(OpenedWorkshop workshop)
{
    private const int MostLines = 30;

    /// <summary>The last days, and all that are open, newest first.</summary>
    public ImmutableArray<BenchLine> Last() =>
        [.. workshop.Store.Bench.Last(MostLines).Select(d => Line(d.Id, d.Name, d.Start, d.Closed))];

    /// <summary>The day in one line; null when there is none of that number.</summary>
    public BenchLine? Line(int day) =>
        workshop.Store.Bench.Day(day) is { } kept ? Line(kept.Id, kept.Name, kept.Start, kept.Closed) : null;

    /// <summary>What the day has left to do; nothing of a day that is closed; null when there is none of that number.</summary>
    public LeftAtBench? Left(int day)
    {
        if (workshop.Store.Bench.Day(day) is not { } kept)
        {
            return null;
        }

        if (kept.Closed is not null)
        {
            return new(0, 0, 0, 0, 0);
        }

        var progress = BenchProgress.Of(KeptJson.Read<BenchPlan>(kept.PlanJson), Events(day, 0));
        return new(progress.Left, progress.ItemsLeft, progress.Items, progress.Spoilt.Count, progress.Asked.Count);
    }

    private BenchLine Line(int id, string name, DateTimeOffset start, DateTimeOffset? closed) =>
        new(id, name, TimeZoneInfo.ConvertTime(start, workshop.Clock.LocalTimeZone), closed is not null);

    /// <summary>The day; null when there is none of that number.</summary>
    public OpenedBench? Run(int day)
    {
        if (workshop.Store.Bench.Day(day) is not { } kept)
        {
            return null;
        }

        var events = Events(day, 0);
        var plan = KeptJson.Read<BenchPlan>(kept.PlanJson);
        var progress = BenchProgress.Of(plan, events);
        return new(
            kept.Id,
            kept.Name,
            kept.Start,
            kept.Closed is not null,
            plan with
            {
                Tasks = [.. progress.Tasks],
                // They are in the tasks already.
                Changes = [],
                Day = null,
            },
            // Of two cards of one name, the tasks are the first one's.
            [.. KeptJson.Read<BenchCard[]>(kept.CardsJson).DistinctBy(c => c.Ref)],
            events,
            workshop.Clock.GetUtcNow()
        );
    }

    /// <summary>Orders that can be put into a day: approved, and in no open day; the first due first. Null when there is no such day.</summary>
    public ImmutableArray<KeptLine>? ToAdd(int day)
    {
        if (Run(day) is not { } open)
        {
            return null;
        }

        var inside = OrdersIn(open);
        return [.. ToStart().Where(o => !inside.Contains(o.Name))];
    }

    /// <summary>Orders that a day can be started with: approved, and in no day that is open; the first due first.</summary>
    public ImmutableArray<KeptLine> ToStart()
    {
        var held = Open().SelectMany(d => d.Orders).ToHashSet(StringComparer.Ordinal);
        return [.. new ListJobs(workshop).ToPress().Where(o => !held.Contains(o.Name))];
    }

    /// <summary>The day, not closed, that an order stands in; null when none holds it.</summary>
    public BenchLine? Holding(string order) => Open().FirstOrDefault(d => d.Orders.Contains(order)).Day;

    // The days that are not closed, newest first, with the orders whose work is in them.
    private IEnumerable<(BenchLine Day, HashSet<string> Orders)> Open()
    {
        foreach (var day in Last().Where(d => !d.Closed))
        {
            if (Run(day.Id) is { } open)
            {
                yield return (day, OrdersIn(open));
            }
        }
    }

    /// <summary>An order of that day that stands in another one that is open, and which; null for none.</summary>
    internal (string Order, BenchLine Day)? HeldElsewhere(int day)
    {
        var its = Run(day) is { } one ? OrdersIn(one) : [];
        foreach (var (other, orders) in Open().Where(d => d.Day.Id != day))
        {
            if (its.FirstOrDefault(orders.Contains) is { } order)
            {
                return (order, other);
            }
        }

        return null;
    }

    private static HashSet<string> OrdersIn(OpenedBench day)
    {
        var working = day.Plan.Tasks.Select(t => t.Ref).ToHashSet(StringComparer.Ordinal);
        return day.Cards.Where(c => working.Contains(c.Ref)).Select(c => c.Job).ToHashSet(StringComparer.Ordinal);
    }

    /// <summary>What was said on a day after that number.</summary>
    public ImmutableArray<BenchEvent> Events(int day, long after) =>
        [.. workshop.Store.Bench.Events(day, after).Select(Event)];

    /// <summary>Whether the day was closed.</summary>
    public bool IsClosed(int day) => workshop.Store.Bench.IsClosed(day);

    /// <summary>The true times of a day's tasks, for whoever learns from them; null when there is no such day.</summary>
    public ImmutableArray<MeasuredTime>? Times(int day) =>
        workshop.Store.Bench.Day(day) is { } kept
            ? MeasuredTimes.Of(BenchProgress.Of(KeptJson.Read<BenchPlan>(kept.PlanJson), Events(day, 0)))
            : null;

    /// <summary>The same as a table (CSV, RFC 4180); null when there is no such day.</summary>
    public byte[]? TimesTable(int day)
    {
        if (Times(day) is not { } times)
        {
            return null;
        }

        var text = new StringBuilder("task,op,ref,item,press,plannedS,actualS,start,endedAt,who,keptGoodOverS\r\n");
        foreach (var t in times)
        {
            string[] cells =
            [
                t.Task.Id,
                t.Task.Op,
                t.Task.Ref,
                t.Task.Item,
                t.Task.Press ?? "",
                t.PlannedS.ToString(CultureInfo.InvariantCulture),
                t.ActualS.ToString("0.###", CultureInfo.InvariantCulture),
                t.Start == KnownStart.Exact ? "exact" : "bounded",
                t.EndedAt.ToUniversalTime().ToString("O", CultureInfo.InvariantCulture),
                t.Who,
                t.KeptGoodOverS?.ToString(CultureInfo.InvariantCulture) ?? "",
            ];
            text.AppendJoin(',', cells.Select(c => $"\"{c.Replace("\"", "\"\"", StringComparison.Ordinal)}\""))
                .Append("\r\n");
        }

        return Encoding.UTF8.GetBytes(text.ToString());
    }

    internal static BenchEvent Event(StoredBenchEvent e) =>
        new(e.Number, new(e.Key, Enum.Parse<BenchSaying>(e.Saying), e.About, e.Seconds), e.At, e.Who);
}
