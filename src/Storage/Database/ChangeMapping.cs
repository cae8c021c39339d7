using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Coldpeel.Storage.Database;

/// <summary>One change of an order, the shelf, a device or a setting as a row: written once, never changed.</summary>
internal sealed class ChangeRow
{
    public long Id { get; set; }
    public long AtMs { get; set; }
    public required string Who { get; set; }

    /// <summary>"order", "stock", "setting", "device", "web hook", "book".</summary>
    public required string Of { get; set; }

    /// <summary>The name of what was changed.</summary>
    public required string Name { get; set; }

    /// <summary>What was done, in words.</summary>
    public required string What { get; set; }

    /// <summary>As it was before; null for something new.</summary>
    public string? BeforeJson { get; set; }
}

/// <summary>Table "changes".</summary>
internal sealed class ChangeMapping : IEntityTypeConfiguration<ChangeRow>
{
    public void Configure(EntityTypeBuilder<ChangeRow> builder)
    {
        builder.ToTable("changes");
        builder.Property(c => c.Who).HasMaxLength(100);
        builder.Property(c => c.Of).HasMaxLength(20);
        builder.Property(c => c.Name).HasMaxLength(200);
        builder.Property(c => c.What).HasMaxLength(1000);
        builder.HasIndex(c => new
        {
            c.Of,
            c.Name,
            c.Id,
        });
    }
}
