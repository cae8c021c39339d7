using System.Text.Json;
using System.Text.Json.Serialization;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Quotes;

namespace Coldpeel.Desk;

/// <summary>Keeps a sentence with its form and parts, so that it can be worded anew; what an earlier version kept as a text is read as that text.</summary>
internal sealed class SentenceJson : JsonConverter<Sentence>
{
    /// <inheritdoc/>
    public override Sentence? Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        if (reader.TokenType == JsonTokenType.String)
        {
            return reader.GetString();
        }

        var kept = JsonSerializer.Deserialize<Kept>(ref reader, options);
        return kept?.Form is null
            ? throw new JsonException("A sentence has no form.")
            : new(kept.Form, (kept.Parts ?? []).Select(Read));
    }

    /// <inheritdoc/>
    public override void Write(Utf8JsonWriter writer, Sentence value, JsonSerializerOptions options)
    {
        if (value.Parts.Count == 0)
        {
            writer.WriteStringValue(value.English);
            return;
        }

        JsonSerializer.Serialize(writer, new Kept(value.English, value.Form, [.. value.Parts.Select(Write)]), options);
    }

    // What it says in English stands beside it for whoever reads the store by other means.
    private sealed record Kept(string? Say, string? Form, KeptPart[]? Parts);

    private sealed record KeptPart
    {
        public string? Text { get; init; }

        public double? Number { get; init; }

        public decimal? Exact { get; init; }

        public string? Format { get; init; }

        public double? Mm { get; init; }

        public double? ByMm { get; init; }

        public double? Mm2 { get; init; }

        public bool? InCm2 { get; init; }

        public DateOnly? Day { get; init; }

        public decimal? Money { get; init; }

        public string? Currency { get; init; }

        public Sentence? Inner { get; init; }

        public string? Head { get; init; }

        public Sentence? Lowered { get; init; }

        public Sentence[]? Row { get; init; }

        public string? Between { get; init; }
    }

    private static KeptPart Write(Part part) =>
        part switch
        {
            Part.Text text => new() { Text = text.Value },
            Part.Number number => new() { Number = number.Value, Format = number.Format },
            Part.Exact exact => new() { Exact = exact.Value, Format = exact.Format },
            Part.Length length => new()
            {
                Mm = length.Mm,
                ByMm = length.By,
                Format = length.Format,
            },
            Part.Area area => new()
            {
                Mm2 = area.Mm2,
                InCm2 = area.InCm2 ? true : null,
                Format = area.Format,
            },
            Part.Day day => new() { Day = day.Date },
            Part.Price price => new() { Money = price.Amount, Currency = price.Currency },
            Part.Inner inner => new() { Inner = inner.Sentence },
            Part.Headless headless => new() { Inner = headless.Sentence, Head = headless.Head },
            Part.Lowered lowered => new() { Lowered = lowered.Sentence },
            Part.Row row => new() { Row = [.. row.Sentences], Between = row.Between },
            _ => throw new ArgumentOutOfRangeException(nameof(part), part, "No such part."),
        };

    private static Part Read(KeptPart kept) =>
        kept switch
        {
            { Number: { } number } => new Part.Number(number, kept.Format ?? ""),
            { Exact: { } exact } => new Part.Exact(exact, kept.Format ?? ""),
            { Mm: { } mm } => new Part.Length(mm, kept.ByMm, kept.Format ?? ""),
            { Mm2: { } mm2 } => new Part.Area(mm2, kept.Format ?? "", kept.InCm2 ?? false),
            { Day: { } day } => new Part.Day(day),
            { Money: { } money } => new Money(money, kept.Currency ?? "").InSentence,
            { Inner: { } inner, Head: { } head } => new Part.Headless(inner, head),
            { Inner: { } inner } => new Part.Inner(inner),
            { Lowered: { } lowered } => new Part.Lowered(lowered),
            { Row: { } row } => new Part.Row(row, kept.Between ?? ""),
            _ => new Part.Text(kept.Text ?? ""),
        };
}
