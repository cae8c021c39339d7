using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Coldpeel.Storage.Database;

/// <summary>A file of a kept job as a row; its content stands beside the database under its hash.</summary>
internal sealed class KeptFileRow
{
    public int Id { get; set; }
    public int JobId { get; set; }
    public required string Name { get; set; }
    public required string Hash { get; set; }
    public long Bytes { get; set; }
}

/// <summary>Table "files".</summary>
internal sealed class KeptFileMapping : IEntityTypeConfiguration<KeptFileRow>
{
    public void Configure(EntityTypeBuilder<KeptFileRow> builder)
    {
        builder.ToTable("files");
        builder.Property(f => f.Name).HasMaxLength(200);
        builder.Property(f => f.Hash).HasMaxLength(64).IsFixedLength();
        builder.HasIndex(f => new { f.JobId, f.Name }).IsUnique();
        builder.HasIndex(f => f.Hash);
    }
}
