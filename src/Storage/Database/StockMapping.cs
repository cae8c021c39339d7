using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Coldpeel.Storage.Database;

/// <summary>A thing on the shelf as a row.</summary>
internal sealed class StockRow
{
    public int Id { get; set; }
    public required string Kind { get; set; }
    public required string Name { get; set; }
    public required string Place { get; set; }
    public required string Unit { get; set; }
    public decimal Count { get; set; }
    public decimal Least { get; set; }
    public DateOnly? BondedOn { get; set; }
    public string Sought { get; set; } = "";

    /// <summary>What an order's steps know it by; empty for what only hands move.</summary>
    public string Role { get; set; } = "";
}

/// <summary>A movement of a thing on the shelf as a row: written once.</summary>
internal sealed class StockMoveRow
{
    public long Id { get; set; }
    public int StockId { get; set; }
    public required string Key { get; set; }
    public long AtMs { get; set; }
    public required string Who { get; set; }
    public decimal By { get; set; }
    public required string Why { get; set; }

    /// <summary>The order whose work moved it; null where hands did.</summary>
    public string? Job { get; set; }

    /// <summary>The step or tap that moved it, by which all its movements are found again; null where hands did.</summary>
    public string? Cause { get; set; }
}

/// <summary>Counts are kept as whole thousandths: they sort, compare and sum exactly in every database.</summary>
internal static class Thousandths
{
    public static void Keep(PropertyBuilder<decimal> property) =>
        property.HasConversion(d => (long)decimal.Round(d * 1000), l => l / 1000m);
}

/// <summary>Table "stock".</summary>
internal sealed class StockMapping : IEntityTypeConfiguration<StockRow>
{
    public void Configure(EntityTypeBuilder<StockRow> builder)
    {
        builder.ToTable("stock");
        builder.Property(s => s.Kind).HasMaxLength(20);
        builder.Property(s => s.Name).HasMaxLength(200);
        builder.Property(s => s.Place).HasMaxLength(100);
        builder.Property(s => s.Unit).HasMaxLength(20);
        Thousandths.Keep(builder.Property(s => s.Count));
        Thousandths.Keep(builder.Property(s => s.Least));
        builder
            .HasIndex(s => new
            {
                s.Kind,
                s.Name,
                s.Place,
            })
            .IsUnique();
        // Only what is scarce, in order: out of all that lies there a plain index of the count would be walked to its end.
        builder.HasIndex(s => s.Count, "IX_stock_scarce").HasFilter("\"Least\" > 0 AND \"Count\" < \"Least\"");
        builder.Property(s => s.Role).HasMaxLength(200).HasDefaultValue("");
        builder.HasIndex(s => s.Role);
        builder.HasIndex(s => s.Count);
    }
}

/// <summary>Table "stock_moves".</summary>
internal sealed class StockMoveMapping : IEntityTypeConfiguration<StockMoveRow>
{
    public void Configure(EntityTypeBuilder<StockMoveRow> builder)
    {
        builder.ToTable("stock_moves");
        builder.Property(m => m.Key).HasMaxLength(320);
        builder.Property(m => m.Who).HasMaxLength(100);
        Thousandths.Keep(builder.Property(m => m.By));
        builder.Property(m => m.Why).HasMaxLength(1000);
        builder.HasIndex(m => m.Key).IsUnique();
        builder.HasIndex(m => new { m.StockId, m.Id });
        builder.Property(m => m.Job).HasMaxLength(200);
        builder.Property(m => m.Cause).HasMaxLength(300);
        builder.HasIndex(m => new { m.Job, m.Id });
        builder.HasIndex(m => m.Cause);
        builder.HasOne<StockRow>().WithMany().HasForeignKey(m => m.StockId).OnDelete(DeleteBehavior.Restrict);
    }
}
