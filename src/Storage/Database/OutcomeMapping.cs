using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Coldpeel.Storage.Database;

/// <summary>How pieces came out at the bench or at inspection as a row: written once; what is taken back stands in a row of its own, below zero.</summary>
internal sealed class PieceOutcomeRow
{
    public long Id { get; set; }
    public required string Key { get; set; }
    public required string Cause { get; set; }
    public required string Job { get; set; }
    public required string Process { get; set; }
    public required string Material { get; set; }
    public required string Piece { get; set; }
    public int Good { get; set; }
    public int Spoilt { get; set; }

    /// <summary>How many of the spoilt ones found no spare on the shelf.</summary>
    public int Missing { get; set; }
    public long AtMs { get; set; }
    public required string Who { get; set; }
    public required string Why { get; set; }

    /// <summary>The order that makes the missing pieces again; null where none does.</summary>
    public string? MadeIn { get; set; }
}

/// <summary>Table "piece_outcomes".</summary>
internal sealed class PieceOutcomeMapping : IEntityTypeConfiguration<PieceOutcomeRow>
{
    public void Configure(EntityTypeBuilder<PieceOutcomeRow> builder)
    {
        builder.ToTable("piece_outcomes");
        builder.Property(o => o.Key).HasMaxLength(320);
        builder.Property(o => o.Cause).HasMaxLength(300);
        builder.Property(o => o.Job).HasMaxLength(200);
        builder.Property(o => o.Process).HasMaxLength(200);
        builder.Property(o => o.Material).HasMaxLength(200);
        builder.Property(o => o.Piece).HasMaxLength(300);
        builder.Property(o => o.Who).HasMaxLength(100);
        builder.Property(o => o.MadeIn).HasMaxLength(200);
        builder.Property(o => o.Why).HasMaxLength(1000);
        builder.HasIndex(o => o.Key).IsUnique();
        builder.HasIndex(o => o.Cause);
        builder.HasIndex(o => o.Job);
        // The record is summed from the index alone.
        builder.HasIndex(o => new
        {
            o.Process,
            o.Material,
            o.Good,
            o.Spoilt,
        });
    }
}
