using System.Text.Json;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Press;

/// <summary>One object of a day file while it is read: every key is asked for by name, and what nobody asked for is refused.</summary>
internal sealed class DayFileObject
{
    private readonly JsonElement _element;
    private readonly string _place;
    private readonly string _shown;
    private readonly HashSet<string> _asked = new(StringComparer.Ordinal);

    public DayFileObject(string shown, string place, JsonElement element)
    {
        _shown = shown;
        _place = place;
        _element = element;
        if (element.ValueKind != JsonValueKind.Object)
        {
            throw Wrong("", $"is {Name(element)} instead of an object.", "Write it as { … }.");
        }

        // A name makes the place easier to find than a number alone.
        if (element.TryGetProperty("id", out var id) && id.ValueKind == JsonValueKind.String)
        {
            _place = $"{place} ({id.GetString()})";
        }
    }

    public string Text(string key)
    {
        var value = Needed(key);
        return value.ValueKind == JsonValueKind.String && !string.IsNullOrWhiteSpace(value.GetString())
            ? value.GetString()!
            : throw Wrong(key, $"is {Name(value)} instead of a text.", "Give a name in quotes.");
    }

    public string? OptionalText(string key) => Has(key) ? Text(key) : null;

    public int Whole(string key, int from, int to)
    {
        var value = Needed(key);
        if (
            value.ValueKind != JsonValueKind.Number
            || !value.TryGetDouble(out var number)
            || number != Math.Floor(number)
        )
        {
            throw Wrong(
                key,
                $"is {Name(value)} instead of a whole number.",
                $"Give a whole number from {from} to {to}."
            );
        }

        return number >= from && number <= to
            ? (int)number
            : throw Wrong(key, $"is {value.GetRawText()}.", $"Give a whole number from {from} to {to}.");
    }

    public double Above(string key, double above, double to)
    {
        var value = Needed(key);
        return
            value.ValueKind == JsonValueKind.Number
            && value.TryGetDouble(out var number)
            && number > above
            && number <= to
            ? number
            : throw Wrong(
                key,
                $"is {Name(value)}.",
                FormattableString.Invariant($"Give a number above {above} and up to {to}.")
            );
    }

    public ulong? OptionalSeed(string key)
    {
        if (!Has(key))
        {
            return null;
        }

        var value = Needed(key);
        return value.ValueKind == JsonValueKind.Number && value.TryGetUInt64(out var seed)
            ? seed
            : throw Wrong(key, $"is {Name(value)}.", "Give a whole number from 0 up.");
    }

    public bool Truth(string key)
    {
        var value = Needed(key);
        return value.ValueKind is JsonValueKind.True or JsonValueKind.False
            ? value.GetBoolean()
            : throw Wrong(key, $"is {Name(value)}.", "Give true or false.");
    }

    public bool Has(string key)
    {
        _asked.Add(key);
        return _element.TryGetProperty(key, out _);
    }

    public IEnumerable<DayFileObject> List(string key, int most)
    {
        var value = Needed(key);
        if (value.ValueKind != JsonValueKind.Array)
        {
            throw Wrong(key, $"is {Name(value)} instead of a list.", "Write it as [ … ].");
        }

        if (value.GetArrayLength() > most)
        {
            throw Wrong(key, $"holds {value.GetArrayLength()} entries.", $"A day holds at most {most}: split it.");
        }

        return value.EnumerateArray().Select((e, i) => new DayFileObject(_shown, $"{key}[{i}]", e)).ToList();
    }

    /// <summary>Refuses every key that nobody asked for; keys with a leading x- are the writer's own and pass.</summary>
    public void NothingElse()
    {
        foreach (var property in _element.EnumerateObject())
        {
            if (!_asked.Contains(property.Name) && !property.Name.StartsWith("x-", StringComparison.Ordinal))
            {
                throw Wrong(
                    property.Name,
                    "is not a key that stands here.",
                    $"Mend the spelling, or put x- in front to keep it as your own; known are {string.Join(", ", _asked)}."
                );
            }
        }
    }

    public DayFileFault Wrong(string key, string what, string mend)
    {
        var place = string.Join(
            ", ",
            new[] { _place, key.Length > 0 ? $"key \"{key}\"" : "" }.Where(p => p.Length > 0)
        );
        return new(new Fault(place.Length > 0 ? (Sentence)$"{_shown}, {place}" : _shown, what, mend));
    }

    private JsonElement Needed(string key)
    {
        _asked.Add(key);
        return _element.TryGetProperty(key, out var value)
            ? value
            : throw Wrong(key, "is missing.", "Add it; docs/schemas says what it holds.");
    }

    private static string Name(JsonElement value) =>
        value.ValueKind switch
        {
            JsonValueKind.Object => "an object",
            JsonValueKind.Array => "a list",
            JsonValueKind.Null => "null",
            JsonValueKind.String => $"\"{Short(value.GetString()!)}\"",
            _ => Short(value.GetRawText()),
        };

    private static string Short(string text) => text.Length <= 40 ? text : text[..40] + "…";
}

/// <summary>Carries a fault of the file up to the reader's door, where it becomes an <see cref="Outcome{T}"/>; it goes no further.</summary>
internal sealed class DayFileFault(Fault fault) : Exception(fault.ToString())
{
    public Fault Fault { get; } = fault;
}
