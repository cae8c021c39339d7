using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using Coldpeel.Desk.Rooms;
using Coldpeel.Files.Orders;
using Coldpeel.Storage.Rooms;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Shelf;

/// <summary>What became of a change of the workshop file.</summary>
/// <param name="Faults">What is wrong, each at its place.</param>
/// <param name="Cautions">What to know before it is kept.</param>
/// <param name="Moved">The change that somebody else made meanwhile; null where nobody did.</param>
public sealed record BookEdit(ImmutableArray<Fault> Faults, ImmutableArray<RecipeCaution> Cautions, BookVersion? Moved)
{
    /// <summary>Whether it holds now.</summary>
    public bool Kept => Faults.IsEmpty && Cautions.IsEmpty && Moved is null;
}

/// <summary>Changes the workshop file: a new version each time, and nothing is overwritten.</summary>
public sealed class EditBook(OpenedWorkshop workshop)
{
    private const string Shown = "the workshop";

    private static readonly BookEdit Done = new([], [], null);

    /// <summary>What holds, as a copy to be changed.</summary>
    public JsonObject Whole() => new OwnBook(workshop).Whole;

    /// <summary>Stands for what a part holds: another one when it was changed.</summary>
    public string Stand(BookSection section) => Stand(Whole(), section);

    /// <summary>What somebody else changed in a part since; null for nothing.</summary>
    /// <param name="section">The part.</param>
    /// <param name="stand">What <see cref="Stand(BookSection)"/> was.</param>
    public BookVersion? MovedSince(BookSection section, string stand) =>
        Stand(section) == stand ? null : Newest(section) ?? BookVersion.Unknown;

    /// <summary>Stands for what was wished: cautions that were seen for it count for nothing else.</summary>
    public static string Seen(JsonObject wished)
    {
        ArgumentNullException.ThrowIfNull(wished);
        return Stand(wished, BookSection.Recipes);
    }

    /// <summary>The workshop file for `make` and for other folders.</summary>
    public byte[] File() => Encoding.UTF8.GetBytes(BookParts.WriteReadable(Whole()));

    /// <summary>Keeps a part of the wished file as a new version.</summary>
    /// <param name="section">The part that was changed.</param>
    /// <param name="wished">The file with that change.</param>
    /// <param name="stand">What <see cref="Stand(BookSection)"/> was when the change was begun.</param>
    /// <param name="sure">Whether cautions were seen, and it shall be kept all the same.</param>
    /// <param name="who">Who changes it.</param>
    public BookEdit Keep(BookSection section, JsonObject wished, string stand, bool sure, string who)
    {
        ArgumentNullException.ThrowIfNull(wished);
        var own = new OwnBook(workshop);
        var (kept, before) = (own.Kept, own.Whole);
        if (Stand(before, section) != stand)
        {
            return Done with { Moved = Newest(section) ?? BookVersion.Unknown };
        }

        return Keep([section], kept, before, BookParts.With(before, section, BookParts.Of(wished, section)), sure, who);
    }

    /// <summary>What would change if a file were taken in; the fault is of the file.</summary>
    public Outcome<TakenIn> Look(byte[] file, string shownName)
    {
        ArgumentNullException.ThrowIfNull(file);
        var faults = WorkshopBookReader.Faults(file, shownName);
        if (!faults.IsEmpty)
        {
            return faults[0];
        }

        var (before, wished) = (Whole(), BookParts.Read(Encoding.UTF8.GetString(WithoutMark(file))));
        if (Ahead(before, wished) is { } ahead)
        {
            return ahead;
        }

        return new TakenIn(
            BookParts.Write(wished),
            string.Join('.', BookParts.All.Select(s => Stand(before, s))),
            [.. BookParts.All.SelectMany(s => BookDiff.Of(before, wished, s))],
            Cautions(before, wished)
        );
    }

    /// <summary>Takes a whole file in as a new version of each part that differs.</summary>
    /// <param name="text">The file, from <see cref="Look"/>.</param>
    /// <param name="stand">What stood when it was looked at.</param>
    /// <param name="who">Who takes it in.</param>
    public BookEdit TakeIn(string text, string stand, string who)
    {
        var faults = WorkshopBookReader.Faults(Encoding.UTF8.GetBytes(text), Shown);
        if (!faults.IsEmpty)
        {
            return Done with { Faults = faults };
        }

        var own = new OwnBook(workshop);
        var (kept, before) = (own.Kept, own.Whole);
        return string.Join('.', BookParts.All.Select(s => Stand(before, s))) != stand
            ? Done with
            {
                Moved = Newest(BookSection.Recipes) ?? BookVersion.Unknown,
            }
            : Keep(BookParts.All, kept, before, BookParts.Read(text), true, who);
    }

    /// <summary>Keeps the answers to the questions of the first start, which the workshop file holds.</summary>
    internal Fault? Answer(WorkshopAnswers answers, string who)
    {
        var own = new OwnBook(workshop);
        var (kept, before) = (own.Kept, own.Whole);
        var wished = own.Whole;
        AnsweredBook.Lay(wished, answers);
        var edit = Keep(BookParts.All, kept, before, wished, true, who);
        return edit.Faults.FirstOrDefault()
            ?? (
                edit.Moved is null
                    ? null
                    : new Fault("The workshop", "was changed by somebody else meanwhile.", "Look at it again.")
            );
    }

    private BookEdit Keep(
        ImmutableArray<BookSection> sections,
        string? kept,
        JsonObject before,
        JsonObject wished,
        bool sure,
        string who
    )
    {
        var text = BookParts.Write(wished);
        var faults = WorkshopBookReader.Faults(Encoding.UTF8.GetBytes(text), Shown);
        if (!faults.IsEmpty)
        {
            return Done with { Faults = faults };
        }

        if (Ahead(before, wished) is { } ahead)
        {
            return Done with { Faults = [ahead] };
        }

        if (!sure && Cautions(before, wished) is { IsEmpty: false } cautions)
        {
            return Done with { Cautions = cautions };
        }

        wished = BookParts.Read(text);
        var notes = sections
            .Select(s => (Section: s, Differences: BookDiff.Of(before, wished, s)))
            .Where(c => !c.Differences.IsEmpty)
            .Select(c => new SettingNote(
                OwnBook.Kind,
                BookParts.Name(c.Section),
                BookDiff.Told(c.Differences),
                BookParts.Write(BookParts.Of(before, c.Section))
            ))
            .ToArray();
        return notes.Length == 0 || workshop.Store.Rooms.Change(OwnBook.Key, kept, text, notes, workshop.Now, who)
            ? Done
            : Done with
            {
                Moved = Newest(sections[0]) ?? BookVersion.Unknown,
            };
    }

    // A wash trial is evidence once it has ended; those that were kept before stay as they are.
    private Fault? Ahead(JsonObject before, JsonObject wished)
    {
        var known = Trials(before).Select(t => t?.ToJsonString()).ToHashSet();
        foreach (var (at, trial) in Trials(wished).Index().Where(t => !known.Contains(t.Item?.ToJsonString())))
        {
            if (
                DateOnly.TryParseExact(
                    (string?)trial?["on"],
                    "yyyy-MM-dd",
                    CultureInfo.InvariantCulture,
                    DateTimeStyles.None,
                    out var day
                )
                && day > workshop.Today
            )
            {
                return new("The day", "is still to come.", "Write the day the trial ended.")
                {
                    At = string.Create(CultureInfo.InvariantCulture, $"/washTrials/{at}/on"),
                    Kind = FaultKind.Bounds,
                };
            }
        }

        return null;
    }

    private static JsonArray Trials(JsonObject whole) => whole["washTrials"] as JsonArray ?? [];

    private ImmutableArray<RecipeCaution> Cautions(JsonObject before, JsonObject wished) =>
        JsonNode.DeepEquals(BookParts.Of(before, BookSection.Recipes), BookParts.Of(wished, BookSection.Recipes))
            ? []
            : JudgeRecipes.Run(
                workshop.Books.Read(BookParts.Write(before)),
                workshop.Books.Read(BookParts.Write(wished))
            );

    private BookVersion? Newest(BookSection section) => new BookVersions(workshop).List(section).FirstOrDefault();

    private static string Stand(JsonObject whole, BookSection section) =>
        Convert.ToHexStringLower(
            SHA256.HashData(Encoding.UTF8.GetBytes(BookParts.Write(BookParts.Of(whole, section))))
        )[..16];

    private static ReadOnlySpan<byte> WithoutMark(byte[] content) =>
        content is [0xEF, 0xBB, 0xBF, ..] ? content.AsSpan(3) : content;
}

/// <summary>A workshop file that was brought, before it is taken in.</summary>
/// <param name="Text">The file.</param>
/// <param name="Stand">What stood when it was looked at.</param>
/// <param name="Differences">What it would change.</param>
/// <param name="Cautions">What to know before.</param>
public sealed record TakenIn(
    string Text,
    string Stand,
    ImmutableArray<BookDifference> Differences,
    ImmutableArray<RecipeCaution> Cautions
);
