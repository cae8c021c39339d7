using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;

namespace Coldpeel.Workshop.Findings;

/// <summary>A sentence as a value: its English form with numbered places, and what stands in them, with its unit.</summary>
/// <remarks>
/// Written as any interpolated string; the compiler hands over form and parts one by one. The form is also the name under which
/// <see cref="Wording"/> finds the sentence in another language (docs/decisions/0014-sentences-as-values.md). As a text it is English and in
/// millimetres, the same in every culture: what files and commands say. Two sentences are equal when their English texts are.
/// </remarks>
[InterpolatedStringHandler]
public sealed class Sentence : IEquatable<Sentence>
{
    private readonly StringBuilder form;
    private readonly List<Part> parts;
    private string? english;

    /// <summary>An empty sentence, to be filled by the compiler.</summary>
    /// <param name="literalLength">Letters that are no part.</param>
    /// <param name="formattedCount">Parts.</param>
    public Sentence(int literalLength, int formattedCount)
    {
        form = new(literalLength + (3 * formattedCount));
        parts = new(formattedCount);
    }

    /// <summary>The sentence of that form with those parts.</summary>
    /// <exception cref="FormatException">The form asks for a part that is not there.</exception>
    public Sentence(string form, IEnumerable<Part> parts)
    {
        this.form = new(form);
        this.parts = [.. parts];
        _ = English;
    }

    /// <summary>Nothing said.</summary>
    public static Sentence Nothing { get; } = new("", []);

    /// <summary>The English form: text with {0}, {1} where parts stand.</summary>
    public string Form => form.ToString();

    /// <summary>What stands in the places, in the order of the English form.</summary>
    public IReadOnlyList<Part> Parts => parts;

    /// <summary>What it says in English, in millimetres.</summary>
    public string English => english ??= Wording.English.Say(this);

    /// <summary>Whether it says nothing.</summary>
    public bool IsEmpty => form.Length == 0;

    /// <summary>A text that has no places; another language knows it by the whole text, or leaves it as it is.</summary>
    [return: NotNullIfNotNull(nameof(text))]
    public static implicit operator Sentence?(string? text) => text is null ? null : new(Escaped(text), []);

    /// <summary>Called by the compiler.</summary>
    public void AppendLiteral(string value) => form.Append(Escaped(value));

    /// <summary>A name or another text that is the same in every language.</summary>
    public void AppendFormatted(string? value) => Add(new Part.Text(value ?? ""));

    /// <summary>A letter.</summary>
    public void AppendFormatted(char value) => Add(new Part.Text(value.ToString()));

    /// <summary>A sentence within this one.</summary>
    public void AppendFormatted(Sentence value) => Add(new Part.Inner(value));

    /// <summary>A part as it is.</summary>
    public void AppendFormatted(Part value) => Add(value);

    /// <summary>A count.</summary>
    public void AppendFormatted(int value) => Add(new Part.Number(value, "0"));

    /// <summary>A count in that form.</summary>
    public void AppendFormatted(int value, string format) => Add(new Part.Number(value, format));

    /// <summary>A count.</summary>
    public void AppendFormatted(long value) => Add(new Part.Number(value, "0"));

    /// <summary>A count, where there is one.</summary>
    public void AppendFormatted(int? value) =>
        Add(value is { } count ? new Part.Number(count, "0") : new Part.Text(""));

    /// <summary>A figure as exact as it is.</summary>
    public void AppendFormatted(double value) => Add(new Part.Number(value, ""));

    /// <summary>A figure in that form.</summary>
    public void AppendFormatted(double value, string format) => Add(new Part.Number(value, format));

    /// <summary>A figure in that form.</summary>
    public void AppendFormatted(float value, string format) => Add(new Part.Number(value, format));

    /// <summary>A figure in that form, where there is one.</summary>
    public void AppendFormatted(double? value, string format) =>
        Add(value is { } figure ? new Part.Number(figure, format) : new Part.Text(""));

    /// <summary>An exact figure as it is.</summary>
    public void AppendFormatted(decimal value) => Add(new Part.Exact(value, ""));

    /// <summary>An exact figure in that form.</summary>
    public void AppendFormatted(decimal value, string format) => Add(new Part.Exact(value, format));

    /// <summary>A day.</summary>
    public void AppendFormatted(DateOnly value) => Add(new Part.Day(value));

    /// <summary>What tells itself how it stands in a sentence, as an amount of money does.</summary>
    public void AppendFormatted(IPart value) => Add(value.AsPart);

    /// <summary>The sentence with that text taken out of its names, wherever it stands in them.</summary>
    public Sentence Without(string text) =>
        English.Contains(text, StringComparison.Ordinal)
            ? new(
                Form.Replace(Escaped(text), "", StringComparison.Ordinal),
                parts.Select(p =>
                    p switch
                    {
                        Part.Text name => new Part.Text(name.Value.Replace(text, "", StringComparison.Ordinal)),
                        Part.Inner inner => new Part.Inner(inner.Sentence.Without(text)),
                        _ => p,
                    }
                )
            )
            : this;

    /// <summary>The same with every name that it quotes (between “ and ”, or between two ") cut to so many letters.</summary>
    /// <param name="letters">Most letters of a quoted name, the ellipsis among them.</param>
    public Sentence QuotingAtMost(int letters)
    {
        var said = Form;
        return parts.Any(p => p is Part.Inner || (p is Part.Text text && text.Value.Length > letters))
            ? new(said, parts.Select((p, at) => Cut(p, at)))
            : this;

        Part Cut(Part part, int at) =>
            part switch
            {
                Part.Inner inner => new Part.Inner(inner.Sentence.QuotingAtMost(letters)),
                Part.Text text when text.Value.Length > letters && IsQuoted(at) => new Part.Text(
                    $"{text.Value[..(char.IsHighSurrogate(text.Value[letters - 2]) ? letters - 2 : letters - 1)]}…"
                ),
                _ => part,
            };

        bool IsQuoted(int at)
        {
            var place = $"{{{at.ToString(CultureInfo.InvariantCulture)}}}";
            return said.Contains($"“{place}”", StringComparison.Ordinal)
                || said.Contains($"\"{place}\"", StringComparison.Ordinal);
        }
    }

    /// <inheritdoc/>
    public bool Equals(Sentence? other) => other is not null && English == other.English;

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as Sentence);

    /// <inheritdoc/>
    public override int GetHashCode() => English.GetHashCode(StringComparison.Ordinal);

    /// <summary>What it says in English, in millimetres.</summary>
    public override string ToString() => English;

    private void Add(Part part)
    {
        form.Append(CultureInfo.InvariantCulture, $"{{{parts.Count}}}");
        parts.Add(part);
    }

    private static string Escaped(string text) =>
        text.AsSpan().ContainsAny('{', '}')
            ? text.Replace("{", "{{", StringComparison.Ordinal).Replace("}", "}}", StringComparison.Ordinal)
            : text;
}
