using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Json;

/// <summary>What the reader of JSON says of a text that is none, as a sentence that can be worded.</summary>
/// <remarks>Its messages are few and begin with the letter that stands in the way, where there is one: "'}' is invalid after …".</remarks>
internal static class BrokenJson
{
    /// <summary>The reason in such a message, without the place, which is told apart.</summary>
    public static Sentence Why(string message)
    {
        var said = message.Split(" LineNumber:")[0].Split(" Path:")[0].TrimEnd('.');
        var end = said.StartsWith('\'') ? said.IndexOf("' is ", StringComparison.Ordinal) : -1;
        if (end < 1)
        {
            return said;
        }

        var form = said[end..]
            .Replace("{", "{{", StringComparison.Ordinal)
            .Replace("}", "}}", StringComparison.Ordinal);
        return new($"'{{0}}{form}", [new Part.Text(said[1..end])]);
    }
}
