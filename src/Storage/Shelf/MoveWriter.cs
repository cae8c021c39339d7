using System.Text.Json;
using Coldpeel.Storage.Database;

namespace Coldpeel.Storage.Shelf;

/// <summary>A movement of one thing that is about to be written.</summary>
/// <param name="Key">What it is known by: the same key is written once.</param>
/// <param name="By">How many come; below zero, how many go.</param>
/// <param name="Why">What for.</param>
/// <param name="AtMs">When, in ms since 1970 UTC.</param>
/// <param name="Who">Who.</param>
internal sealed record Movement(string Key, decimal By, string Why, long AtMs, string Who)
{
    /// <summary>The order whose work moves it; null where hands do.</summary>
    public string? Job { get; init; }

    /// <summary>The step or tap that moves it; null where hands do.</summary>
    public string? Cause { get; init; }
}

/// <summary>Writes what happens to a thing on the shelf: its count, the movement and the line in the history stand together.</summary>
internal static class MoveWriter
{
    /// <summary>What a cause is called whose movements give back those of another.</summary>
    public static string BackOf(string cause) => cause + " taken back";

    /// <summary>Moves it.</summary>
    public static void Move(WorkshopDb db, StockRow row, Movement move)
    {
        var before = JsonSerializer.Serialize(ShelfBook.Thing(row));
        row.Count += move.By;
        db.StockMoves.Add(
            new()
            {
                StockId = row.Id,
                Key = move.Key,
                AtMs = move.AtMs,
                Who = move.Who,
                By = move.By,
                Why = Short(move.Why),
                Job = move.Job,
                Cause = move.Cause,
            }
        );
        var what = FormattableString.Invariant($"{move.By:+0.###;-0.###} {row.Unit}: {move.Why}");
        Note(db, row.Name, what, before, move.AtMs, move.Who);
    }

    /// <summary>Tells the history what was done to it.</summary>
    public static void Note(WorkshopDb db, string name, string what, string? before, long atMs, string who) =>
        db.Changes.Add(
            new()
            {
                AtMs = atMs,
                Who = who,
                Of = "stock",
                Name = name,
                What = Short(what),
                BeforeJson = before,
            }
        );

    /// <summary>As long as a column of words is.</summary>
    public static string Short(string text) => text.Length > 1000 ? text[..999] + "…" : text;
}
