using Coldpeel.Storage.Database;
using Microsoft.EntityFrameworkCore;

namespace Coldpeel.Storage.Shelf;

/// <summary>Moves the shelf as work goes on, inside the transaction that keeps the step or the tap.</summary>
/// <remarks>Every movement has a key made of its cause, so no cause moves anything twice; giving back is a movement of its own.</remarks>
internal static class WorkWriter
{
    public static void Keep(WorkshopDb db, StoredWork work, string cause, long atMs, string who)
    {
        if (work.Undoes is { } undone)
        {
            GiveBack(db, work, undone, atMs, who);
        }

        if (work.MakesAgain is { } spoilt)
        {
            MakeAgain(db, spoilt, cause, atMs, who);
        }

        if (work.Reopens is { } again)
        {
            Reopen(db, StoredWork.CauseOfAgain(again), cause, atMs, who);
        }

        var roles = work
            .Moves.SelectMany(m => m.Roles)
            .Concat(work.Outcomes.Select(o => o.Spare).OfType<string>())
            .Distinct()
            .ToArray();
        var rows = roles.Length == 0 ? [] : db.Stock.Where(s => roles.Contains(s.Role)).OrderBy(s => s.Id).ToList();
        var moving = new Moving(db, work, cause, atMs, who);
        foreach (var move in work.Moves)
        {
            var role = move.Roles.FirstOrDefault(r => rows.Exists(s => s.Role == r));
            var known = rows.Where(s => role is not null && s.Role == role).ToList();
            if (move.Creates is { } made && !known.Exists(s => s.Place == made.Place))
            {
                known = [Made(db, made, move.Roles[0], rows)];
            }

            if (known.Count == 0)
            {
                continue; // the workshop does not count it
            }

            if (move.By >= 0)
            {
                Add(moving, known.Find(s => s.Place == move.Creates?.Place) ?? known[0], move);
            }
            else if (known.Count == 1)
            {
                moving.Move(known[0], move.By, move.Why);
            }
            else
            {
                // What is there goes first; what is not there is told by a count below zero.
                var left = Take(moving, known, -move.By, move.Why);
                moving.Move(known[0], -left, move.Why);
            }
        }

        foreach (var outcome in work.Outcomes)
        {
            var spares = rows.Where(s => s.Role == outcome.Spare).ToList();
            var missing = outcome.Spoilt == 0 ? 0 : Take(moving, spares, outcome.Spoilt, "in place of a spoilt one");
            moving.Note(outcome, (int)decimal.Ceiling(missing));
        }
    }

    // A transfer that comes to an empty place tells its own day; to others that lie there, the older day holds.
    private static void Add(Moving moving, StockRow row, WorkMove move)
    {
        if (row.Count <= 0 && move.Creates?.BondedOn is { } day)
        {
            row.BondedOn = day;
        }

        moving.Move(row, move.By, move.Why);
    }

    private static decimal Take(Moving moving, List<StockRow> rows, decimal wanted, string why)
    {
        foreach (var row in rows.Where(r => r.Count > 0).OrderBy(r => r.BondedOn).ThenBy(r => r.Id).ToArray())
        {
            var some = Math.Min(row.Count, wanted);
            moving.Move(row, -some, why);
            wanted -= some;
        }

        return wanted;
    }

    private static StockRow Made(WorkshopDb db, StoredStock made, string role, List<StockRow> rows)
    {
        // The same name at the same place, told by hand: it is the same thing.
        var row = db.Stock.SingleOrDefault(s => s.Kind == made.Kind && s.Name == made.Name && s.Place == made.Place);
        if (row is null)
        {
            row = new()
            {
                Kind = made.Kind,
                Name = made.Name,
                Place = made.Place,
                Unit = made.Unit,
                BondedOn = made.BondedOn,
                Sought = Sought.Of(made.Name, made.Place),
            };
            db.Stock.Add(row);
        }

        row.Role = role;
        db.SaveChanges(); // a movement names its number
        rows.Add(row);
        return row;
    }

    private static void GiveBack(WorkshopDb db, StoredWork work, string undone, long atMs, string who)
    {
        var moves = db.StockMoves.AsNoTracking().Where(m => m.Cause == undone).OrderBy(m => m.Id).ToArray();
        var ids = moves.Select(m => m.StockId).Distinct().ToArray();
        var rows = db.Stock.Where(s => ids.Contains(s.Id)).ToDictionary(s => s.Id);
        var moving = new Moving(db, work, MoveWriter.BackOf(undone), atMs, who);
        foreach (var move in moves)
        {
            moving.Move(rows[move.StockId], -move.By, Own(work.Job, move.Why));
        }

        foreach (var was in db.PieceOutcomes.AsNoTracking().Where(o => o.Cause == undone).OrderBy(o => o.Id).ToArray())
        {
            moving.Reverse(was);
        }
    }

    // What it was for, without the order's name: that stands before it once more.
    private static string Own(string job, string why) =>
        why.StartsWith($"{job}, ", StringComparison.Ordinal) ? why[(job.Length + 2)..] : why;

    /// <summary>Keeps that missing pieces of an order are made again in another one.</summary>
    public static void MadeAgain(WorkshopDb db, StoredAgain made, string again, long atMs, string who)
    {
        foreach (var (number, piece) in made.Missing.Index())
        {
            db.PieceOutcomes.Add(
                new()
                {
                    Key = FormattableString.Invariant($"again {again} {number}"),
                    Cause = StoredWork.CauseOfAgain(again),
                    Job = made.Of,
                    Process = piece.Process,
                    Material = "",
                    Piece = piece.Piece,
                    Missing = -piece.Count,
                    AtMs = atMs,
                    Who = who,
                    Why = $"made again in {again}",
                    MadeIn = again,
                }
            );
        }

        db.Changes.Add(
            new()
            {
                AtMs = atMs,
                Who = who,
                Of = "order",
                Name = made.Of,
                What = $"spoilt pieces are made again in {again}",
            }
        );
    }

    private static void MakeAgain(WorkshopDb db, string spoilt, string cause, long atMs, string who)
    {
        foreach (var was in db.PieceOutcomes.AsNoTracking().Where(o => o.Cause == spoilt && o.Missing > 0).ToArray())
        {
            db.PieceOutcomes.Add(TurnedRound(was, $"{cause} again {was.Id}", cause, "made again", atMs, who));
        }
    }

    private static void Reopen(WorkshopDb db, string again, string cause, long atMs, string who)
    {
        foreach (var was in db.PieceOutcomes.AsNoTracking().Where(o => o.Cause == again).ToArray())
        {
            db.PieceOutcomes.Add(TurnedRound(was, $"{cause} reopens {was.Id}", cause, was.Why, atMs, who));
        }
    }

    // What was missing is so no longer, or is so again; the record of good and spoilt pieces stays.
    private static PieceOutcomeRow TurnedRound(
        PieceOutcomeRow was,
        string key,
        string cause,
        string why,
        long atMs,
        string who
    ) =>
        new()
        {
            Key = key,
            Cause = cause,
            Job = was.Job,
            Process = was.Process,
            Material = was.Material,
            Piece = was.Piece,
            Missing = -was.Missing,
            AtMs = atMs,
            Who = who,
            Why = why,
            MadeIn = was.MadeIn,
        };

    // One cause at work: it numbers what it writes.
    private sealed class Moving(WorkshopDb db, StoredWork work, string cause, long atMs, string who)
    {
        private int _number;

        public void Move(StockRow row, decimal by, string why)
        {
            if (by == 0)
            {
                return;
            }

            MoveWriter.Move(
                db,
                row,
                new($"{cause} {++_number}", by, $"{work.Job}, {work.Step}: {why}", atMs, who)
                {
                    Job = work.Job,
                    Cause = cause,
                }
            );
        }

        public void Note(WorkOutcome outcome, int missing) =>
            Add(
                work.Job,
                outcome.Process,
                outcome.Material,
                outcome.Piece,
                (outcome.Good, outcome.Spoilt, missing),
                outcome.Why
            );

        public void Reverse(PieceOutcomeRow was) =>
            Add(
                was.Job,
                was.Process,
                was.Material,
                was.Piece,
                (-was.Good, -was.Spoilt, -was.Missing),
                MoveWriter.Short($"taken back: {was.Why}"),
                was.MadeIn
            );

        private void Add(
            string job,
            string process,
            string material,
            string piece,
            (int Good, int Spoilt, int Missing) counts,
            string why,
            string? madeIn = null
        ) =>
            db.PieceOutcomes.Add(
                new()
                {
                    Key = $"{cause} {++_number}",
                    Cause = cause,
                    Job = job,
                    Process = process,
                    Material = material,
                    Piece = piece,
                    Good = counts.Good,
                    Spoilt = counts.Spoilt,
                    Missing = counts.Missing,
                    AtMs = atMs,
                    Who = who,
                    Why = why,
                    MadeIn = madeIn,
                }
            );
    }
}
