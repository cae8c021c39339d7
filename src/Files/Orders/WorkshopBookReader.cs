using System.Collections.Immutable;
using Coldpeel.Files.Json;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Files.Orders;

/// <summary>Reads a workshop file: first held against docs/schemas/workshop.schema.json, then against the rules that a schema cannot hold.</summary>
public static class WorkshopBookReader
{
    private static readonly Lazy<(byte[] Text, WorkshopBook Book)> Built = new(ReadExample);

    /// <summary>The workshop, or the first fault in the order of the file.</summary>
    /// <param name="path">The workshop file.</param>
    /// <param name="shownName">How it is called in messages.</param>
    public static Outcome<WorkshopBook> Read(string path, string shownName)
    {
        var text = JsonText.Read(path, shownName);
        return text.Ok ? From(text.Value) : text.Fault;
    }

    /// <summary>The same of a text that is no file of its own.</summary>
    public static Outcome<WorkshopBook> Parse(byte[] utf8, string shownName)
    {
        var text = JsonText.Parse(utf8, shownName);
        return text.Ok ? From(text.Value) : text.Fault;
    }

    /// <summary>The workshop of a text that was found good before it was kept: it is not held against the schema again, which takes a third of the time to the first page.</summary>
    /// <exception cref="InvalidOperationException">It is no workshop file.</exception>
    public static WorkshopBook Kept(byte[] utf8) => Good(utf8, "the workshop");

    /// <summary>All that is wrong with a text, each with its place in it; first what the schema says, and the other rules where it is content.</summary>
    public static ImmutableArray<Fault> Faults(byte[] utf8, string shownName)
    {
        var text = JsonText.Parse(utf8, shownName);
        if (!text.Ok)
        {
            return [text.Fault];
        }

        ImmutableArray<Fault> schema = [.. SchemaCheck.Of("workshop").All(text.Value)];
        return schema.IsEmpty ? [.. WorkshopRules.All(text.Value)] : schema;
    }

    /// <summary>The example workshop that is built in: invented presses and prices, figures with their sources.</summary>
    public static WorkshopBook Example() => Built.Value.Book;

    /// <summary>The example's file, to be copied and changed.</summary>
    public static byte[] ExampleText() => [.. Built.Value.Text];

    private static (byte[] Text, WorkshopBook Book) ReadExample()
    {
        using var stream =
            typeof(WorkshopBookReader).Assembly.GetManifestResourceStream("example-workshop.json")
            ?? throw new InvalidOperationException("The example workshop is not built in.");
        using var bytes = new MemoryStream();
        stream.CopyTo(bytes);
        return (bytes.ToArray(), Good(bytes.ToArray(), "the example workshop"));
    }

    private static WorkshopBook Good(byte[] utf8, string shownName)
    {
        var text = JsonText.Parse(utf8, shownName);
        return text.Ok
            ? WorkshopParts.Book(text.Value.Root)
            : throw new InvalidOperationException(text.Fault.ToString());
    }

    private static Outcome<WorkshopBook> From(JsonText text)
    {
        if (SchemaCheck.Of("workshop").First(text) is { } broken)
        {
            return broken;
        }

        return WorkshopRules.First(text) is { } fault ? fault : WorkshopParts.Book(text.Root);
    }
}
