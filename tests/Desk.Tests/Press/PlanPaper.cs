using System.Collections.Immutable;
using System.Text.Json;

namespace Coldpeel.Desk.Tests.Press;

/// <summary>day.json and day-plan.json as the contract describes them, read without any code of the program.</summary>
internal sealed record PlanPaper(
    PlanPaper.Morning Day,
    ImmutableArray<PlanPaper.Op> Ops,
    int MakespanS,
    int BoundS,
    bool Proved
)
{
    /// <summary>A step of the plan.</summary>
    public sealed record Op(string Name, string Ref, int Start, int End, string? Press, int? Hand, int? Rack);

    public sealed record Press(string Id, int Wide, int High, int SetpointC, int FreeAt);

    public sealed record Sheet(
        string Id,
        int AvailableAt,
        int Wide,
        int High,
        int TempC,
        ImmutableDictionary<string, int> Lasts
    );

    /// <summary>A placement; <paramref name="Lasts"/> holds the seconds by the file's own keys.</summary>
    public sealed record Placement(
        string Id,
        string Item,
        string? Sheet,
        string? After,
        int Wide,
        int High,
        int TempC,
        ImmutableDictionary<string, int> Lasts
    );

    public sealed record Morning(
        string Name,
        int Now,
        double HeatCPerMin,
        double CoolCPerMin,
        int Hands,
        int RackPlaces,
        ImmutableArray<Press> Presses,
        ImmutableArray<Sheet> Sheets,
        ImmutableArray<Placement> Placements
    )
    {
        public ImmutableArray<Pin> Pins { get; init; } = [];

        public ImmutableArray<Ban> Bans { get; init; } = [];

        public ImmutableArray<Pause> Pauses { get; init; } = [];
    }

    /// <summary>A task set by hand, as the guide describes it.</summary>
    public sealed record Pin(string Task, string Ref, int Start, string? Press, int? Hand, bool Exactly);

    public sealed record Ban(string Press, string? Ref);

    public sealed record Pause(int From, int To, int Hands);

    private static readonly string[] SheetSeconds = ["load", "press", "peel", "trim"];

    private static readonly string[] PlacementSeconds =
    [
        "load",
        "press",
        "lift",
        "cool",
        "peel",
        "finishLoad",
        "finishPress",
        "unload",
        "inspect",
    ];

    public static PlanPaper Read(string day, string plan)
    {
        using var asked = JsonDocument.Parse(day);
        using var given = JsonDocument.Parse(plan);
        var root = given.RootElement;
        var morning = Asked(asked.RootElement);
        Assert.Equal(morning.Name, Text(root, "day"));
        return new(
            morning,
            [
                .. root.GetProperty("ops")
                    .EnumerateArray()
                    .Select(o => new Op(
                        Text(o, "op")!,
                        Text(o, "ref")!,
                        Whole(o, "start"),
                        Whole(o, "end"),
                        Text(o, "press"),
                        o.TryGetProperty("hand", out var hand) ? hand.GetInt32() : null,
                        o.TryGetProperty("rack", out var rack) ? rack.GetInt32() : null
                    )),
            ],
            Whole(root, "makespanS"),
            Whole(root, "boundS"),
            root.GetProperty("proved").GetBoolean()
        );
    }

    private static Morning Asked(JsonElement day) =>
        new(
            Text(day, "name")!,
            Whole(day, "now"),
            day.GetProperty("heatCPerMin").GetDouble(),
            day.GetProperty("coolCPerMin").GetDouble(),
            Whole(day, "hands"),
            Whole(day, "rackPlaces"),
            [
                .. day.GetProperty("presses")
                    .EnumerateArray()
                    .Select(p => new Press(
                        Text(p, "id")!,
                        Whole(p, "plateW"),
                        Whole(p, "plateH"),
                        Whole(p, "setpointC"),
                        Whole(p, "freeAt")
                    )),
            ],
            [
                .. day.GetProperty("sheets")
                    .EnumerateArray()
                    .Select(s => new Sheet(
                        Text(s, "id")!,
                        Whole(s, "availableAt"),
                        Whole(s, "w"),
                        Whole(s, "h"),
                        Whole(s, "tempC"),
                        SheetSeconds.ToImmutableDictionary(k => k, k => Whole(s, k))
                    )),
            ],
            [
                .. day.GetProperty("placements")
                    .EnumerateArray()
                    .Select(p => new Placement(
                        Text(p, "id")!,
                        Text(p, "item")!,
                        Text(p, "sheet"),
                        Text(p, "after"),
                        Whole(p, "w"),
                        Whole(p, "h"),
                        Whole(p, "tempC"),
                        PlacementSeconds.ToImmutableDictionary(k => k, k => Whole(p, k))
                    )),
            ]
        )
        {
            Pins =
            [
                .. Own(day, "x-pins")
                    .Select(p => new Pin(
                        Text(p, "op")!,
                        Text(p, "ref")!,
                        Whole(p, "start"),
                        Text(p, "press"),
                        p.TryGetProperty("hand", out var hand) ? hand.GetInt32() : null,
                        p.TryGetProperty("exactly", out var exactly) && exactly.GetBoolean()
                    )),
            ],
            Bans = [.. Own(day, "x-bans").Select(b => new Ban(Text(b, "press")!, Text(b, "ref")))],
            Pauses =
            [
                .. Own(day, "x-breaks")
                    .Select(b => new Pause(
                        Whole(b, "from"),
                        Whole(b, "to"),
                        b.TryGetProperty("hands", out var hands) ? hands.GetInt32() : 1
                    )),
            ],
        };

    private static List<JsonElement> Own(JsonElement day, string key) =>
        day.TryGetProperty(key, out var list) ? [.. list.EnumerateArray()] : [];

    private static int Whole(JsonElement of, string key) => of.GetProperty(key).GetInt32();

    private static string? Text(JsonElement of, string key) =>
        of.TryGetProperty(key, out var value) ? value.GetString() : null;
}
