using System.Text.Json;
using System.Text.Json.Serialization;

namespace Coldpeel.Desk;

/// <summary>The form in which findings and tickets are kept in the store.</summary>
internal static class KeptJson
{
    private static readonly JsonSerializerOptions Form = new(JsonSerializerDefaults.Web)
    {
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower), new SentenceJson() },
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        IgnoreReadOnlyProperties = true,
    };

    public static string Write<T>(T value) => JsonSerializer.Serialize(value, Form);

    /// <exception cref="JsonException">It was not written by <see cref="Write"/>.</exception>
    public static T Read<T>(string json)
        where T : class => JsonSerializer.Deserialize<T>(json, Form) ?? throw new JsonException("Nothing was kept.");
}
