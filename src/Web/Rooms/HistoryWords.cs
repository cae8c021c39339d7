using System.Globalization;
using Coldpeel.Desk.Rooms;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Orders;
using Coldpeel.Web.Shelf;
using Coldpeel.Web.Shelf.Book;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Web.Rooms;

/// <summary>A line of the history as people read it.</summary>
/// <param name="What">What was done, in the reader's language.</param>
/// <param name="More">What is told of it, in the reader's language where the store wrote it; empty for nothing.</param>
internal sealed record HistoryLine(string What, string More);

/// <summary>The history in the reader's words: the store writes it in English, in few forms.</summary>
internal static class HistoryWords
{
    private const string SetTo = "set to ";

    /// <summary>The kind of thing that a change is named by: its name for most, words for settings and parts of the workshop file.</summary>
    public static string Name(PastChange change) =>
        change.Of switch
        {
            "setting" => SettingWords.Key(change.Name),
            "book" => BookPart.Word(change.Name),
            "stock" => Say.Kept(change.Name),
            _ => change.Name,
        };

    /// <summary>What was done.</summary>
    public static HistoryLine Of(PastChange change) =>
        change.Of switch
        {
            "order" => Order(change.What),
            "setting" => Plain(
                change.What.StartsWith(SetTo, StringComparison.Ordinal)
                    ? Say.Kept(SetTo + SettingWords.Value(change.Name, change.What[SetTo.Length..]))
                    : Say.Kept(change.What)
            ),
            "stock" => Cut(change.What),
            // Its fields are told beside it; what is too long ago for that stands as it was written.
            "book" => Plain(change.Fields.IsEmpty ? Say.Kept(change.What) : ""),
            _ => Plain(Say.Kept(change.What)),
        };

    private static HistoryLine Order(string what)
    {
        // A step, and what a person wrote of it.
        var (head, more) = what.IndexOf(": ", StringComparison.Ordinal) is var cut and > 0
            ? (what[..cut], what[(cut + 2)..])
            : (what, "");
        return Enum.TryParse<OrderStep>(head, out var step)
            ? new(Way.Done(step), Say.Kept(more))
            : Plain(Say.Kept(what));
    }

    // "+5 sheets: for a trial": the amount, and why.
    private static HistoryLine Cut(string what)
    {
        var (amount, why) = what.IndexOf(": ", StringComparison.Ordinal) is var cut and > 0
            ? (what[..cut], what[(cut + 2)..])
            : ("", what);
        var said =
            amount.Split(' ', 2) is [var by, var unit]
            && decimal.TryParse(by, NumberStyles.Number, CultureInfo.InvariantCulture, out var count)
                ? (count > 0 ? "+" : "") + UnitWords.Amount(count, unit)
                : amount;
        return new(said, Say.Kept(why));
    }

    private static HistoryLine Plain(string what) => new(what, "");
}
