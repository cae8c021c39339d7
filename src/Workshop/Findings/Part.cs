namespace Coldpeel.Workshop.Findings;

/// <summary>What stands in a place of a <see cref="Sentence"/>.</summary>
public abstract record Part
{
    private Part() { }

    /// <summary>A name or another text that is the same in every language.</summary>
    /// <param name="Value">The text.</param>
    public sealed record Text(string Value) : Part;

    /// <summary>A figure that is no length.</summary>
    /// <param name="Value">The figure.</param>
    /// <param name="Format">Form as .NET writes numbers; empty for as exact as it is.</param>
    public sealed record Number(double Value, string Format) : Part;

    /// <summary>An exact figure.</summary>
    /// <param name="Value">The figure.</param>
    /// <param name="Format">Form as .NET writes numbers; empty for as exact as it is.</param>
    public sealed record Exact(decimal Value, string Format) : Part;

    /// <summary>Lengths that share one unit: one, or width × height.</summary>
    /// <param name="Mm">The length in mm.</param>
    /// <param name="By">The second in mm; null for one length.</param>
    /// <param name="Format">Form of the millimetres.</param>
    public sealed record Length(double Mm, double? By, string Format) : Part;

    /// <summary>An area.</summary>
    /// <param name="Mm2">The area in mm².</param>
    /// <param name="Format">Form of the figure, as it stands before mm² or cm².</param>
    /// <param name="InCm2">Whether it is told in cm² where lengths are in mm.</param>
    public sealed record Area(double Mm2, string Format, bool InCm2 = false) : Part;

    /// <summary>A day.</summary>
    /// <param name="Date">The day.</param>
    public sealed record Day(DateOnly Date) : Part;

    /// <summary>An amount of money.</summary>
    /// <param name="Amount">The amount.</param>
    /// <param name="Currency">Its ISO 4217 code.</param>
    /// <param name="Digits">Digits of its minor unit.</param>
    public sealed record Price(decimal Amount, string Currency, int Digits) : Part;

    /// <summary>A sentence within the sentence.</summary>
    /// <param name="Sentence">The inner one.</param>
    public sealed record Inner(Sentence Sentence) : Part;

    /// <summary>A sentence without the name at its head, for where that stands already: "vest: keep it dry" is "Keep it dry".</summary>
    /// <param name="Sentence">The sentence.</param>
    /// <param name="Head">The name at its head.</param>
    public sealed record Headless(Sentence Sentence, string Head) : Part;

    /// <summary>A sentence that goes on within another: in English its first letter is small.</summary>
    /// <param name="Sentence">The sentence.</param>
    public sealed record Lowered(Sentence Sentence) : Part;

    /// <summary>Sentences in a row.</summary>
    /// <param name="Sentences">One after another.</param>
    /// <param name="Between">What stands between two, the same in every language.</param>
    public sealed record Row(IReadOnlyList<Sentence> Sentences, string Between) : Part;
}

/// <summary>What can stand in a sentence as a part of its own kind.</summary>
public interface IPart
{
    /// <summary>The part.</summary>
    Part AsPart { get; }
}
