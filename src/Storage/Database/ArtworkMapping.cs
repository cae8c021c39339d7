using System.Text.Json.Serialization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Coldpeel.Storage.Database;

/// <summary>An artwork file as a row: one for each content, however many orders have it.</summary>
internal sealed class ArtworkRow : IFoundByWords
{
    public int Id { get; set; }
    public required string Hash { get; set; }

    /// <summary>Its name as it was brought last.</summary>
    public required string Name { get; set; }
    public long Bytes { get; set; }

    /// <summary>When an order with it was kept last.</summary>
    public long LastMs { get; set; }

    /// <summary>Its names, its designs and customers, as they are looked for.</summary>
    public string Sought { get; set; } = "";
}

/// <summary>A design of a kept job that is made of an artwork file, as a row.</summary>
internal sealed class ArtworkUseRow
{
    public int Id { get; set; }
    public int JobId { get; set; }
    public int ArtworkId { get; set; }

    /// <summary>Which design of the job, from 1.</summary>
    public int Number { get; set; }
    public required string Design { get; set; }
    public double WidthMm { get; set; }
    public double HeightMm { get; set; }

    /// <summary>The worst that stands against it: 0 nothing, 1 a note, 2 a look, 3 a stop.</summary>
    public int Found { get; set; }

    /// <summary>How many mends are in it.</summary>
    public int Mends { get; set; }

    /// <summary>The job's file that shows it.</summary>
    public required string Picture { get; set; }

    [JsonIgnore]
    public ArtworkRow? Artwork { get; set; }
}

/// <summary>Table "artworks".</summary>
internal sealed class ArtworkMapping : IEntityTypeConfiguration<ArtworkRow>
{
    public void Configure(EntityTypeBuilder<ArtworkRow> builder)
    {
        builder.ToTable("artworks");
        builder.Property(a => a.Hash).HasMaxLength(64).IsFixedLength();
        builder.Property(a => a.Name).HasMaxLength(200);
        builder.HasIndex(a => a.Hash).IsUnique();
        // The list goes by what was used last, from one page to the next by key.
        builder.HasIndex(a => new { a.LastMs, a.Id });
    }
}

/// <summary>Table "artwork_uses".</summary>
internal sealed class ArtworkUseMapping : IEntityTypeConfiguration<ArtworkUseRow>
{
    public void Configure(EntityTypeBuilder<ArtworkUseRow> builder)
    {
        builder.ToTable("artwork_uses");
        builder.Property(u => u.Design).HasMaxLength(200);
        builder.Property(u => u.Picture).HasMaxLength(200);
        // The orders of an artwork are counted, and its last use is found, in the index alone.
        builder.HasIndex(u => new
        {
            u.ArtworkId,
            u.Id,
            u.JobId,
        });
        builder.HasOne(u => u.Artwork).WithMany().HasForeignKey(u => u.ArtworkId).OnDelete(DeleteBehavior.Restrict);
    }
}
