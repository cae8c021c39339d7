using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Coldpeel.Storage.Database;

/// <summary>A kept job as a row.</summary>
internal sealed class KeptJobRow : IFoundByWords
{
    public int Id { get; set; }
    public required string Name { get; set; }
    public required string Customer { get; set; }
    public DateOnly Due { get; set; }

    /// <summary>Milliseconds since 1970-01-01 UTC: sorts and compares in every database.</summary>
    public long MadeAtMs { get; set; }
    public bool Stopped { get; set; }
    public int Warnings { get; set; }
    public int? Sheets { get; set; }
    public int? Pieces { get; set; }
    public int? LeftOut { get; set; }
    public int? MakespanS { get; set; }
    public int? BoundS { get; set; }
    public decimal? Total { get; set; }
    public string? Currency { get; set; }
    public required string FindingsJson { get; set; }

    /// <summary>How far it has come on its way; the marks say who took it there.</summary>
    public string Stage { get; set; } = "";

    /// <summary>Name, customer, who approved and received it, and its words, as they are looked for.</summary>
    public string Sought { get; set; } = "";

    /// <summary>Names of its designs and files, one a line; null where an earlier version kept it and nobody has looked yet.</summary>
    public string? Words { get; set; }

    /// <summary>How many sheets of which size it is printed on.</summary>
    public string? SheetsJson { get; set; }

    /// <summary>The order whose spoilt pieces it makes again; null for an order of its own.</summary>
    public string? AgainOf { get; set; }
    public List<KeptFileRow> Files { get; } = [];
    public List<KeptTicketRow> Tickets { get; } = [];
    public List<ArtworkUseRow> Artwork { get; } = [];
}

/// <summary>Table "jobs".</summary>
internal sealed class KeptJobMapping : IEntityTypeConfiguration<KeptJobRow>
{
    public void Configure(EntityTypeBuilder<KeptJobRow> builder)
    {
        builder.ToTable("jobs");
        builder.Property(j => j.Name).HasMaxLength(200);
        builder.HasIndex(j => j.Name).IsUnique();
        // Lists go by the first due, from one page to the next by key.
        builder.HasIndex(j => new { j.Due, j.Name });
        builder.HasIndex(j => new
        {
            j.Stage,
            j.Due,
            j.Name,
        });
        builder.HasIndex(j => j.Sought);
        builder.Property(j => j.Stage).HasMaxLength(30);
        builder.Property(j => j.AgainOf).HasMaxLength(200);
        builder.Property(j => j.Customer).HasMaxLength(200);
        builder.Property(j => j.Total).HasPrecision(18, 3);
        builder.Property(j => j.Currency).HasMaxLength(3);
        builder.HasMany(j => j.Files).WithOne().HasForeignKey(f => f.JobId).OnDelete(DeleteBehavior.Cascade);
        builder.HasMany(j => j.Tickets).WithOne().HasForeignKey(t => t.JobId).OnDelete(DeleteBehavior.Cascade);
        builder.HasMany(j => j.Artwork).WithOne().HasForeignKey(u => u.JobId).OnDelete(DeleteBehavior.Cascade);
    }
}
