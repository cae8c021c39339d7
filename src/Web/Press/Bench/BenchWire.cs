using System.Text.Json;
using System.Text.Json.Serialization;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Workshop.Press.Bench;

namespace Coldpeel.Web.Press.Bench;

/// <summary>A tap as a screen sends it; instants are milliseconds since 1970, UTC, by the screen's estimate of our clock.</summary>
internal sealed record SentTap(string Key, BenchSaying Saying, string About, int Seconds, long AtMs)
{
    /// <summary>Whether it can be one of ours at all; what it says is judged against the day.</summary>
    public bool Sound =>
        Key is { Length: > 7 and <= BenchTap.LongestText }
        && About is { Length: <= BenchTap.LongestText }
        && Enum.IsDefined(Saying)
        && AtMs is > 0 and < 32_503_680_000_000;
}

/// <summary>What was said, as screens get it.</summary>
internal sealed record ToldEvent(
    long Number,
    string Key,
    BenchSaying Saying,
    string About,
    int Seconds,
    long AtMs,
    string Who
)
{
    public static ToldEvent Of(BenchEvent e) =>
        new(e.Number, e.Tap.Key, e.Tap.Saying, e.Tap.About, e.Tap.Seconds, e.At.ToUnixTimeMilliseconds(), e.Who);
}

/// <summary>What became of a tap, as a screen gets it.</summary>
internal sealed record ToldTap(string Key, ToldEvent? Event, string? Refusal);

/// <summary>News of a day.</summary>
internal sealed record ToldNews(IReadOnlyList<ToldEvent> Events, bool Closed, long NowMs);

/// <summary>A day as a screen gets it.</summary>
internal sealed record ToldDay(
    int Id,
    string Name,
    long StartMs,
    bool Closed,
    int Hands,
    int RackPlaces,
    IReadOnlyList<BenchPress> Presses,
    IReadOnlyList<BenchTask> Tasks,
    IReadOnlyList<BenchCard> Cards,
    IReadOnlyList<ToldEvent> Events,
    long NowMs
)
{
    public static ToldDay Of(OpenedBench day) =>
        new(
            day.Id,
            day.Name,
            day.Start.ToUnixTimeMilliseconds(),
            day.Closed,
            day.Plan.Hands,
            day.Plan.RackPlaces,
            day.Plan.Presses,
            day.Plan.Tasks,
            day.Cards,
            [.. day.Events.Select(ToldEvent.Of)],
            day.Now.ToUnixTimeMilliseconds()
        );
}

/// <summary>The form of what goes to and fro.</summary>
internal static class BenchWire
{
    public static JsonSerializerOptions Form { get; } =
        new(JsonSerializerDefaults.Web)
        {
            Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false) },
            DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        };
}
