using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Coldpeel.Storage.Database;

/// <summary>A step of an order's way that somebody took as a row: written once; a step taken back says so in a row of its own.</summary>
internal sealed class OrderMarkRow
{
    public long Id { get; set; }
    public required string Job { get; set; }
    public required string Step { get; set; }
    public long AtMs { get; set; }
    public required string Who { get; set; }
    public required string Note { get; set; }

    /// <summary>Hash of the paper that the step was taken on; null for a step that rests on none.</summary>
    public string? Proof { get; set; }
}

/// <summary>Table "order_marks". By the order's name: making an order again keeps its way.</summary>
internal sealed class OrderMarkMapping : IEntityTypeConfiguration<OrderMarkRow>
{
    public void Configure(EntityTypeBuilder<OrderMarkRow> builder)
    {
        builder.ToTable("order_marks");
        builder.Property(m => m.Job).HasMaxLength(200);
        builder.Property(m => m.Step).HasMaxLength(30);
        builder.Property(m => m.Who).HasMaxLength(100);
        builder.Property(m => m.Note).HasMaxLength(1000);
        builder.Property(m => m.Proof).HasMaxLength(64).IsFixedLength();
        builder.HasIndex(m => new { m.Job, m.Id });
    }
}
