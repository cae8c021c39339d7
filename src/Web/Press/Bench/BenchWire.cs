using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Serialization;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Web.Layout;
using Coldpeel.Workshop.Findings;
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
        new(
            e.Number,
            e.Tap.Key,
            e.Tap.Saying,
            e.Tap.About,
            e.Tap.Seconds,
            e.At.ToUnixTimeMilliseconds(),
            Say.Who(e.Who)
        );
}

/// <summary>What became of a tap, as a screen gets it.</summary>
internal sealed record ToldTap(string Key, ToldEvent? Event, string? Refusal);

/// <summary>News of a day.</summary>
internal sealed record ToldNews(IReadOnlyList<ToldEvent> Events, bool Closed, long NowMs, string BroughtBack);

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
    long NowMs,
    string BroughtBack,
    int FarOverFloorS
)
{
    public static ToldDay Of(OpenedBench day, string broughtBack) =>
        new(
            day.Id,
            day.Name,
            day.Start.ToUnixTimeMilliseconds(),
            day.Closed,
            day.Plan.Hands,
            day.Plan.RackPlaces,
            day.Plan.Presses,
            day.Plan.Tasks,
            [.. day.Cards.Select(Worded)],
            [.. day.Events.Select(ToldEvent.Of)],
            day.Now.ToUnixTimeMilliseconds(),
            broughtBack,
            FarOver.FloorS
        );

    // The workshop's own words stay as they are; those of the built-in example are worded for whoever reads.
    private static BenchCard Worded(BenchCard card) =>
        card with
        {
            Title = Say.Kept(card.Title),
            Material = Say.Words.Data(card.Material),
            Place = card.Place is { } place
                ? place with
                {
                    Name = Say.Words.Data(place.Name),
                    From = Say.Words.Data(place.From),
                    Across = Say.Words.Data(place.Across),
                }
                : null,
            Settings = card.Settings.ToImmutableDictionary(
                s => s.Key,
                s =>
                    s.Value with
                    {
                        Cover = s.Value.Cover is { } cover ? Say.Words.Data(cover) : null,
                        Say = Say.Words.Data(s.Value.Say),
                    }
            ),
        };
}

/// <summary>A sentence as the screen's reader has it worded; it is never read back.</summary>
internal sealed class WordedSentence : JsonConverter<Sentence>
{
    /// <inheritdoc/>
    public override Sentence? Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
        reader.GetString();

    /// <inheritdoc/>
    public override void Write(Utf8JsonWriter writer, Sentence value, JsonSerializerOptions options) =>
        writer.WriteStringValue(Say.Sentence(value));
}

/// <summary>The form of what goes to and fro.</summary>
internal static class BenchWire
{
    public static JsonSerializerOptions Form { get; } =
        new(JsonSerializerDefaults.Web)
        {
            Converters =
            {
                new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false),
                new WordedSentence(),
            },
            DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        };
}
