using Coldpeel.Storage.Database;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;

namespace Coldpeel.Storage.Backup;

/// <summary>A table whose rows can go to another database or into a file, whatever they are.</summary>
internal abstract class StoreTable
{
    /// <summary>All tables: what is pointed at stands before what points at it.</summary>
    public static IReadOnlyList<StoreTable> All { get; } =
    [
        new StoreTable<KeptJobRow>(),
        new StoreTable<KeptFileRow>(),
        new StoreTable<KeptTicketRow>(),
        new StoreTable<ArtworkRow>(),
        new StoreTable<ArtworkUseRow>(),
        new StoreTable<OrderMarkRow>(),
        new StoreTable<BenchDayRow>(),
        new StoreTable<BenchEventRow>(),
        new StoreTable<StockRow>(),
        new StoreTable<StockMoveRow>(),
        new StoreTable<PieceOutcomeRow>(),
        new StoreTable<DeviceRow>(),
        new StoreTable<SettingRow>(),
        new StoreTable<HookRow>(),
        new StoreTable<AnswerRow>(),
        new StoreTable<ChangeRow>(),
    ];

    /// <summary>Its name in the database.</summary>
    public abstract string Name(WorkshopDb db);

    /// <summary>Takes all rows out.</summary>
    public abstract void Clear(WorkshopDb db);

    /// <summary>Puts all rows of another database in.</summary>
    public abstract void Copy(WorkshopDb from, WorkshopDb to);

    /// <summary>Names of its columns.</summary>
    public abstract IReadOnlyList<string> Columns(WorkshopDb db);

    /// <summary>Its rows, each as the values of its columns.</summary>
    public abstract IEnumerable<object?[]> Rows(WorkshopDb db);
}

/// <inheritdoc/>
internal sealed class StoreTable<TRow> : StoreTable
    where TRow : class
{
    private const int Batch = 1000;

    // Nobody who reads an export may come in with it.
    private static readonly string[] Secret = ["TokenHash", "Secret"];

    public override string Name(WorkshopDb db) => Form(db).GetTableName()!;

    public override void Clear(WorkshopDb db) => db.Set<TRow>().ExecuteDelete();

    public override void Copy(WorkshopDb from, WorkshopDb to)
    {
        foreach (var some in from.Set<TRow>().AsNoTracking().AsEnumerable().Chunk(Batch))
        {
            to.Set<TRow>().AddRange(some);
            to.SaveChanges();
            to.ChangeTracker.Clear();
        }

        if (to is PostgresDb && Form(to).FindProperty("Id") is not null)
        {
            // The rows brought their numbers along: the next one goes on after them.
            var name = Name(to);
            var after =
                $"""SELECT setval(pg_get_serial_sequence('"{name}"', 'Id'), (SELECT coalesce(max("Id"), 0) + 1 FROM "{name}"), false)""";
            to.Database.ExecuteSqlRaw(after);
        }
    }

    public override IReadOnlyList<string> Columns(WorkshopDb db) => [.. Told(db).Select(p => p.Name)];

    public override IEnumerable<object?[]> Rows(WorkshopDb db)
    {
        var told = Told(db);
        foreach (var row in db.Set<TRow>().AsNoTracking().AsEnumerable())
        {
            yield return [.. told.Select(p => p.PropertyInfo!.GetValue(row))];
        }
    }

    private static IEntityType Form(WorkshopDb db) => db.Model.FindEntityType(typeof(TRow))!;

    private static IProperty[] Told(WorkshopDb db) =>
        [.. Form(db).GetProperties().Where(p => !Secret.Contains(p.Name))];
}
