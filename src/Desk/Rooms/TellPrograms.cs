using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Coldpeel.Desk.Orders;
using Coldpeel.Storage.History;
using Coldpeel.Storage.Rooms;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Rooms;

/// <summary>A signed message that an address waits for.</summary>
/// <param name="Hook">Number of the address.</param>
/// <param name="Event">Number of the change it tells; rising, and the same when it is sent again.</param>
/// <param name="Address">Where it goes, by POST.</param>
/// <param name="Headers">Its fields, those of the body too.</param>
/// <param name="Body">Its body, JSON in UTF-8.</param>
public sealed record HookMessage(
    int Hook,
    long Event,
    Uri Address,
    ImmutableArray<(string Name, string Value)> Headers,
    ReadOnlyMemory<byte> Body
);

/// <summary>What happened to an order, as other programs are told.</summary>
/// <param name="Event">Rising number.</param>
/// <param name="At">When, UTC.</param>
/// <param name="What">What: made, made-again, approve, print, press, inspect, hand-over, set-aside, take-back, change, or changed.</param>
/// <param name="Note">What was written with it.</param>
/// <param name="Name">Name of the order.</param>
/// <param name="Order">How it stands now; null when it is no longer kept.</param>
public sealed record ToldEvent(long Event, DateTimeOffset At, string What, string? Note, string Name, ToldOrder? Order);

/// <summary>Says what the addresses of other programs wait for, and notes what became of it.</summary>
/// <remarks>Every message is told at least once, in order, for as long as the address holds: what was told is a number in
/// the same store as the changes themselves, so a killed program loses nothing.</remarks>
public sealed class TellPrograms(OpenedWorkshop workshop)
{
    private const int LongestAnswer = 200;
    private const int Gone = 410;
    private static readonly TimeSpan FirstWait = TimeSpan.FromSeconds(30);
    private static readonly TimeSpan LongestWait = TimeSpan.FromHours(6);
    private static readonly ImmutableArray<string> Covered =
    [
        "@method",
        "@target-uri",
        "content-type",
        "content-digest",
    ];

    /// <summary>Name of an address's secret.</summary>
    public static string KeyId(int hook) => string.Create(CultureInfo.InvariantCulture, $"coldpeel-hook-{hook}");

    /// <summary>The next message of every address that waits for one and may be asked now.</summary>
    public ImmutableArray<HookMessage> Due()
    {
        var now = workshop.Now;
        return
        [
            .. workshop
                .Store.Programs.Hooks()
                .Where(h => h.Ended is null && h.Next <= now)
                .Select(h =>
                    workshop.Store.History.After("order", h.ToldUpTo, 1) is [var change] ? Message(h, change) : null
                )
                .OfType<HookMessage>(),
        ];
    }

    /// <summary>Notes what became of a message.</summary>
    /// <param name="message">The message.</param>
    /// <param name="status">Status of the answer; null when nobody answered.</param>
    /// <param name="words">The answer in words.</param>
    public void Note(HookMessage message, int? status, string words)
    {
        ArgumentNullException.ThrowIfNull(message);
        ArgumentNullException.ThrowIfNull(words);
        var answer = words.Length > LongestAnswer ? words[..LongestAnswer] : words;
        var programs = workshop.Store.Programs;
        if (status is >= 200 and < 300)
        {
            programs.Told(message.Hook, message.Event, answer);
        }
        else if (status == Gone)
        {
            programs.EndHook(message.Hook, workshop.Now, "the address itself", "ended: it answered 410 Gone");
        }
        else
        {
            var missed = (programs.Hooks().FirstOrDefault(h => h.Id == message.Hook)?.Missed ?? 0) + 1;
            programs.Missed(message.Hook, missed, workshop.Now + Wait(missed), answer);
        }
    }

    /// <summary>How long to wait after so many misses in a row: 30 s, then four times as long each, at most 6 h.</summary>
    internal static TimeSpan Wait(int missed)
    {
        var wait = FirstWait * Math.Pow(4, Math.Min(missed, 10) - 1);
        return wait < LongestWait ? wait : LongestWait;
    }

    private HookMessage Message(StoredHook hook, StoredChange change)
    {
        const string type = "application/json";
        var body = Encoding.UTF8.GetBytes(KeptJson.Write(Event(change)));
        var digest = MessageSignature.Digest(body);
        var parameters = MessageSignature.Parameters(Covered, workshop.Now, KeyId(hook.Id));
        string[] values = ["POST", hook.Address, type, digest];
        var signature = MessageSignature.Sign(
            MessageSignature.Base(Covered.Zip(values), parameters),
            Convert.FromBase64String(hook.Secret)
        );
        return new(
            hook.Id,
            change.Number,
            new Uri(hook.Address),
            [
                ("Content-Type", type),
                ("Content-Digest", digest),
                ("Signature-Input", $"coldpeel={parameters}"),
                ("Signature", $"coldpeel=:{signature}:"),
            ],
            body
        );
    }

    private ToldEvent Event(StoredChange change)
    {
        var (what, note) = What(change.What);
        var order = new OpenKeptJob(workshop).Run(change.Name);
        return new(
            change.Number,
            change.At.ToUniversalTime(),
            what,
            note,
            change.Name,
            order is null ? null : ToldOrder.Of(order.Line)
        );
    }

    private static (string What, string? Note) What(string said)
    {
        const string again = "made again";
        if (said.StartsWith(again, StringComparison.Ordinal))
        {
            var rest = said[again.Length..].TrimStart(':', ';', ' ');
            return ("made-again", rest.Length == 0 ? null : rest);
        }

        var colon = said.IndexOf(": ", StringComparison.Ordinal);
        var (head, note) = colon < 0 ? (said, null) : (said[..colon], said[(colon + 2)..]);
        return head switch
        {
            "made" => ("made", null),
            _ when Enum.TryParse<OrderStep>(head, out var step) => (KeptJson.Write(step).Trim('"'), note),
            _ => ("changed", said),
        };
    }
}
