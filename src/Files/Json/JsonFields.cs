using System.Collections.Immutable;
using System.Text.Json;

namespace Coldpeel.Files.Json;

/// <summary>Fields of an object that a schema has already let through.</summary>
internal static class JsonFields
{
    public static string Text(this JsonElement e, string key) => e.GetProperty(key).GetString()!;

    public static string? TextOrNull(this JsonElement e, string key) =>
        e.TryGetProperty(key, out var value) ? value.GetString() : null;

    public static double Number(this JsonElement e, string key) => e.GetProperty(key).GetDouble();

    public static double? NumberOrNull(this JsonElement e, string key) =>
        e.TryGetProperty(key, out var value) && value.ValueKind != JsonValueKind.Null ? value.GetDouble() : null;

    public static decimal Decimal(this JsonElement e, string key) => e.GetProperty(key).GetDecimal();

    // A schema's integer may be written 3.0 or 3e0.
    public static int Whole(this JsonElement e, string key) => (int)e.GetProperty(key).GetDouble();

    public static int? WholeOrNull(this JsonElement e, string key) => (int?)e.NumberOrNull(key);

    public static ImmutableArray<T> All<T>(this JsonElement e, string key, Func<JsonElement, T> read) =>
        e.TryGetProperty(key, out var list) ? [.. list.EnumerateArray().Select(read)] : [];
}
