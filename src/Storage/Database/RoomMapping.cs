using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Coldpeel.Storage.Database;

/// <summary>A device that was let in as a row; one that was thrown out stays, with the instant.</summary>
internal sealed class DeviceRow
{
    public int Id { get; set; }
    public required string Name { get; set; }
    public required string Role { get; set; }
    public required string TokenHash { get; set; }
    public long JoinedMs { get; set; }
    public long? OutMs { get; set; }
}

/// <summary>A setting of the workshop as a row.</summary>
internal sealed class SettingRow
{
    public required string Key { get; set; }
    public required string Value { get; set; }
}

/// <summary>Table "devices".</summary>
internal sealed class DeviceMapping : IEntityTypeConfiguration<DeviceRow>
{
    public void Configure(EntityTypeBuilder<DeviceRow> builder)
    {
        builder.ToTable("devices");
        builder.Property(d => d.Name).HasMaxLength(100);
        builder.Property(d => d.Role).HasMaxLength(20);
        builder.Property(d => d.TokenHash).HasMaxLength(64).IsFixedLength();
        builder.HasIndex(d => d.TokenHash).IsUnique();
    }
}

/// <summary>Table "settings".</summary>
internal sealed class SettingMapping : IEntityTypeConfiguration<SettingRow>
{
    public void Configure(EntityTypeBuilder<SettingRow> builder)
    {
        builder.ToTable("settings");
        builder.HasKey(s => s.Key);
        builder.Property(s => s.Key).HasMaxLength(100);
    }
}
