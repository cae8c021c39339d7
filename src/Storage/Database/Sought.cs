using System.Text;

namespace Coldpeel.Storage.Database;

/// <summary>Words as they are looked for: without case, and composed, so that every way to type a letter finds it.</summary>
internal static class Sought
{
    public static string Of(params string[] words) =>
        string.Join(' ', words).Normalize(NormalizationForm.FormKC).ToLowerInvariant().Trim();
}
