using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Artwork;

/// <summary>Follows what an SVG refers to: nothing outside itself, nothing in circles, nothing that multiplies without bound.</summary>
internal static partial class SvgReferences
{
    public static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    /// <summary>Elements that are drawn at most, counting each use of a symbol anew.</summary>
    public const int MostDrawn = 200_000;

    private static readonly string[] RasterTypes = ["data:image/png", "data:image/jpeg", "data:image/jpg"];

    /// <summary>The fault of its references, or null when they are sound.</summary>
    public static Fault? Fault(XElement root, string shownName)
    {
        foreach (var element in root.DescendantsAndSelf())
        {
            if (OutsideOf(element, shownName) is { } fault)
            {
                return fault;
            }
        }

        return Loops(root, shownName);
    }

    private static Fault? OutsideOf(XElement element, string shownName)
    {
        foreach (var attribute in element.Attributes())
        {
            var isLink = attribute.Name.LocalName is "href" or "src" && element.Name.LocalName is not "a";
            if (isLink && Judge(attribute.Value.Trim(), shownName) is { } link)
            {
                return link;
            }

            if (!isLink && InStyle(attribute.Value, shownName) is { } style)
            {
                return style;
            }
        }

        return element.Name.LocalName == "style" ? InStyle(element.Value, shownName) : null;
    }

    private static Fault? InStyle(string css, string shownName)
    {
        if (
            !css.Contains('(', StringComparison.Ordinal)
            && !css.Contains('@', StringComparison.Ordinal)
            && !css.Contains('\\', StringComparison.Ordinal)
        )
        {
            return null;
        }

        var plain = Comment().Replace(Escape().Replace(css, Unescape), "");
        foreach (Match import in Import().Matches(plain))
        {
            return Outside(import.Groups[1].Value, shownName);
        }

        foreach (Match url in Url().Matches(plain))
        {
            if (Judge(url.Groups[1].Value.Trim().Trim('"', '\'').Trim(), shownName) is { } fault)
            {
                return fault;
            }
        }

        return null;
    }

    private static Fault? Judge(string target, string shownName)
    {
        if (target.Length == 0 || target[0] == '#')
        {
            return null;
        }

        if (!RasterTypes.Any(t => target.StartsWith(t, StringComparison.OrdinalIgnoreCase)))
        {
            return Outside(target, shownName);
        }

        var header = ImageHeader.Read(Embedded(target), $"{shownName}, embedded picture");
        return header.Ok ? null : header.Fault;
    }

    /// <summary>Pixels of the picture that an element carries inside; none where it carries none that can be read.</summary>
    private static long PixelsOf(XElement element)
    {
        var target = element.Attributes().FirstOrDefault(a => a.Name.LocalName == "href")?.Value.Trim() ?? "";
        return
            RasterTypes.Any(t => target.StartsWith(t, StringComparison.OrdinalIgnoreCase))
            && ImageHeader.Read(Embedded(target), "") is { Ok: true, Value: var header }
            ? (long)header.Width * header.Height
            : 0;
    }

    private static byte[] Embedded(string target)
    {
        var comma = target.IndexOf(',', StringComparison.Ordinal);
        try
        {
            return comma > 0 && target[..comma].EndsWith(";base64", StringComparison.OrdinalIgnoreCase)
                ? Convert.FromBase64String(Uri.UnescapeDataString(target[(comma + 1)..]))
                : [];
        }
        catch (FormatException)
        {
            return [];
        }
    }

    private static Fault Outside(string target, string shownName) =>
        new(
            shownName,
            $"The SVG refers to something outside itself ({SvgDocumentCheck.Short(target)}), which is never fetched.",
            "Embed it, turn it into outlines, or take it out, and save again."
        );

    /// <summary>Whether anything uses itself, or uses of uses grow beyond bounds.</summary>
    private static Fault? Loops(XElement root, string shownName)
    {
        var byId = new Dictionary<string, XElement>(StringComparer.Ordinal);
        foreach (var element in root.DescendantsAndSelf())
        {
            if (element.Attribute("id")?.Value is { Length: > 0 } id)
            {
                byId.TryAdd(id, element);
            }
        }

        // Depth first through children and references; an element met again while still open is a loop.
        var drawn = new Dictionary<XElement, (long Drawn, double Work)>();
        var reading = new SvgReadWork(byId, PixelsOf);
        var open = new HashSet<XElement>();
        string? loop = null;
        var deepest = 0;

        (long Drawn, double Work) Count(XElement element, int depth)
        {
            deepest = Math.Max(deepest, depth);
            if (drawn.TryGetValue(element, out var known))
            {
                return known;
            }

            if (depth > 2 * SvgDocumentCheck.DeepestNesting)
            {
                return (1, 0);
            }

            if (!open.Add(element))
            {
                loop ??= element.Attribute("id")?.Value ?? element.Name.LocalName;
                return (1, 0);
            }

            var sum = (Drawn: 1L, Work: reading.Of(element));
            foreach (var next in element.Elements().Concat(Targets(element, byId)))
            {
                var (more, work) = Count(next, depth + 1);
                // A marker is drawn at every point.
                var times = next.Name.LocalName == "marker" && next.Parent != element ? SvgReadWork.Points(element) : 1;
                sum = (Math.Min(sum.Drawn + more, int.MaxValue), Math.Min(sum.Work + (work * times), 1e12));
                if (loop is not null)
                {
                    break;
                }
            }

            open.Remove(element);
            drawn[element] = sum;
            return sum;
        }

        var (total, seconds) = Count(root, 0);
        seconds += SvgReadWork.OfStyles(root);
        const string Mend = "Ask for a simpler drawing with its symbols expanded.";
        return loop is not null
                ? new(
                    shownName,
                    $"In the SVG \"{SvgDocumentCheck.Short(loop)}\" uses itself, in a circle without end.",
                    Mend
                )
            : deepest > 2 * SvgDocumentCheck.DeepestNesting
                ? new(
                    shownName,
                    $"The SVG nests its elements and uses more than {2 * SvgDocumentCheck.DeepestNesting} deep.",
                    Mend
                )
            : total > MostDrawn
                ? new(shownName, $"With every use counted the SVG draws more than {MostDrawn} elements.", Mend)
            : seconds > SvgReadWork.Most
                ? new(
                    shownName,
                    "The SVG is too intricate to read: too many texts, style rules, filter steps, markers, clips or embedded pixels, with every use counted.",
                    "Ask for a simpler drawing, or for a PNG at 600 pixels an inch."
                )
            : null;
    }

    private static IEnumerable<XElement> Targets(XElement element, Dictionary<string, XElement> byId)
    {
        foreach (var attribute in element.Attributes())
        {
            if (attribute.Name.LocalName == "href" && element.Name.LocalName is not "a")
            {
                if (attribute.Value.Trim() is ['#', .. var id] && byId.TryGetValue(id, out var target))
                {
                    yield return target;
                }
            }
            else if (attribute.Value.Contains("url(", StringComparison.OrdinalIgnoreCase))
            {
                foreach (Match url in Url().Matches(attribute.Value))
                {
                    if (
                        url.Groups[1].Value.Trim().Trim('"', '\'') is ['#', .. var id]
                        && byId.TryGetValue(id, out var target)
                    )
                    {
                        yield return target;
                    }
                }
            }
        }
    }

    private static string Unescape(Match escape) =>
        int.TryParse(escape.Groups[1].Value, NumberStyles.HexNumber, CultureInfo.InvariantCulture, out var code)
        && code is > 0 and < 0xD800
            ? ((char)code).ToString()
            : escape.Groups[2].Value;

    [GeneratedRegex(@"\\(?:([0-9a-fA-F]{1,6})\s?|(.))", RegexOptions.Singleline)]
    private static partial Regex Escape();

    [GeneratedRegex(@"/\*.*?(\*/|$)", RegexOptions.Singleline)]
    private static partial Regex Comment();

    [GeneratedRegex(@"@import\s*([^;]*)", RegexOptions.IgnoreCase)]
    private static partial Regex Import();

    [GeneratedRegex(@"url\s*\(([^)]*)\)?", RegexOptions.IgnoreCase)]
    private static partial Regex Url();
}
