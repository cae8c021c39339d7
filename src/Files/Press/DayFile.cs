using System.Collections.Immutable;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Press;

/// <summary>A day file as read: the day, and the seed it asks for, if any.</summary>
public sealed record DayDocument(DayProblem Problem, ulong? Seed);

/// <summary>Reads and writes day files: the presses, hands, sheets and placements of one day, in whole seconds and millimetres.</summary>
public static class DayFile
{
    private const int MostSeconds = 1_000_000;
    private const int MostMm = 10_000;
    private const int MostEntries = 10_000;

    /// <summary>The day in a file; <paramref name="shownName"/> is what its faults call it.</summary>
    public static Outcome<DayProblem> Read(string path, string shownName)
    {
        var read = ReadWithSeed(path, shownName);
        return read.Ok ? read.Value.Problem : read.Fault;
    }

    /// <summary>The day in a file, and its seed.</summary>
    public static Outcome<DayDocument> ReadWithSeed(string path, string shownName) =>
        DayFileText.Read(path, shownName, Day);

    /// <summary>The text of a day file.</summary>
    public static string Write(DayProblem problem, ulong seed) => DayFileWriter.Write(problem, seed);

    /// <summary>A day with what another file adds to it: sheets, orders and placements in the forms of a day file.</summary>
    public static Outcome<DayProblem> ReadAdded(string path, string shownName, DayProblem day) =>
        DayFileText.Read(path, shownName, root => Added(root, day));

    private static DayProblem Added(DayFileObject root, DayProblem day)
    {
        root.Whole("format", 1, 1);
        var more = day with
        {
            Sheets = root.Has("sheets") ? [.. day.Sheets, .. Each(root, "sheets", Sheet)] : day.Sheets,
            Orders = root.Has("orders") ? [.. day.Orders, .. Each(root, "orders", Order)] : day.Orders,
            Placements = [.. day.Placements, .. Each(root, "placements", Placement)],
        };
        DayFileRules.Check(root, more);
        return more;
    }

    private static DayDocument Day(DayFileObject root)
    {
        root.Whole("format", 1, 1);
        var seed = root.OptionalSeed("seed");
        var problem = new DayProblem(
            root.Text("name"),
            root.Whole("now", 0, MostSeconds),
            root.Above("heatCPerMin", 0, 1000),
            root.Above("coolCPerMin", 0, 1000),
            root.Whole("hands", 1, 100),
            root.Whole("rackPlaces", 1, MostEntries),
            Each(root, "presses", Press),
            Each(root, "sheets", Sheet),
            Each(root, "orders", Order),
            Each(root, "placements", Placement),
            root.Has("fixed") ? Each(root, "fixed", Begun) : []
        )
        {
            Wishes = DayWishesFile.Read(root),
        };
        DayFileRules.Check(root, problem);
        return new(problem, seed);
    }

    private static ImmutableArray<T> Each<T>(DayFileObject root, string key, Func<DayFileObject, T> read) =>
        [
            .. root.List(key, MostEntries)
                .Select(o =>
                {
                    var value = read(o);
                    o.NothingElse();
                    return value;
                }),
        ];

    private static DayOrder Order(DayFileObject o) =>
        new(o.Text("id"), o.Whole("due", -MostSeconds, MostSeconds), o.Whole("weight", 0, 1000));

    private static DayPress Press(DayFileObject o) =>
        new(
            o.Text("id"),
            o.Whole("plateW", 1, MostMm),
            o.Whole("plateH", 1, MostMm),
            o.Whole("setpointC", 0, 500),
            o.Whole("freeAt", 0, MostSeconds)
        );

    private static DaySheet Sheet(DayFileObject o) =>
        new(
            o.Text("id"),
            o.Whole("availableAt", 0, MostSeconds),
            o.Whole("w", 1, MostMm),
            o.Whole("h", 1, MostMm),
            o.Whole("tempC", 0, 500),
            Seconds(o, "load"),
            Seconds(o, "press"),
            Seconds(o, "peel"),
            Seconds(o, "trim")
        );

    private static DayPlacement Placement(DayFileObject o) =>
        new(
            o.Text("id"),
            o.Text("item"),
            o.Text("order"),
            o.OptionalText("sheet"),
            o.OptionalText("after"),
            o.Whole("w", 1, MostMm),
            o.Whole("h", 1, MostMm),
            o.Whole("tempC", 0, 500),
            Seconds(o, "load"),
            Seconds(o, "press"),
            Seconds(o, "lift"),
            Seconds(o, "cool"),
            Seconds(o, "peel"),
            Seconds(o, "finishLoad"),
            Seconds(o, "finishPress"),
            Seconds(o, "unload"),
            Seconds(o, "inspect")
        );

    private static DayFixed Begun(DayFileObject o) =>
        new(o.Text("op"), o.Text("ref"), o.OptionalText("press"), o.Whole("start", 0, MostSeconds));

    private static int Seconds(DayFileObject o, string key) => o.Whole(key, 0, 100_000);
}
