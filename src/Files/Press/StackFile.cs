using Coldpeel.Files.Json;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Press;

/// <summary>Reads STACK.json: held against docs/schemas/stack.schema.json, then against the rules that a schema cannot hold.</summary>
public static class StackFile
{
    /// <summary>The stack and what is asked about it, or the first fault in the order of the file.</summary>
    public static Outcome<HeatAsk> Read(string path, string shownName)
    {
        var text = JsonText.Read(path, shownName);
        if (!text.Ok)
        {
            return text.Fault;
        }

        if (SchemaCheck.Of("stack").First(text.Value) is { } broken)
        {
            return broken;
        }

        return new StackReading(text.Value).Ask();
    }
}
