using System.Text;
using System.Xml;
using System.Xml.Linq;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Artwork;

/// <summary>An SVG that may be drawn: well-formed, bounded, without entities, loops, scripts or references that lead outside.</summary>
/// <param name="Root">The svg element, with what is ignored already taken out.</param>
/// <param name="Notes">What was ignored, one sentence each.</param>
internal sealed record CheckedSvg(XElement Root, IReadOnlyList<Sentence> Notes);

/// <summary>Looks an SVG over before anything draws it.</summary>
internal static class SvgDocumentCheck
{
    public const int DeepestNesting = 128;
    public const int MostElements = 100_000;

    /// <summary>Characters of text and attributes, embedded pictures not counted.</summary>
    public const int MostCharacters = 20_000_000;

    private static readonly HashSet<string> Moving =
    [
        "animate",
        "animateColor",
        "animateMotion",
        "animateTransform",
        "set",
        "discard",
        "mpath",
    ];

    public static Outcome<CheckedSvg> Read(byte[] bytes, string shownName)
    {
        XElement root;
        try
        {
            var loaded = Load(bytes, shownName);
            if (!loaded.Ok)
            {
                return loaded.Fault;
            }

            root = loaded.Value;
        }
        catch (XmlException e)
        {
            return new Fault(
                $"{shownName}, line {e.LineNumber}",
                $"The SVG is broken: {FirstSentence(e.Message)}",
                "Save it again from the program it was drawn in, or ask for it again."
            );
        }

        if (root.Name.LocalName != "svg")
        {
            return new Fault(
                shownName,
                $"This is XML, but no SVG: its first element is <{Short(root.Name.LocalName)}>.",
                "Send it as SVG, PDF, PNG, JPEG, WebP or TIFF."
            );
        }

        var notes = TakeOut(root);
        return SvgReferences.Fault(root, shownName) is { } fault ? fault : new CheckedSvg(root, notes);
    }

    private static Outcome<XElement> Load(byte[] bytes, string shownName)
    {
        var settings = new XmlReaderSettings
        {
            DtdProcessing = DtdProcessing.Parse, // so that a declaration can be seen and refused; nothing is fetched
            XmlResolver = null,
            MaxCharactersFromEntities = 1,
            MaxCharactersInDocument = ArtworkReader.MostBytes,
        };
        using var reader = XmlReader.Create(new MemoryStream(bytes), settings);
        XElement? root = null;
        XElement? open = null;
        var (elements, characters) = (0, 0L);
        Fault Limit(string what) =>
            new(
                $"{shownName}, line {Line(reader)}",
                what,
                "Ask for a simpler drawing, or for a PNG at 600 pixels an inch."
            );
        while (reader.Read())
        {
            switch (reader.NodeType)
            {
                case XmlNodeType.DocumentType when reader.Value.Contains("<!", StringComparison.Ordinal):
                    return new Fault(
                        $"{shownName}, line {Line(reader)}",
                        "The SVG declares entities, which can hide anything.",
                        "Save it as plain SVG, without the drawing program's own data."
                    );
                case XmlNodeType.ProcessingInstruction when reader.Name == "xml-stylesheet":
                    return new Fault(
                        $"{shownName}, line {Line(reader)}",
                        $"The SVG asks for a style sheet in another file ({Short(reader.Value)}), which is never fetched.",
                        "Save it with its styles inside."
                    );
                case XmlNodeType.Element:
                    if (++elements > MostElements)
                    {
                        return Limit($"The SVG has more than {MostElements} elements.");
                    }

                    if (reader.Depth > DeepestNesting)
                    {
                        return Limit($"The SVG nests its elements more than {DeepestNesting} deep.");
                    }

                    var element = Element(reader, ref characters);
                    open?.Add(element);
                    root ??= element;
                    open = reader.IsEmptyElement ? open : element;
                    break;
                case XmlNodeType.EndElement:
                    open = open?.Parent;
                    break;
                case XmlNodeType.Text
                or XmlNodeType.CDATA
                or XmlNodeType.SignificantWhitespace
                or XmlNodeType.Whitespace:
                    characters += reader.Value.Length;
                    open?.Add(new XText(reader.Value));
                    break;
                default:
                    break;
            }

            if (characters > MostCharacters)
            {
                return Limit($"The SVG has more than {MostCharacters / 1_000_000} million characters of drawing.");
            }
        }

        return root!; // a document without a root element is an XmlException already
    }

    private static XElement Element(XmlReader reader, ref long characters)
    {
        // Some exports forget the name space; what is meant is plain.
        var space = reader.NamespaceURI.Length == 0 ? SvgReferences.Svg.NamespaceName : reader.NamespaceURI;
        var element = new XElement(XName.Get(reader.LocalName, space));
        while (reader.MoveToNextAttribute())
        {
            if (reader.NamespaceURI == XNamespace.Xmlns.NamespaceName)
            {
                continue;
            }

            characters += reader.Value.StartsWith("data:", StringComparison.Ordinal) ? 0 : reader.Value.Length;
            element.SetAttributeValue(XName.Get(reader.LocalName, reader.NamespaceURI), reader.Value);
        }

        reader.MoveToElement();
        return element;
    }

    /// <summary>Takes out what is not drawn here, and says so.</summary>
    private static List<Sentence> TakeOut(XElement root)
    {
        var notes = new List<Sentence>();
        var all = root.DescendantsAndSelf().ToList();
        if (Remove(all, e => e.Name.LocalName == "script") | RemoveAttributes(all, IsHandler))
        {
            notes.Add("Scripts in the SVG are ignored.");
        }

        if (Remove(all, e => Moving.Contains(e.Name.LocalName)))
        {
            notes.Add("The SVG moves; it is taken as it stands at the start.");
        }

        if (Remove(all, e => e.Name.LocalName is "foreignObject" or "iframe" or "video" or "audio" or "canvas"))
        {
            notes.Add("Web content inside the SVG (foreignObject) is not drawn.");
        }

        if (RemoveAttributes(all, a => a.Name.LocalName == "vector-effect"))
        {
            notes.Add("Strokes that keep their width on a screen grow and shrink with the drawing here.");
        }

        // What other programs keep for themselves, and what would turn "#name" into a link to elsewhere.
        Remove(all, e => e.Name.Namespace != SvgReferences.Svg || e.Name.LocalName == "metadata");
        RemoveAttributes(all, a => a.Name == XNamespace.Xml + "base");
        return notes;
    }

    private static bool IsHandler(XAttribute a) =>
        a.Name.Namespace == XNamespace.None
        && a.Name.LocalName.StartsWith("on", StringComparison.OrdinalIgnoreCase)
        && a.Name.LocalName.Length > 3;

    private static bool Remove(List<XElement> all, Func<XElement, bool> what)
    {
        var gone = all.Where(e => e.Parent is not null && what(e)).ToList();
        gone.ForEach(e => e.Remove());
        all.RemoveAll(gone.Contains);
        return gone.Count > 0;
    }

    private static bool RemoveAttributes(List<XElement> all, Func<XAttribute, bool> what)
    {
        var gone = all.SelectMany(e => e.Attributes()).Where(what).ToList();
        gone.ForEach(a => a.Remove());
        return gone.Count > 0;
    }

    private static int Line(XmlReader reader) => ((IXmlLineInfo)reader).LineNumber;

    private static string FirstSentence(string message)
    {
        var end = message.IndexOf(". ", StringComparison.Ordinal);
        return end < 0 ? message : message[..(end + 1)];
    }

    /// <summary>A customer's words, short enough for one line.</summary>
    public static string Short(string text)
    {
        var line = new StringBuilder();
        foreach (var c in text.Length > 80 ? $"{text[..77]}…" : text)
        {
            line.Append(char.IsControl(c) ? ' ' : c);
        }

        return line.ToString().Trim();
    }
}
