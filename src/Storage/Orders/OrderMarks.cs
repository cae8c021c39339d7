using Coldpeel.Storage.Database;
using Coldpeel.Storage.Shelf;
using Microsoft.EntityFrameworkCore;

namespace Coldpeel.Storage.Orders;

/// <summary>A step of an order's way, as somebody took it.</summary>
/// <param name="Number">Rising.</param>
/// <param name="Step">The step.</param>
/// <param name="At">When.</param>
/// <param name="Who">Who.</param>
/// <param name="Note">What they wrote.</param>
public sealed record StoredMark(long Number, string Step, DateTimeOffset At, string Who, string Note)
{
    /// <summary>Hash of the paper that the step was taken on; null for none.</summary>
    public string? Proof { get; init; }
}

/// <summary>How far the orders have come; nothing in it is ever changed or taken out.</summary>
public sealed class OrderMarks
{
    private readonly StoreDoor _door;

    internal OrderMarks(StoreDoor door) => _door = door;

    /// <summary>Keeps a step, the stage it leads to and what it does to the shelf: all of it or nothing; null when there is no such order.</summary>
    public StoredMark? Keep(
        string job,
        string step,
        string stage,
        DateTimeOffset at,
        string who,
        string note,
        string? proof = null,
        StoredWork? work = null
    ) =>
        _door.Write(db =>
        {
            var row = new OrderMarkRow
            {
                Job = job,
                Step = step,
                AtMs = at.ToUnixTimeMilliseconds(),
                Who = who,
                Note = note,
                Proof = proof,
            };
            if (db.Jobs.Where(j => j.Name == job).ExecuteUpdate(j => j.SetProperty(r => r.Stage, stage)) == 0)
            {
                return null;
            }

            db.OrderMarks.Add(row);
            db.Changes.Add(
                new()
                {
                    AtMs = row.AtMs,
                    Who = who,
                    Of = "order",
                    Name = job,
                    What = note.Length == 0 ? step : $"{step}: {note}",
                }
            );
            db.SaveChanges();
            if (JobLook.Tells(step))
            {
                JobLook.FindAnew(db, job);
            }

            if (work is not null)
            {
                WorkWriter.Keep(db, work, StoredWork.CauseOf(row.Id), row.AtMs, who);
            }

            return Mark(row);
        });

    /// <summary>All steps of an order, in order.</summary>
    public IReadOnlyList<StoredMark> Of(string job) =>
        _door.Read(db =>
            db.OrderMarks.AsNoTracking()
                .Where(m => m.Job == job)
                .OrderBy(m => m.Id)
                .AsEnumerable()
                .Select(Mark)
                .ToArray()
        );

    /// <summary>Of each of those orders that has any: how many steps were taken, and the last one.</summary>
    public IReadOnlyDictionary<string, (int Count, string Last)> Last(IReadOnlyCollection<string> jobs) =>
        _door.Read(db =>
            db.OrderMarks.AsNoTracking()
                .Where(m => jobs.Contains(m.Job))
                .Select(m => new
                {
                    m.Job,
                    m.Id,
                    m.Step,
                })
                .AsEnumerable()
                .GroupBy(m => m.Job, StringComparer.Ordinal)
                .ToDictionary(g => g.Key, g => (g.Count(), g.MaxBy(m => m.Id)!.Step), StringComparer.Ordinal)
        );

    private static StoredMark Mark(OrderMarkRow row) =>
        new(row.Id, row.Step, DateTimeOffset.FromUnixTimeMilliseconds(row.AtMs), row.Who, row.Note)
        {
            Proof = row.Proof,
        };
}
