using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Coldpeel.Storage.Database;

/// <summary>An address of another program that is told what happens to orders, as a row; one that was ended stays, with the instant.</summary>
internal sealed class HookRow
{
    public int Id { get; set; }
    public required string Address { get; set; }

    /// <summary>What its messages are signed with, in base64.</summary>
    public required string Secret { get; set; }
    public long AddedMs { get; set; }
    public long? EndedMs { get; set; }

    /// <summary>The last change it was told of.</summary>
    public long ToldUpTo { get; set; }

    /// <summary>How often in a row it could not be reached.</summary>
    public int Missed { get; set; }

    /// <summary>Not before this instant again.</summary>
    public long NextMs { get; set; }

    /// <summary>What it answered last.</summary>
    public string Answer { get; set; } = "";
}

/// <summary>What another program was answered under a key of its own, as a row: asked again, it is answered the same.</summary>
internal sealed class AnswerRow
{
    public int DeviceId { get; set; }
    public required string Key { get; set; }

    /// <summary>Hash of what was asked.</summary>
    public required string Asked { get; set; }
    public int Status { get; set; }
    public required string Body { get; set; }
    public long AtMs { get; set; }
}

/// <summary>Table "hooks".</summary>
internal sealed class HookMapping : IEntityTypeConfiguration<HookRow>
{
    public void Configure(EntityTypeBuilder<HookRow> builder)
    {
        builder.ToTable("hooks");
        builder.Property(h => h.Address).HasMaxLength(500);
        builder.Property(h => h.Secret).HasMaxLength(100);
        builder.Property(h => h.Answer).HasMaxLength(200);
    }
}

/// <summary>Table "answers".</summary>
internal sealed class AnswerMapping : IEntityTypeConfiguration<AnswerRow>
{
    public void Configure(EntityTypeBuilder<AnswerRow> builder)
    {
        builder.ToTable("answers");
        builder.HasKey(a => new { a.DeviceId, a.Key });
        builder.Property(a => a.Key).HasMaxLength(200);
        builder.Property(a => a.Asked).HasMaxLength(64).IsFixedLength();
        builder.HasOne<DeviceRow>().WithMany().HasForeignKey(a => a.DeviceId).OnDelete(DeleteBehavior.Restrict);
    }
}
