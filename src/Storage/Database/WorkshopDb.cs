using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace Coldpeel.Storage.Database;

/// <summary>The workshop's database.</summary>
internal sealed class WorkshopDb(DbContextOptions<WorkshopDb> options) : DbContext(options)
{
    public DbSet<KeptJobRow> Jobs => Set<KeptJobRow>();
    public DbSet<KeptFileRow> Files => Set<KeptFileRow>();
    public DbSet<KeptTicketRow> Tickets => Set<KeptTicketRow>();

    /// <summary>The database in that file; connections are not pooled, so that the file is free as soon as nobody uses it.</summary>
    public static WorkshopDb In(string file)
    {
        var connection = new SqliteConnectionStringBuilder { DataSource = file, Pooling = false };
        return new(new DbContextOptionsBuilder<WorkshopDb>().UseSqlite(connection.ToString()).Options);
    }

    protected override void OnModelCreating(ModelBuilder modelBuilder) =>
        modelBuilder.ApplyConfigurationsFromAssembly(typeof(WorkshopDb).Assembly);
}

/// <summary>Gives dotnet-ef a database to write migrations against; it is never opened.</summary>
internal sealed class WorkshopDbDesign : IDesignTimeDbContextFactory<WorkshopDb>
{
    public WorkshopDb CreateDbContext(string[] args) => WorkshopDb.In("design.db");
}
