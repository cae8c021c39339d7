using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Coldpeel.Storage.Database;

/// <summary>A day at the bench as a row.</summary>
internal sealed class BenchDayRow
{
    public int Id { get; set; }
    public required string Name { get; set; }

    /// <summary>Second 0 of the plan, UTC.</summary>
    public long StartMs { get; set; }
    public long? ClosedMs { get; set; }
    public required string PlanJson { get; set; }
    public required string CardsJson { get; set; }
}

/// <summary>What somebody said at the bench as a row: written once, never changed.</summary>
internal sealed class BenchEventRow
{
    public long Id { get; set; }
    public int DayId { get; set; }
    public required string Key { get; set; }
    public required string Saying { get; set; }
    public required string About { get; set; }
    public int Seconds { get; set; }
    public long AtMs { get; set; }
    public long ReceivedMs { get; set; }
    public required string Who { get; set; }
}

/// <summary>Table "bench_days".</summary>
internal sealed class BenchDayMapping : IEntityTypeConfiguration<BenchDayRow>
{
    public void Configure(EntityTypeBuilder<BenchDayRow> builder)
    {
        builder.ToTable("bench_days");
        builder.Property(d => d.Name).HasMaxLength(400);
        builder.HasIndex(d => d.StartMs);
    }
}

/// <summary>Table "bench_events"; a tap that is sent twice breaks the rule of its key and is known again by it.</summary>
internal sealed class BenchEventMapping : IEntityTypeConfiguration<BenchEventRow>
{
    public void Configure(EntityTypeBuilder<BenchEventRow> builder)
    {
        builder.ToTable("bench_events");
        builder.Property(e => e.Key).HasMaxLength(200);
        builder.Property(e => e.Saying).HasMaxLength(20);
        builder.Property(e => e.About).HasMaxLength(400);
        builder.Property(e => e.Who).HasMaxLength(100);
        builder.HasIndex(e => new { e.DayId, e.Key }).IsUnique();
        builder.HasOne<BenchDayRow>().WithMany().HasForeignKey(e => e.DayId).OnDelete(DeleteBehavior.Restrict);
    }
}
