using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;
using Microsoft.EntityFrameworkCore.Infrastructure;

namespace Coldpeel.Storage.Database;

/// <summary>The workshop's database, in SQLite.</summary>
internal class WorkshopDb : DbContext
{
    public WorkshopDb(DbContextOptions<WorkshopDb> options)
        : base(options) { }

    protected WorkshopDb(DbContextOptions options)
        : base(options) { }

    public DbSet<KeptJobRow> Jobs => Set<KeptJobRow>();
    public DbSet<KeptFileRow> Files => Set<KeptFileRow>();
    public DbSet<KeptTicketRow> Tickets => Set<KeptTicketRow>();
    public DbSet<ArtworkRow> Artworks => Set<ArtworkRow>();
    public DbSet<ArtworkUseRow> ArtworkUses => Set<ArtworkUseRow>();
    public DbSet<BenchDayRow> BenchDays => Set<BenchDayRow>();
    public DbSet<BenchEventRow> BenchEvents => Set<BenchEventRow>();
    public DbSet<ChangeRow> Changes => Set<ChangeRow>();
    public DbSet<OrderMarkRow> OrderMarks => Set<OrderMarkRow>();
    public DbSet<StockRow> Stock => Set<StockRow>();
    public DbSet<StockMoveRow> StockMoves => Set<StockMoveRow>();
    public DbSet<PieceOutcomeRow> PieceOutcomes => Set<PieceOutcomeRow>();
    public DbSet<DeviceRow> Devices => Set<DeviceRow>();
    public DbSet<SettingRow> Settings => Set<SettingRow>();
    public DbSet<HookRow> Hooks => Set<HookRow>();
    public DbSet<AnswerRow> Answers => Set<AnswerRow>();

    /// <summary>The database in that file, alone.</summary>
    public static WorkshopDb In(string file) => new(Options(file, pooled: false));

    /// <summary>A way to the database in that file, or in PostgreSQL where a connection to it is named, again and again: what one question has used another takes over.</summary>
    public static Func<WorkshopDb> Lent(string file, string? postgres) =>
        postgres is null
            ? new PooledDbContextFactory<WorkshopDb>(Options(file, pooled: true)).CreateDbContext
            : new PooledDbContextFactory<PostgresDb>(PostgresDb.Options(postgres)).CreateDbContext;

    /// <summary>A connection waits for another's write instead of failing at once.</summary>
    public static string Connection(string file, bool pooled) =>
        new SqliteConnectionStringBuilder
        {
            DataSource = file,
            Pooling = pooled,
            ForeignKeys = true,
            DefaultTimeout = 30,
        }.ToString();

    private static DbContextOptions<WorkshopDb> Options(string file, bool pooled) =>
        new DbContextOptionsBuilder<WorkshopDb>().UseSqlite(Connection(file, pooled)).Options;

    protected override void OnModelCreating(ModelBuilder modelBuilder) =>
        modelBuilder.ApplyConfigurationsFromAssembly(typeof(WorkshopDb).Assembly);
}

/// <summary>The same in PostgreSQL; its migrations are its own.</summary>
internal sealed class PostgresDb(DbContextOptions<PostgresDb> options) : WorkshopDb(options)
{
    public static PostgresDb At(string connection) => new(Options(connection));

    public static DbContextOptions<PostgresDb> Options(string connection) =>
        new DbContextOptionsBuilder<PostgresDb>().UseNpgsql(connection).Options;

    protected override void OnModelCreating(ModelBuilder modelBuilder)
    {
        base.OnModelCreating(modelBuilder);
        // An index in order may hold a third of a page of each row, and what an order is found by may be longer; three letters are its index here.
        var jobs = modelBuilder.Entity<KeptJobRow>().Metadata;
        jobs.RemoveIndex(jobs.FindIndex(jobs.FindProperty(nameof(KeptJobRow.Sought))!)!);
    }
}

/// <summary>Gives dotnet-ef a database to write migrations against; it is never opened.</summary>
internal sealed class WorkshopDbDesign : IDesignTimeDbContextFactory<WorkshopDb>
{
    public WorkshopDb CreateDbContext(string[] args) => WorkshopDb.In("design.db");
}

/// <summary>The same for PostgreSQL.</summary>
internal sealed class PostgresDbDesign : IDesignTimeDbContextFactory<PostgresDb>
{
    public PostgresDb CreateDbContext(string[] args) => PostgresDb.At("Host=localhost;Database=design");
}
