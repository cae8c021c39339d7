using System.Globalization;
using System.Text;
using System.Text.Json;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Json;

/// <summary>A JSON file that was read whole: its values, and the line on which each place begins.</summary>
internal sealed class JsonText
{
    private const int MostBytes = 4 * 1024 * 1024;
    private const int Deepest = 32;

    private readonly Dictionary<string, int> _lines;

    private JsonText(string shown, JsonElement root, Dictionary<string, int> lines) =>
        (Shown, Root, _lines) = (shown, root, lines);

    /// <summary>How the file is called in messages.</summary>
    public string Shown { get; }

    /// <summary>The whole value.</summary>
    public JsonElement Root { get; }

    /// <summary>Reads a file.</summary>
    public static Outcome<JsonText> Read(string path, string shown)
    {
        try
        {
            var size = new FileInfo(path).Length;
            return size > MostBytes
                ? new Fault(
                    shown,
                    $"is {size / 1024 / 1024} MB large.",
                    "A file of this kind has at most 4 MB: check that it is the right one."
                )
                : Parse(File.ReadAllBytes(path), shown);
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            return new Fault(shown, "there is no such file.", "Check the name and the folder.");
        }
        catch (Exception e) when (e is UnauthorizedAccessException or IOException)
        {
            return new Fault(
                shown,
                "the file cannot be opened.",
                "Check that it is a file, that you may read it, and that no other program holds it."
            );
        }
    }

    /// <summary>Reads text.</summary>
    public static Outcome<JsonText> Parse(byte[] utf8, string shown)
    {
        if (Utf8Text.Check(utf8, shown, out var text) is { } other)
        {
            return other;
        }

        var bytes = text.Span;
        try
        {
            var (lines, twice) = Scan(bytes, shown);
            if (twice is not null)
            {
                return twice;
            }

            var options = new JsonDocumentOptions { MaxDepth = Deepest };
            using var document = JsonDocument.Parse(bytes.ToArray(), options);
            return new JsonText(shown, document.RootElement.Clone(), lines);
        }
        catch (JsonException e)
        {
            return Broken(e, bytes, shown);
        }
    }

    /// <summary>A fault at a JSON Pointer: file, place as <c>items[2].quantity</c>, and line.</summary>
    public Fault Fault(string pointer, Sentence what, Sentence mend) =>
        new(Where(pointer), what, mend) { At = pointer };

    /// <summary>File, place and line of a JSON Pointer.</summary>
    public Sentence Where(string pointer)
    {
        var (place, line) = (Spoken(pointer), Line(pointer));
        return place.Length == 0 ? Shown
            : line == 0 ? (Sentence)$"{Shown}: {place}"
            : $"{Shown}: {place} (line {line})";
    }

    /// <summary>The line on which a place begins, from 1; 0 when there is no such place.</summary>
    public int Line(string pointer) => _lines.GetValueOrDefault(pointer);

    /// <summary>A JSON Pointer as people read it: <c>/items/2/quantity</c> is <c>items[2].quantity</c>.</summary>
    public static string Spoken(string pointer)
    {
        var said = new StringBuilder();
        foreach (var raw in pointer.Split('/').Skip(1))
        {
            var part = raw.Replace("~1", "/", StringComparison.Ordinal).Replace("~0", "~", StringComparison.Ordinal);
            _ =
                part.All(char.IsAsciiDigit) && part.Length > 0
                    ? said.Append(CultureInfo.InvariantCulture, $"[{part}]")
                    : said.Append(said.Length > 0 ? "." : "").Append(part);
        }

        return said.ToString();
    }

    /// <summary>A name as a step of a JSON Pointer.</summary>
    public static string Step(string name) =>
        "/" + name.Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal);

    private static (Dictionary<string, int> Lines, Fault? Twice) Scan(ReadOnlySpan<byte> bytes, string shown)
    {
        var reader = new Utf8JsonReader(bytes, new JsonReaderOptions { MaxDepth = Deepest });
        var lines = new Dictionary<string, int>(StringComparer.Ordinal);
        var open = new Stack<Level>();
        var place = "";
        var (line, counted) = (1, 0);
        while (reader.Read())
        {
            for (; counted < reader.TokenStartIndex; counted++)
            {
                line += bytes[counted] == '\n' ? 1 : 0;
            }

            if (reader.TokenType is JsonTokenType.EndObject or JsonTokenType.EndArray)
            {
                open.Pop();
                continue;
            }

            if (reader.TokenType == JsonTokenType.PropertyName)
            {
                var name = reader.GetString()!;
                place = open.Peek().Place + Step(name);
                if (!lines.TryAdd(place, line))
                {
                    return (
                        lines,
                        new Fault(
                            $"{shown}: {Spoken(place)} (line {line})",
                            $"the key \"{name}\" stands twice, first in line {lines[place]}.",
                            "Keep one of the two."
                        )
                    );
                }

                continue;
            }

            if (open.TryPeek(out var level) && level.IsArray)
            {
                place = string.Create(CultureInfo.InvariantCulture, $"{level.Place}/{level.Next++}");
                lines[place] = line;
            }

            if (reader.TokenType is JsonTokenType.StartObject or JsonTokenType.StartArray)
            {
                open.Push(new Level(place, reader.TokenType == JsonTokenType.StartArray));
            }
        }

        return (lines, null);
    }

    private static Fault Broken(JsonException e, ReadOnlySpan<byte> bytes, string shown)
    {
        var line = e.LineNumber ?? 0;
        var rest = bytes;
        for (var i = 0; i < line && rest.IndexOf((byte)'\n') is >= 0 and var end; i++)
        {
            rest = rest[(end + 1)..];
        }

        var column = Encoding.UTF8.GetCharCount(rest[..(int)Math.Min(e.BytePositionInLine ?? 0, rest.Length)]) + 1;
        var why = BrokenJson.Why(e.Message);
        return new(
            $"{shown}: line {line + 1}, column {column}",
            $"this is not well-formed JSON: {why}.",
            "Look there and just before for a missing or surplus comma, quote or bracket; comments are not allowed."
        );
    }

    private sealed class Level(string place, bool isArray)
    {
        public string Place { get; } = place;

        public bool IsArray { get; } = isArray;

        public int Next { get; set; }
    }
}
