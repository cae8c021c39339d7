using System.Text;
using System.Text.Json.Nodes;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Rooms;
using Coldpeel.Files.Orders;
using Coldpeel.Storage;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Shelf;

/// <summary>The workshop file that holds where a job names none: the owner's own, or until there is one the built-in example with the answers of the first start.</summary>
internal sealed class OwnBook(OpenedWorkshop workshop)
{
    /// <summary>The setting that holds it.</summary>
    public const string Key = "book";

    /// <summary>The kind under which the history has its changes.</summary>
    public const string Kind = "book";

    /// <summary>The owner's own as it is kept; null until the first change.</summary>
    public string? Kept => workshop.Store.Rooms.Setting(Key);

    /// <summary>What holds, as text.</summary>
    public string Text => Kept ?? workshop.Books.Answered(new KeepAnswers(workshop).Given());

    /// <summary>What holds, to be changed.</summary>
    public JsonObject Whole => BookParts.Read(Text);

    /// <summary>What holds, read.</summary>
    public WorkshopBook Read() => Read(Text);

    /// <summary>The workshop that an order is made with: the one it has kept, else the present one.</summary>
    public WorkshopBook For(OrderSource source) => source.Book is { } own ? Read(Encoding.UTF8.GetString(own)) : Read();

    /// <summary>What held at an instant, as far as the history tells.</summary>
    public string At(DateTimeOffset instant)
    {
        var whole = Whole;
        foreach (var section in BookParts.All)
        {
            var next = Changes(section).TakeWhile(c => c.At > instant).LastOrDefault();
            if (next?.BeforeJson is { } before)
            {
                whole = BookParts.With(whole, section, BookParts.Read(before));
            }
        }

        return BookParts.Write(whole);
    }

    /// <summary>The changes of a part, newest first.</summary>
    public IReadOnlyList<Storage.History.StoredChange> Changes(BookSection section, int most = 200) =>
        workshop.Store.History.Of(Kind, BookParts.Name(section), null, most);

    /// <summary>Whether an order's own is what holds now.</summary>
    public bool IsPresent(string order) =>
        workshop.Store.Hash(order, OrderSource.BookFile) is not { } hash
        || hash == WorkshopStore.HashOf(Encoding.UTF8.GetBytes(Text));

    private WorkshopBook Read(string text)
    {
        var book = workshop.Books.Read(text);
        var network = new KeepSettings(workshop).Now();
        // The codes on tickets lead to where a tablet finds the workshop.
        return network.Network && NetworkCertificate.Hosts() is [{ } host, ..]
                ? book with
                {
                    AppUrl = string.Create(
                        System.Globalization.CultureInfo.InvariantCulture,
                        $"https://{host}:{network.Port}"
                    ),
                }
            : workshop.Served is { } served && book.AppUrl == OpenWorkshop.UsualUrl ? book with { AppUrl = served }
            : book;
    }
}

/// <summary>Workshop files that were read already: every page asks for one.</summary>
internal sealed class ReadBooks
{
    // The present one, and those of a few orders.
    private const int Most = 8;

    private static readonly Lazy<string> Example = new(() =>
        BookParts.Write(BookParts.Read(Encoding.UTF8.GetString(WorkshopBookReader.ExampleText())))
    );

    private readonly Lock _reading = new();
    private readonly List<(string Text, WorkshopBook Book)> _known = [];
    private (string Answers, string Text)? _answered;

    /// <summary>The workshop of a text that was kept, and so was found good.</summary>
    public WorkshopBook Read(string text)
    {
        lock (_reading)
        {
            var at = _known.FindIndex(k => k.Text == text);
            if (at >= 0)
            {
                return _known[at].Book;
            }
        }

        if (text == Answered(null))
        {
            return WorkshopBookReader.Example();
        }

        var book = WorkshopBookReader.Kept(Encoding.UTF8.GetBytes(text));
        lock (_reading)
        {
            _known.Insert(0, (text, book));
            _known.RemoveRange(Math.Min(Most, _known.Count), Math.Max(0, _known.Count - Most));
            return book;
        }
    }

    /// <summary>The built-in example with the answers of the first start over it, in one line.</summary>
    public string Answered(WorkshopAnswers? answers)
    {
        if (answers is null)
        {
            return Example.Value;
        }

        var key = KeptJson.Write(answers);
        lock (_reading)
        {
            if (_answered is { } known && known.Answers == key)
            {
                return known.Text;
            }

            var book = BookParts.Read(Example.Value);
            AnsweredBook.Lay(book, answers);
            var text = BookParts.Write(book);
            _answered = (key, text);
            return text;
        }
    }
}
