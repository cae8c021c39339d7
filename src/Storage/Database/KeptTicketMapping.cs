using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Coldpeel.Storage.Database;

/// <summary>A ticket of a kept job as a row.</summary>
internal sealed class KeptTicketRow
{
    public int Id { get; set; }
    public int JobId { get; set; }
    public int Number { get; set; }
    public required string Json { get; set; }
}

/// <summary>Table "tickets".</summary>
internal sealed class KeptTicketMapping : IEntityTypeConfiguration<KeptTicketRow>
{
    public void Configure(EntityTypeBuilder<KeptTicketRow> builder)
    {
        builder.ToTable("tickets");
        builder.HasIndex(t => new { t.JobId, t.Number }).IsUnique();
    }
}
