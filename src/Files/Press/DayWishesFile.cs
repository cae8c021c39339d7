using System.Collections.Immutable;
using System.Text.Json;
using Coldpeel.Craft.Press.Day;

namespace Coldpeel.Files.Press;

/// <summary>Pins, bans and breaks in a day file: keys of our own, which other readers pass over.</summary>
internal static class DayWishesFile
{
    /// <summary>Tasks set by hand: <c>{ op, ref, start, press?, hand?, exactly? }</c>.</summary>
    public const string PinsKey = "x-pins";

    /// <summary>Presses not to be used: <c>{ press, ref? }</c>.</summary>
    public const string BansKey = "x-bans";

    /// <summary>Hands away: <c>{ from, to, hands }</c>.</summary>
    public const string BreaksKey = "x-breaks";

    private const int MostSeconds = 1_000_000;
    private const int Most = 10_000;

    public static DayWishes Read(DayFileObject root) =>
        new()
        {
            Pins = List(
                root,
                PinsKey,
                o => new DayPin(o.Text("op"), o.Text("ref"), o.Whole("start", 0, MostSeconds), o.OptionalText("press"))
                {
                    Hand = o.Has("hand") ? o.Whole("hand", 1, 100) : null,
                    Exactly = o.Has("exactly") && o.Truth("exactly"),
                }
            ),
            Bans = List(root, BansKey, o => new DayBan(o.Text("press"), o.OptionalText("ref"))),
            Breaks = List(root, BreaksKey, Break),
        };

    /// <summary>Writes what is wished; nothing where nothing is.</summary>
    public static void Write(Utf8JsonWriter json, DayWishes wishes)
    {
        if (!wishes.Pins.IsEmpty)
        {
            DayFileWriter.Each(json, PinsKey, wishes.Pins, Pin);
        }

        if (!wishes.Bans.IsEmpty)
        {
            DayFileWriter.Each(json, BansKey, wishes.Bans, Ban);
        }

        if (!wishes.Breaks.IsEmpty)
        {
            DayFileWriter.Each(json, BreaksKey, wishes.Breaks, Pause);
        }
    }

    private static void Pin(Utf8JsonWriter json, DayPin pin)
    {
        json.WriteString("op", pin.Op);
        json.WriteString("ref", pin.Ref);
        json.WriteNumber("start", pin.Start);
        if (pin.Press is not null)
        {
            json.WriteString("press", pin.Press);
        }

        if (pin.Hand is { } hand)
        {
            json.WriteNumber("hand", hand);
        }

        if (pin.Exactly)
        {
            json.WriteBoolean("exactly", true);
        }
    }

    private static void Ban(Utf8JsonWriter json, DayBan ban)
    {
        json.WriteString("press", ban.Press);
        if (ban.Ref is not null)
        {
            json.WriteString("ref", ban.Ref);
        }
    }

    private static void Pause(Utf8JsonWriter json, DayBreak pause)
    {
        json.WriteNumber("from", pause.From);
        json.WriteNumber("to", pause.To);
        json.WriteNumber("hands", pause.Hands);
    }

    private static DayBreak Break(DayFileObject o)
    {
        var (from, to) = (o.Whole("from", 0, MostSeconds), o.Whole("to", 0, MostSeconds));
        return to > from
            ? new(from, to, o.Has("hands") ? o.Whole("hands", 1, 100) : 1)
            : throw o.Wrong("to", $"is {to}, not after from ({from}).", "Let the break end after it begins.");
    }

    private static ImmutableArray<T> List<T>(DayFileObject root, string key, Func<DayFileObject, T> read) =>
        root.Has(key)
            ?
            [
                .. root.List(key, Most)
                    .Select(o =>
                    {
                        var value = read(o);
                        o.NothingElse();
                        return value;
                    }),
            ]
            : [];
}
