using System.Collections;
using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Unicode;
using Coldpeel.Desk.Rooms;
using Coldpeel.Web.Words;

namespace Coldpeel.Web.Layout;

/// <summary>The words that scripts say, as a script of their own: out of the same resource files as those of the pages.</summary>
internal static class ScreenScript
{
    private static readonly JsonSerializerOptions Form = new()
    {
        Encoder = JavaScriptEncoder.Create(UnicodeRanges.All),
    };

    /// <summary>Name of the asset for the language of whoever reads.</summary>
    public static string Name => $"words-{Reader.Language}.js";

    /// <summary>The script of that name; null for a language that is not there.</summary>
    public static byte[]? Of(string name)
    {
        if (KeepSettings.Languages.FirstOrDefault(l => name == $"words-{l}.js") is not { } language)
        {
            return null;
        }

        var culture = CultureInfo.GetCultureInfo(language);
        var words = ScreenWords
            .ResourceManager.GetResourceSet(CultureInfo.InvariantCulture, createIfNotExists: true, tryParents: false)!
            .Cast<DictionaryEntry>()
            .Select(e => (string)e.Key)
            .Order(StringComparer.Ordinal)
            .ToDictionary(k => k, k => ScreenWords.ResourceManager.GetString(k, culture));
        return Encoding.UTF8.GetBytes(
            $"\"use strict\";\nglobalThis.coldpeel ??= {{}};\ncoldpeel.words = {JsonSerializer.Serialize(words, Form)};\n"
        );
    }
}
