using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Nodes;
using Coldpeel.Desk.Rooms;
using Coldpeel.Desk.Shelf;
using Coldpeel.Storage.Orders;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Orders;

/// <summary>An answer that somebody gave to a finding: it is known, and the job goes on.</summary>
/// <param name="Accept">The finding by name: KIND or KIND@ABOUT.</param>
/// <param name="Who">Who answered.</param>
/// <param name="At">When, UTC.</param>
/// <param name="Note">Why.</param>
public sealed record GivenAnswer(string Accept, string Who, DateTimeOffset At, string Note);

/// <summary>Mends of a design that somebody took.</summary>
/// <param name="Design">The design.</param>
/// <param name="Mends">The mends by their words.</param>
/// <param name="Says">What each of them changed, one sentence each.</param>
/// <param name="File">The mended artwork, among the files.</param>
/// <param name="WasJson">The design as the job file had it before.</param>
/// <param name="Who">Who took them.</param>
/// <param name="At">When, UTC.</param>
public sealed record TakenMend(
    string Design,
    ImmutableArray<string> Mends,
    ImmutableArray<Sentence> Says,
    string File,
    string WasJson,
    string Who,
    DateTimeOffset At
);

/// <summary>Bonded transfers that lie on the shelf and are to be used instead of being printed.</summary>
/// <param name="Piece">The piece.</param>
/// <param name="Role">What the shelf knows it by: another print is not taken in its place.</param>
/// <param name="Count">How many.</param>
/// <param name="Who">Who chose so.</param>
/// <param name="At">When, UTC.</param>
public sealed record TakenFromShelf(string Piece, string Role, int Count, string Who, DateTimeOffset At);

/// <summary>What an order is made of: files as they were brought, and what was said about them since.</summary>
/// <param name="Files">Job file, artwork, rosters, by their path in the job's folder.</param>
/// <param name="Answers">Answers to findings.</param>
/// <param name="Mends">Mends of its designs, in the order in which they were taken.</param>
public sealed record OrderSource(
    ImmutableArray<HandedFile> Files,
    ImmutableArray<GivenAnswer> Answers,
    ImmutableArray<TakenMend> Mends
)
{
    /// <summary>Transfers from the shelf.</summary>
    public ImmutableArray<TakenFromShelf> FromShelf { get; init; } = [];

    /// <summary>The order whose spoilt pieces it makes again; null for an order of its own.</summary>
    public string? AgainOf { get; init; }

    /// <summary>Files of the order that begin so are what it was made of.</summary>
    internal const string Prefix = "brought/";

    /// <summary>The workshop file that an order without one of its own is made with.</summary>
    internal const string BookFile = "book.json";

    internal const string Said = "brought.json";

    private static readonly JsonSerializerOptions Readable = new() { WriteIndented = true };

    /// <summary>Whether a kept file is part of a source, and no paper.</summary>
    internal static bool IsPart(string name) =>
        name is Said or BookFile || name.StartsWith(Prefix, StringComparison.Ordinal);

    /// <summary>The workshop file it is made with, as it was when it was made first; null for the present one.</summary>
    internal byte[]? Book { get; init; }

    /// <summary>The job file's path; null when none of the files is one.</summary>
    internal string? JobFile
    {
        get
        {
            if (Files.Any(f => f.Name == "job.json"))
            {
                return "job.json";
            }

            var only = Files.Where(f => f.Name.EndsWith(".json", StringComparison.OrdinalIgnoreCase)).Take(2).ToArray();
            return only.Length == 1 ? only[0].Name : null;
        }
    }

    /// <summary>The job file as an object that can be changed; null when it is none.</summary>
    internal JsonObject? Job =>
        Files.FirstOrDefault(f => f.Name == JobFile) is { } file
            ? JsonNode.Parse(WithoutMark(file.Content)) as JsonObject
            : null;

    /// <summary>The order's name as the job file has it; null where it cannot be read: then making it says why.</summary>
    internal string? Name => Told("job");

    /// <summary>Language of the customer's papers; null for the workshop's.</summary>
    internal string? Language =>
        Told(OrderHead.LanguageKey) is { } language && KeepSettings.Languages.Contains(language) ? language : null;

    /// <summary>The same with another job file.</summary>
    internal OrderSource WithJob(JsonObject job) => With(JobFile!, JsonSerializer.SerializeToUtf8Bytes(job, Readable));

    /// <summary>The same with that file put in or replaced.</summary>
    internal OrderSource With(string name, byte[] content) =>
        this with
        {
            Files = [.. Files.Where(f => f.Name != name), new HandedFile(name, content)],
        };

    // A job file that cannot be read tells nothing: making it says why.
    private string? Told(string key)
    {
        try
        {
            return Job?[key] is JsonValue told && told.TryGetValue<string>(out var text) ? text : null;
        }
        catch (Exception unreadable) when (unreadable is JsonException or ArgumentException)
        {
            return null;
        }
    }

    // Some editors begin a file with the mark of its byte order (RFC 8259, 8.1: a reader may ignore it).
    private static ReadOnlySpan<byte> WithoutMark(byte[] content) =>
        content is [0xEF, 0xBB, 0xBF, ..] ? content.AsSpan(3) : content;

    /// <summary>The files under which it is kept.</summary>
    internal IEnumerable<(string Name, byte[] Content)> ToKeep() =>
        [
            .. Files.Select(f => (Prefix + f.Name, f.Content)),
            (
                Said,
                System.Text.Encoding.UTF8.GetBytes(
                    KeptJson.Write(new SaidSince(Answers, Mends) { FromShelf = FromShelf, AgainOf = AgainOf })
                )
            ),
            .. Book is null ? [] : new[] { (BookFile, Book) },
        ];

    /// <summary>The source of a kept order; null when it was kept by a version that kept none.</summary>
    internal static OrderSource? Of(OpenedWorkshop workshop, StoredOrder order)
    {
        var name = order.Job.Name;
        if (workshop.Store.Content(name, Said) is not { } said)
        {
            return null;
        }

        var since = KeptJson.Read<SaidSince>(System.Text.Encoding.UTF8.GetString(said));
        return new(
            [
                .. order
                    .Files.Where(f => f.Name.StartsWith(Prefix, StringComparison.Ordinal))
                    .Select(f => new HandedFile(f.Name[Prefix.Length..], workshop.Store.Content(name, f.Name)!)),
            ],
            since.Answers,
            since.Mends
        )
        {
            FromShelf = since.FromShelf,
            AgainOf = since.AgainOf,
            Book = BookOf(workshop, order.Job),
        };
    }

    /// <summary>The workshop file that a kept order was made with; as far as the history tells, where an earlier version kept none.</summary>
    internal static byte[] BookOf(OpenedWorkshop workshop, StoredJob job) =>
        workshop.Store.Content(job.Name, BookFile)
        ?? System.Text.Encoding.UTF8.GetBytes(new OwnBook(workshop).At(job.MadeAt));

    /// <summary>What was said since, without reading the files; null when nothing is kept.</summary>
    internal static SaidSince? SaidOf(OpenedWorkshop workshop, string order) =>
        workshop.Store.Content(order, Said) is { } said
            ? KeptJson.Read<SaidSince>(System.Text.Encoding.UTF8.GetString(said))
            : null;
}

/// <summary>What was said of an order since it was brought.</summary>
/// <param name="Answers">Answers to findings.</param>
/// <param name="Mends">Mends of designs.</param>
public sealed record SaidSince(ImmutableArray<GivenAnswer> Answers, ImmutableArray<TakenMend> Mends)
{
    /// <summary>Transfers from the shelf.</summary>
    public ImmutableArray<TakenFromShelf> FromShelf { get; init; } = [];

    /// <summary>The order whose spoilt pieces it makes again; null for an order of its own.</summary>
    public string? AgainOf { get; init; }
}
